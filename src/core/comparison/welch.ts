/** Difference of two means whose spreads may differ: for expected-yards deltas of two runners. */
import tCdf from '@stdlib/stats-base-dists-t-cdf';
import tQuantile from '@stdlib/stats-base-dists-t-quantile';
import { type Known, known, unknown } from '../known.ts';

/** Count, mean and standard deviation (divisor count - 1) of a sample, in its unit. */
export type SampleSummary = { readonly count: number; readonly mean: number; readonly sd: number };

/** First less second, in the samples' unit; `p` is two-sided, `chance` that the first mean is above, both 0 to 1. */
export type WelchDifference = {
  readonly difference: number;
  readonly standardError: number;
  readonly t: number;
  readonly df: number;
  readonly p: number;
  readonly low: number;
  readonly high: number;
  readonly chance: number;
};

/** Why there is none. */
export type NoWelch = 'fewer than two' | 'no spread';

/**
 * Welch's difference of two means from samples of finite numbers. Reasons: 'fewer than two' values on a side, 'no
 * spread' when neither sample varies. Throws RangeError on a non-finite value or a confidence outside 0 to 1.
 * Source: Welch 1947, Biometrika 34:28-35.
 */
export function welch(
  first: readonly number[],
  second: readonly number[],
  confidence = 0.95,
): Known<WelchDifference, NoWelch> {
  return welchFrom(summaryOf(first), summaryOf(second), confidence);
}

/** The same from summaries. Throws RangeError on a count that is not whole, or an sd below 0. */
export function welchFrom(
  first: SampleSummary,
  second: SampleSummary,
  confidence = 0.95,
): Known<WelchDifference, NoWelch> {
  if (!(confidence > 0 && confidence < 1)) throw new RangeError(`a confidence wants 0 to 1, got ${confidence}`);
  for (const { count, mean, sd } of [first, second]) {
    if (!Number.isInteger(count) || count < 0 || !Number.isFinite(mean) || !(sd >= 0 && sd < Infinity)) {
      throw new RangeError(`a sample wants a whole count and an sd from 0, got ${count} and ${sd}`);
    }
  }
  if (first.count < 2 || second.count < 2) {
    return unknown('fewer than two', `Two values on each side wanted, got ${first.count} and ${second.count}.`);
  }
  const one = first.sd ** 2 / first.count;
  const other = second.sd ** 2 / second.count;
  if (one + other === 0) return unknown('no spread', 'All values on each side are equal.');
  const difference = first.mean - second.mean;
  const standardError = Math.sqrt(one + other);
  // Shares instead of variances, so that tiny or huge units do not lose the degrees of freedom.
  const share = one / (one + other);
  const df = 1 / (share ** 2 / (first.count - 1) + (1 - share) ** 2 / (second.count - 1));
  const t = difference / standardError;
  const reach = tQuantile(0.5 + confidence / 2, df) * standardError;
  return known({
    difference,
    standardError,
    t,
    df,
    p: Math.min(1, 2 * tCdf(-Math.abs(t), df)),
    low: difference - reach,
    high: difference + reach,
    chance: tCdf(t, df),
  });
}

function summaryOf(values: readonly number[]): SampleSummary {
  for (const value of values) {
    if (!Number.isFinite(value)) throw new RangeError(`a sample wants finite values, got ${value}`);
  }
  const count = values.length;
  if (count === 0) return { count, mean: 0, sd: 0 };
  const mean = values.reduce((sum, value) => sum + value, 0) / count;
  const squares = values.reduce((sum, value) => sum + (value - mean) ** 2, 0);
  return { count, mean, sd: count > 1 ? Math.sqrt(squares / (count - 1)) : 0 };
}
