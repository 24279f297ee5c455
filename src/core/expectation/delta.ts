/** What a runner gained over expected, with what chance allows and how far it should be trusted. */
import { type Known, known, unknown } from '../known.ts';
import { smallBelow } from '../plays/success-rate.ts';
import type { ExpectedYards } from './expected-yards.ts';
import type { Spread } from './yards-model.ts';

/** One carry against its expectation. */
export type Residual = {
  /** Gain less expected mean, yards. */
  readonly delta: number;
  /** Variance of the gain by the model, yards squared. */
  readonly variance: number;
  /** 1 or 0 (success by the expectation's own rule) less the chance of it, -1 to 1. */
  readonly successOver: number;
  /** The chance of success, 0 to 1. */
  readonly chance: number;
};

/**
 * Sets a carry's gain (whole yards) beside its expectation. Throws RangeError on a gain that is not whole or longer than
 * the way to the goal line. A carry's situation explains about 2 % of the variance of gains: a single delta says little.
 */
export function residualOf(gain: number, expected: ExpectedYards): Residual {
  const longest = expected.chances.from + expected.chances.chances.length - 1;
  if (!(Number.isInteger(gain) && gain >= -110 && gain <= longest)) {
    throw new RangeError(`a gain wants whole yards from -110 to ${longest} (the goal line), got ${gain}`);
  }
  return {
    delta: gain - expected.mean,
    variance: expected.variance,
    successOver: (gain >= expected.needed ? 1 : 0) - expected.chanceOfSuccess,
    chance: expected.chanceOfSuccess,
  };
}

/** A mean over carries against expectation, in yards or (success) as a share. */
export type OverExpected = {
  readonly mean: number;
  /** Of the mean, by the model's own variance of each carry: about 7.9 / sqrt(n) yards in college. */
  readonly standardError: number;
  /** sum / (n + k): what to believe of the runner. */
  readonly shrunk: number;
  /** n / (n + k), from 0 to 1: the part of the mean that is kept. */
  readonly reliability: number;
  readonly n: number;
  readonly small: boolean;
};

/**
 * Mean yards over expected a carry. Reason 'no carries'; throws RangeError on residuals that are not finite. It includes the line: see overTeammates.
 * Source of the shrinkage: Efron & Morris 1975, J. Am. Stat. Assoc. 70:311-319, with k = carry variance / variance
 * between runner-seasons from the model's file.
 */
export function deltaSummary(carries: readonly Residual[], spread: Spread): Known<OverExpected, 'no carries'> {
  return overExpected(
    carries.map(({ delta }) => delta),
    carries.map(({ variance }) => variance),
    spread.shrinkCarries,
  );
}

/** Mean success over expected a carry, a share from -1 to 1; otherwise as deltaSummary. */
export function successOverExpected(carries: readonly Residual[], spread: Spread): Known<OverExpected, 'no carries'> {
  return overExpected(
    carries.map(({ successOver }) => successOver),
    carries.map(({ chance }) => chance * (1 - chance)),
    spread.shrinkCarries,
  );
}

function overExpected(
  values: readonly number[],
  variances: readonly number[],
  shrinkCarries: number,
): Known<OverExpected, 'no carries'> {
  const n = values.length;
  if (n === 0) return unknown('no carries', 'A mean over expected needs at least one carry, got none.');
  const sum = values.reduce((total, value) => total + value, 0);
  const variance = variances.reduce((total, value) => total + value, 0);
  if (!(Number.isFinite(sum) && variance >= 0 && variance < Infinity)) {
    throw new RangeError(`residuals want finite numbers and variances from 0, got sums ${sum} and ${variance}`);
  }
  return known({
    mean: sum / n,
    standardError: Math.sqrt(variance) / n,
    shrunk: sum / (n + shrinkCarries),
    reliability: reliabilityOf(n, shrinkCarries),
    n,
    small: n < smallBelow,
  });
}

/**
 * The part of a mean over n carries (whole, from 0) that is the runner's and not chance: n / (n + k), k above 0; from 0
 * to 1. Throws RangeError on other numbers. Source: Spearman 1910 and Brown 1910, with r = 1 / (1 + k) for one carry.
 */
export function reliabilityOf(n: number, shrinkCarries: number): number {
  if (!(Number.isInteger(n) && n >= 0 && shrinkCarries > 0 && shrinkCarries < Infinity)) {
    throw new RangeError(`reliability wants whole carries from 0 and k above 0, got ${n} and ${shrinkCarries}`);
  }
  return n / (n + shrinkCarries);
}

/** The mean over expected after each carry, in the order given (yards), with its standard error. */
export type RunningMean = { readonly n: number; readonly mean: number; readonly standardError: number };

/** Running mean of delta: one entry a carry; none for no carries. Throws as deltaSummary. */
export function runningDelta(carries: readonly Residual[]): readonly RunningMean[] {
  let sum = 0;
  let variance = 0;
  return carries.map((carry, at) => {
    sum += carry.delta;
    variance += carry.variance;
    if (!(Number.isFinite(sum) && variance >= 0 && variance < Infinity)) {
      throw new RangeError(`residuals want finite numbers and variances from 0, got sums ${sum} and ${variance}`);
    }
    return { n: at + 1, mean: sum / (at + 1), standardError: Math.sqrt(variance) / (at + 1) };
  });
}
