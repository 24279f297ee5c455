/** What a set of noisy estimates says about the spread of the truths behind them, and the prior that follows. */
import { type Known, known, unknown } from '../known.ts';

/** The moment estimate of between-unit variance and the pooled mean under it, in the estimates' unit (squared). */
export type BetweenVariance = {
  readonly between: number;
  /** Cochran's Q and its degrees of freedom, units less one. */
  readonly q: number;
  readonly degrees: number;
  /** Share of the estimates' variance that is between units, 0 to 1. */
  readonly share: number;
  readonly mean: number;
  readonly meanVariance: number;
};

/**
 * Between-unit variance of estimates with known variances by the method of moments, never below 0, and the
 * random-effects mean. Reason 'fewer than two' units. Throws RangeError when lengths differ or a variance is not from 1e-100
 * to 1e100. Source: DerSimonian & Laird 1986, Controlled Clinical Trials 7:177-188.
 */
export function betweenVariance(
  estimates: ArrayLike<number>,
  variances: ArrayLike<number>,
): Known<BetweenVariance, 'fewer than two'> {
  check(estimates, variances);
  const count = estimates.length;
  if (count < 2) return unknown('fewer than two', `A spread needs two estimates, got ${count}.`);
  let sum = 0;
  let sumSquares = 0;
  let weighted = 0;
  for (let at = 0; at < count; at += 1) {
    const weight = 1 / (variances[at] ?? 0);
    sum += weight;
    sumSquares += weight * weight;
    weighted += weight * (estimates[at] ?? 0);
  }
  const fixed = weighted / sum;
  let q = 0;
  for (let at = 0; at < count; at += 1) q += ((estimates[at] ?? 0) - fixed) ** 2 / (variances[at] ?? 0);
  const degrees = count - 1;
  const lever = sum - sumSquares / sum;
  // One estimate so sure that the others vanish beside it: they tell nothing of a spread.
  const between = lever > 1e-12 * sum ? Math.max(0, (q - degrees) / lever) : 0;
  const { mean, variance } = meanUnder(estimates, variances, between);
  const share = q > 0 ? Math.max(0, (q - degrees) / q) : 0;
  return known({ between, q, degrees, share, mean, meanVariance: variance });
}

/** A normal prior for one more unit: `mean`, `variance` between units, and what is not known of the mean. */
export type NormalPrior = {
  readonly mean: number;
  readonly meanVariance: number;
  readonly variance: number;
  /** 2/(units - 3): times B^2 (estimate - mean)^2 it is what is not known of the variance. */
  readonly morris: number;
};

/**
 * The empirical-Bayes prior of estimates with known variances: the moment variance enlarged so that the shrinkage B at
 * the typical (harmonic mean) variance is (units - 3)/(units - 1) of the plain one. With equal variances that is the
 * James-Stein factor of Efron & Morris exactly. Reason 'fewer than four' units. Throws RangeError as betweenVariance.
 * Source: Morris 1983, Journal of the American Statistical Association 78:47-55; Efron & Morris 1975, same, 70:311-319.
 */
export function normalPrior(
  estimates: ArrayLike<number>,
  variances: ArrayLike<number>,
): Known<NormalPrior, 'fewer than four'> {
  const count = estimates.length;
  const moments = betweenVariance(estimates, variances);
  if (!moments.known || count < 4) return unknown('fewer than four', `A prior needs four estimates, got ${count}.`);
  let precision = 0;
  for (let at = 0; at < count; at += 1) precision += 1 / (variances[at] ?? 0);
  const typical = count / precision;
  const variance = ((typical + moments.value.between) * (count - 1)) / (count - 3) - typical;
  const { mean, variance: meanVariance } = meanUnder(estimates, variances, variance);
  return known({ mean, meanVariance, variance, morris: 2 / (count - 3) });
}

/** A unit's truth given its own estimate and a prior; `shrink` is the share B taken from the prior, 0 to 1. */
export type Shrunken = { readonly mean: number; readonly variance: number; readonly shrink: number };

/**
 * Posterior mean and variance of one unit from its estimate and that estimate's variance (above 0), the variance
 * carrying what is not known of the prior's mean and variance: V(1 - B) + B^2 var(mean) + morris B^2 (estimate - mean)^2.
 * With `own` left out (nothing observed) it is the prior. Throws RangeError on a variance not above 0.
 * Source: Morris 1983, as above.
 */
export function shrunken(prior: NormalPrior, own?: { readonly estimate: number; readonly variance: number }): Shrunken {
  if (own === undefined) return { mean: prior.mean, variance: prior.variance + prior.meanVariance, shrink: 1 };
  if (!(own.variance > 0 && Number.isFinite(own.variance) && Number.isFinite(own.estimate))) {
    throw new RangeError(`an estimate wants a variance above 0, got ${own.estimate} with ${own.variance}`);
  }
  const shrink = own.variance / (own.variance + prior.variance);
  const gap = own.estimate - prior.mean;
  return {
    mean: prior.mean + (1 - shrink) * gap,
    variance: own.variance * (1 - shrink) + shrink * shrink * (prior.meanVariance + prior.morris * gap * gap),
    shrink,
  };
}

/** Below this, or above its inverse, squares of weights leave what a number can hold. */
const leastVariance = 1e-100;

function check(estimates: ArrayLike<number>, variances: ArrayLike<number>) {
  if (estimates.length !== variances.length) {
    throw new RangeError(`a variance for each estimate wanted, got ${estimates.length} and ${variances.length}`);
  }
  for (let at = 0; at < estimates.length; at += 1) {
    const variance = variances[at] ?? 0;
    if (!(variance >= leastVariance && variance <= 1 / leastVariance && Number.isFinite(estimates[at] ?? NaN))) {
      throw new RangeError(`a finite estimate with a variance above 0 wanted, got ${estimates[at]} with ${variance}`);
    }
  }
}

function meanUnder(estimates: ArrayLike<number>, variances: ArrayLike<number>, between: number) {
  let sum = 0;
  let weighted = 0;
  for (let at = 0; at < estimates.length; at += 1) {
    const weight = 1 / ((variances[at] ?? 0) + between);
    sum += weight;
    weighted += weight * (estimates[at] ?? 0);
  }
  return { mean: weighted / sum, variance: 1 / sum };
}
