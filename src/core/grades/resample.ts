/** Resampling with replacement, and what the resampled values say. */
import { quantileSorted } from 'd3-array';
import { type Known, known, unknown } from '../known.ts';
import type { Random } from '../random.ts';

/**
 * Draws `units` unit numbers (0 to units - 1) with replacement, `draws` times, and hands each sample to `visit` in one
 * array that is used again. Takes one integer of `random` a unit and draw, seldom more. Throws RangeError unless both
 * counts are whole and at least 1. Source: Efron & Tibshirani 1993, An Introduction to the Bootstrap, ch. 6.
 */
export function resample(
  units: number,
  draws: number,
  random: Random,
  visit: (sample: Uint32Array, draw: number) => void,
): void {
  for (const count of [units, draws]) {
    if (!Number.isInteger(count) || count < 1)
      throw new RangeError(`a count wants a whole number from 1, got ${count}`);
  }
  const sample = new Uint32Array(units);
  for (let draw = 0; draw < draws; draw += 1) {
    for (let at = 0; at < units; at += 1) sample[at] = random.below(units);
    visit(sample, draw);
  }
}

/** What resampled values say of an estimate, in its unit. */
export type Spread = {
  readonly mean: number;
  /** Bootstrap standard error: standard deviation with divisor draws - 1. */
  readonly standardError: number;
  readonly low: number;
  readonly high: number;
};

/**
 * Mean, standard error and percentile interval (R's type 7 quantiles) of resampled values. Reason 'fewer than two
 * draws'. Throws RangeError on a confidence outside 0 to 1 or a value that is not finite. Source: as for resample, ch. 13.
 */
export function spreadOf(values: ArrayLike<number>, confidence = 0.95): Known<Spread, 'fewer than two draws'> {
  if (!(confidence > 0 && confidence < 1)) throw new RangeError(`a confidence wants 0 to 1, got ${confidence}`);
  if (values.length < 2) return unknown('fewer than two draws', `A spread needs two draws, got ${values.length}.`);
  const sorted = [...Float64Array.from(values).sort()];
  let sum = 0;
  for (const value of sorted) {
    if (!Number.isFinite(value)) throw new RangeError(`a resampled value wants to be finite, got ${value}`);
    sum += value;
  }
  const mean = sum / sorted.length;
  let squares = 0;
  for (const value of sorted) squares += (value - mean) ** 2;
  const tail = (1 - confidence) / 2;
  return known({
    mean,
    standardError: Math.sqrt(squares / (sorted.length - 1)),
    low: quantileSorted(sorted, tail) ?? mean,
    high: quantileSorted(sorted, 1 - tail) ?? mean,
  });
}
