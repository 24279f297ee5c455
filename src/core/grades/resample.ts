/** Resampling with replacement, and what the resampled values say. */
import { type Known, known, unknown } from '../known.ts';
import type { Random } from '../random.ts';

/**
 * Draws `units` unit numbers (0 to units - 1) with replacement, `draws` times, and hands each sample to `visit` in one
 * array that is used again. Takes one integer of `random` a unit and draw, seldom more. Throws RangeError unless both
 * counts are whole and at least 1, and units at most 2^21, so that products stay exact. Sources: Efron & Tibshirani 1993,
 * An Introduction to the Bootstrap, ch. 6; Lemire 2019, ACM Transactions on Modeling and Computer Simulation 29:3
 * (choice of a unit without division, from memory).
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
  if (units > mostUnits) throw new RangeError(`units want at most ${mostUnits}, got ${units}`);
  const sample = new Uint32Array(units);
  const unfair = 4294967296 % units;
  for (let draw = 0; draw < draws; draw += 1) {
    for (let at = 0; at < units; at += 1) {
      // The upper part of integer times units is the unit; the lower part says whether it would favour one unit.
      let product = random.uint32() * units;
      let unit = Math.floor(product / 4294967296);
      while (product - unit * 4294967296 < unfair) {
        product = random.uint32() * units;
        unit = Math.floor(product / 4294967296);
      }
      sample[at] = unit;
    }
    visit(sample, draw);
  }
}

const mostUnits = 2 ** 21;

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
  const count = values.length;
  let sum = 0;
  for (let at = 0; at < count; at += 1) {
    const value = values[at] ?? NaN;
    if (!Number.isFinite(value)) throw new RangeError(`a resampled value wants to be finite, got ${value}`);
    sum += value;
  }
  const mean = sum / count;
  let squares = 0;
  for (let at = 0; at < count; at += 1) squares += ((values[at] ?? 0) - mean) ** 2;
  const standardError = Math.sqrt(squares / (count - 1));
  return known({ mean, standardError, ...percentileEnds(values, confidence, mean, standardError) });
}

/**
 * Ends of the percentile interval (R's type 7 quantiles) of finite values, at least one. `mean` and `sd` only guide the
 * search, any numbers give the same answer: own code because sorting just the two tails is several times as fast as a
 * library's quantile of all values, and a class asks for hundreds.
 */
export function percentileEnds(values: ArrayLike<number>, confidence: number, mean: number, sd: number) {
  const count = values.length;
  const tail = (1 - confidence) / 2;
  const rank = (count - 1) * tail;
  const low = new Float64Array(count);
  const high = new Float64Array(count);
  let lows = 0;
  let highs = 0;
  for (let at = 0; at < count; at += 1) {
    const value = values[at] ?? 0;
    if (value <= mean - sd) low[lows++] = value;
    if (value >= mean + sd) high[highs++] = -value;
  }
  const enough = Math.ceil(rank) + 1;
  const bottom = lows >= enough ? low.subarray(0, lows) : Float64Array.from(values);
  const top = highs >= enough ? high.subarray(0, highs) : Float64Array.from(values, (value) => -value);
  return { low: atRank(bottom.sort(), rank), high: -atRank(top.sort(), rank) };
}

function atRank(sorted: Float64Array, rank: number): number {
  const below = sorted[Math.floor(rank)] ?? 0;
  const above = sorted[Math.ceil(rank)] ?? below;
  return below + (rank - Math.floor(rank)) * (above - below);
}
