import type { RubricBody } from '../contract/rows.ts';
import { gradeInFigures } from './in-figures.ts';

/** A standard that a grade is held against. */
export type Bar = RubricBody['bars'][number];

/** A bar's name and height, and that it is provisional where it is: "A college starter 2.9, provisional". */
export function barInWords({ name, value, calibrated }: Bar): string {
  return `${name} ${gradeInFigures(value)}${calibrated ? '' : ', provisional'}`;
}

/** A bar's name inside a sentence: "A college starter" becomes "a college starter"; names in capitals stay. */
export function barInSentence({ name }: Bar): string {
  return /^(A|An|The) /.test(name) ? name.charAt(0).toLowerCase() + name.slice(1) : name;
}
