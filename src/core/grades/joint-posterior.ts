/** A runner's posterior over all traits at once: what the overall grade, comparisons and the board draw on. */
import { shrunken } from './normal-prior.ts';
import type { Pooled, TraitPool } from './pooled.ts';
import { errorCovariance, type RunnerMoments } from './runner-moments.ts';

/** One entry a trait, in the rubric's order; plain data. A trait without marks is the class prior. */
export type JointPosterior = {
  readonly traits: readonly string[];
  readonly mean: readonly number[];
  /** Positive semi-definite; its diagonal is the square of each trait's sd. */
  readonly covariance: readonly (readonly number[])[];
  readonly df: readonly number[];
  /** Whether the runner has a mark of the trait. */
  readonly marked: readonly boolean[];
};

/**
 * Covariance of the errors of two shrunken grades, (1 - B)(1 - B') C + BB' T + what is not known of the class, where C
 * is the covariance of the runner's own errors and T that of runners around the class. Its diagonal is the variance
 * `shrunken` gives. Derived in docs/method.md; every part is a product of a positive semi-definite matrix with an
 * equal-correlation one, so the whole is positive semi-definite.
 */
export function jointPosterior(
  moments: RunnerMoments,
  pooled: Pooled,
  traits: readonly string[],
  pools: readonly TraitPool[],
): JointPosterior {
  const posteriors = pools.map((pool, at) => {
    const variance = moments.variance[at] ?? 0;
    return variance > 0
      ? shrunken(pool.prior, { estimate: moments.estimate[at] ?? 0, variance })
      : shrunken(pool.prior);
  });
  const fromClass = pools.map((pool, at) => (posteriors[at]?.shrink ?? 0) * Math.sqrt(pool.prior.variance));
  const notKnown = pools.map((pool, at) => {
    const posterior = posteriors[at];
    if (posterior === undefined) return 0;
    const own = moments.variance[at] ?? 0;
    return Math.sqrt(Math.max(0, posterior.variance - (own > 0 ? own * (1 - posterior.shrink) : pool.prior.variance)));
  });
  const covariance = posteriors.map((posterior) => {
    const row = traits.map(() => 0);
    return { posterior, row };
  });
  for (const [row, own] of covariance.entries()) {
    own.row[row] = own.posterior.variance;
    for (let column = 0; column < row; column += 1) {
      const other = covariance[column];
      if (other === undefined) continue;
      const error = errorCovariance(moments, pools, pooled.together, row, column);
      const value =
        (1 - own.posterior.shrink) * (1 - other.posterior.shrink) * error +
        pooled.together.runner *
          ((fromClass[row] ?? 0) * (fromClass[column] ?? 0) + (notKnown[row] ?? 0) * (notKnown[column] ?? 0));
      own.row[column] = value;
      other.row[row] = value;
    }
  }
  return {
    traits,
    mean: posteriors.map((posterior) => posterior.mean),
    covariance: covariance.map((one) => one.row),
    df: pools.map((pool) => pool.degrees),
    marked: pools.map((_, at) => (moments.variance[at] ?? 0) > 0),
  };
}
