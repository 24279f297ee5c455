/** Wilson's score interval for a share. */
import normalQuantile from '@stdlib/stats-base-dists-normal-quantile';
import { type Known, known, unknown } from '../known.ts';

/** How often something happened out of how many tries; whole numbers, 0 <= hits <= n. */
export type Count = { readonly hits: number; readonly n: number };

/** A range in the units of what it surrounds. */
export type Interval = { readonly low: number; readonly high: number };

/**
 * Wilson's score interval for hits out of n (whole numbers, 0 <= hits <= n), at a level in (0, 1), 0.95 if not given:
 * two shares from 0 to 1. The lower end is exactly 0 without a hit, the upper exactly 1 without a miss. Reason
 * 'no trials' when n is 0. Throws RangeError on other counts or levels.
 * Source: Wilson 1927, J. Am. Stat. Assoc. 22:209-212; Newcombe 1998, Statistics in Medicine 17:857-872.
 */
export function wilson(count: Count, level = 0.95): Known<Interval, 'no trials'> {
  checkCount(count);
  const { hits, n } = count;
  if (n === 0) return unknown('no trials', 'A share needs at least one carry, got none.');
  const z = normalTwoSided(level);
  const rate = hits / n;
  const centre = hits + (z * z) / 2;
  const spread = z * Math.sqrt(n * rate * (1 - rate) + (z * z) / 4);
  const under = n + z * z;
  return known({
    low: hits === 0 ? 0 : Math.max(0, (centre - spread) / under),
    high: hits === n ? 1 : Math.min(1, (centre + spread) / under),
  });
}

/** The normal deviate that leaves (1 - level) / 2 on either side; level in (0, 1), else throws RangeError. */
export function normalTwoSided(level: number): number {
  if (!(level > 0 && level < 1)) throw new RangeError(`a level wants a number between 0 and 1, got ${level}`);
  return normalQuantile(1 - (1 - level) / 2, 0, 1);
}

/** Throws RangeError unless hits and n are whole numbers with 0 <= hits <= n. */
export function checkCount(count: Count): void {
  const { hits, n } = count;
  if (!(Number.isSafeInteger(hits) && Number.isSafeInteger(n) && hits >= 0 && hits <= n)) {
    throw new RangeError(`a count wants whole numbers with 0 <= hits <= n, got ${hits} of ${n}`);
  }
}
