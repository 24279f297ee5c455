/** A runner's decisions taken together. */
import tQuantile from '@stdlib/stats-base-dists-t-quantile';
import { mean, sampleVariance } from 'simple-statistics';
import { type Known, known, unknown } from '../known.ts';
import { type Rate, rateOf, smallBelow } from '../plays/success-rate.ts';
import type { ValueLeft } from './value-left.ts';

/** A mean in points with its 95 % interval (t, one decision one observation). */
export type MeanPoints = { readonly mean: number; readonly low: number; readonly high: number };

/** Value left over decisions. */
export type RunnerDecisions = {
  readonly n: number;
  readonly small: boolean;
  /** Mean points left a decision, and the part equal lanes would show by chance. */
  readonly left: number;
  readonly byChance: number;
  /** Mean of left less by chance: 0 is choosing at will among equals; below 0 is better than that. */
  readonly beyondChance: Known<MeanPoints, 'one decision'>;
  /** How often the taken lane was the best, and the safer one, of those listed. */
  readonly best: Rate;
  readonly safer: Rate;
};

/**
 * Sums up decisions that have a value left. Reason 'no decisions'; the interval wants two ('one decision'). Throws RangeError
 * on points that are not numbers within 1000 either way.
 * Source: Student's t interval of a mean.
 */
export function runnerDecisions(decisions: readonly ValueLeft[]): Known<RunnerDecisions, 'no decisions'> {
  const n = decisions.length;
  for (const { points, byChance, beyondChance } of decisions) {
    if (![points, byChance, beyondChance].every((value) => Math.abs(value) <= 1000)) {
      throw new RangeError(
        `a value left wants points of at most 1000 either way, got ${points}, ${byChance}, ${beyondChance}`,
      );
    }
  }
  const best = rateOf({ hits: decisions.filter(({ takenIsBest }) => takenIsBest).length, n });
  const safer = rateOf({ hits: decisions.filter(({ takenIsSafer }) => takenIsSafer).length, n });
  if (!best.known || !safer.known) return unknown('no decisions', 'No decision has its lanes listed and one taken.');
  return known({
    n,
    small: n < smallBelow,
    left: mean(decisions.map(({ points }) => points)),
    byChance: mean(decisions.map(({ byChance }) => byChance)),
    beyondChance: meanPoints(decisions.map(({ beyondChance }) => beyondChance)),
    best: best.value,
    safer: safer.value,
  });
}

function meanPoints(values: number[]): Known<MeanPoints, 'one decision'> {
  const n = values.length;
  if (n < 2) return unknown('one decision', 'An interval needs at least two decisions, got one.');
  const centre = mean(values);
  const half = tQuantile(0.975, n - 1) * Math.sqrt(sampleVariance(values) / n);
  return known({ mean: centre, low: centre - half, high: centre + half });
}
