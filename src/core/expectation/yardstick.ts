import { classicRule, collegeRule, ownRule } from '../plays/success-rules.ts';
import type { CarryYardstick } from './carry-figures.ts';
import { yardsModels } from './yards-model.ts';

/** A study's choices by name: the success rule (own: whole percents a down), the fit, and whether to borrow the box effect. */
export type YardstickChoice = {
  readonly successRule: 'classic' | 'college' | 'own';
  readonly ownShares: readonly [number, number, number, number];
  readonly yardsModel: 'college' | 'professional' | 'professional with box';
  readonly borrowBox: boolean;
};

/** The yardstick of a study's choices. Throws RangeError on own shares that are not whole percents. */
export function yardstickOf({ successRule, ownShares, yardsModel, borrowBox }: YardstickChoice): CarryYardstick {
  const rules = { classic: classicRule, college: collegeRule, own: ownRule('own', ownShares) } as const;
  return { model: yardsModels[yardsModel], rule: rules[successRule], borrowBox };
}
