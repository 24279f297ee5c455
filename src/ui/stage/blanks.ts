import type { Blank } from './blank.ts';
import { designBlanks } from './design-blanks.ts';
import { resultBlanks } from './result-blanks.ts';
import { situationBlanks } from './situation-blanks.ts';

/** The play sentence: its blanks in reading order. */
export const blanks: readonly Blank[] = [...situationBlanks, ...designBlanks, ...resultBlanks];
