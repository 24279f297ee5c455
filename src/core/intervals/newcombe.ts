/** Newcombe's hybrid score interval for the difference of two independent shares. */
import { type Known, known, unknown } from '../known.ts';
import { type Count, type Interval, wilson } from './wilson.ts';

/** A difference of shares (first less second, -1 to 1) with its interval. */
export type ShareDifference = Interval & { readonly difference: number };

/**
 * Difference of two shares, first less second, with the hybrid score interval (method 10) at a level in (0, 1), 0.95 if
 * not given. All three numbers lie from -1 to 1. Reason 'no trials' when either side has none. Throws RangeError on
 * counts that are not whole numbers with 0 <= hits <= n.
 * Source: Newcombe 1998, Statistics in Medicine 17:873-890, method 10.
 */
export function newcombe(first: Count, second: Count, level = 0.95): Known<ShareDifference, 'no trials'> {
  const one = wilson(first, level);
  const two = wilson(second, level);
  if (!one.known || !two.known) {
    return unknown('no trials', `A difference needs carries on both sides, got ${first.n} and ${second.n}.`);
  }
  const p = first.hits / first.n;
  const q = second.hits / second.n;
  const difference = p - q;
  return known({
    difference,
    low: Math.max(-1, difference - Math.hypot(p - one.value.low, two.value.high - q)),
    high: Math.min(1, difference + Math.hypot(one.value.high - p, q - two.value.low)),
  });
}
