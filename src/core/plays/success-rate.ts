/** Rates of success with what chance allows, and their differences. */
import { newcombe } from '../intervals/newcombe.ts';
import { checkCount, type Count, wilson } from '../intervals/wilson.ts';
import { type Known, known, unknown } from '../known.ts';
import { type GainedCarry, isSuccess } from './success.ts';
import type { SuccessRule } from './success-rules.ts';

/** A rate from 0 to 1 with its 95 % Wilson interval, what it rests on, and whether that is a small sample. */
export type Rate = {
  readonly rate: number;
  readonly low: number;
  readonly high: number;
  readonly hits: number;
  readonly n: number;
  readonly small: boolean;
};

/** A sample under this many carries is called small. The program's own convention, no source. */
export const smallBelow = 20;

/** A count as a rate with its Wilson interval (see intervals/wilson.ts). Reason 'no carries' when n is 0. */
export function rateOf(count: Count): Known<Rate, 'no carries'> {
  checkCount(count);
  const interval = wilson(count);
  if (!interval.known) return unknown('no carries', 'A rate needs at least one carry, got none.');
  const { hits, n } = count;
  return known({ rate: hits / n, ...interval.value, hits, n, small: n < smallBelow });
}

/** How many of the carries succeeded by the rule. Throws RangeError on a gain that cannot be. */
export function successCount(carries: readonly GainedCarry[], rule: SuccessRule): Count {
  return { hits: carries.filter((carry) => isSuccess(carry, rule)).length, n: carries.length };
}

/** The success rate of carries by a rule. Reason 'no carries'. Throws RangeError on a gain that cannot be. */
export function successRate(carries: readonly GainedCarry[], rule: SuccessRule): Known<Rate, 'no carries'> {
  return rateOf(successCount(carries, rule));
}

/** A difference of two rates, first less second, from -1 to 1, with Newcombe's 95 % interval. */
export type RateDifference = {
  readonly difference: number;
  readonly low: number;
  readonly high: number;
  readonly first: Rate;
  readonly second: Rate;
  /** True when either side is a small sample. */
  readonly small: boolean;
};

/**
 * The difference of two counts' rates (intervals/newcombe.ts, method 10); the two must not share carries. Reason
 * 'no carries' when either side has none.
 */
export function rateDifference(first: Count, second: Count): Known<RateDifference, 'no carries'> {
  const one = rateOf(first);
  const two = rateOf(second);
  const both = newcombe(first, second);
  if (!one.known || !two.known || !both.known) {
    return unknown('no carries', `A difference needs carries on both sides, got ${first.n} and ${second.n}.`);
  }
  return known({ ...both.value, first: one.value, second: two.value, small: one.value.small || two.value.small });
}
