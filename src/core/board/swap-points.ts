/** How little a weight has to change before someone else is first. */
import { type Known, known, unknown } from '../known.ts';
import { normaliseWeights } from '../rubric/weights.ts';

/** For one weight: the nearest value at which another runner draws level with the first; weights are shares of 1. */
export type SwapPoint = {
  /** Index of the weight, of the runner who is first now, and of the one who takes over. */
  readonly weight: number;
  readonly first: number;
  readonly challenger: number;
  readonly from: number;
  readonly to: number;
  /** to - from: below 0 when the weight has to shrink. */
  readonly change: number;
};

/** Why there is none. */
export type NoSwap = 'never' | 'no weight' | 'fewer than two' | 'tied';

/**
 * For each weight the smallest change that swaps the top place, exactly: the one weight moves, the others keep their
 * proportions to each other and fill up to 1. `scores` is one row a runner, one column a weight, any finite numbers.
 * With d the lead on this trait and r the lead on the rest, the lead is level at w = r / (r - d). Reasons: 'never' when no
 * value from 0 to 1 does it, 'tied' when the top place is shared already, 'no weight', 'fewer than two' runners. Throws
 * RangeError on a ragged table or a number that is not finite.
 */
export function swapPoints(
  scores: readonly (readonly number[])[],
  weights: readonly number[],
): readonly Known<SwapPoint, NoSwap>[] {
  for (const row of scores) {
    if (row.length !== weights.length || !row.every((score) => Number.isFinite(score))) {
      throw new RangeError(`rows of ${weights.length} finite scores wanted, got ${row.length}`);
    }
  }
  const shares = normaliseWeights(weights);
  if (!shares.known) return weights.map(() => shares);
  if (scores.length < 2) {
    return weights.map(() => unknown('fewer than two', `A swap needs two runners, got ${scores.length}.`));
  }
  const totals = scores.map((row) => row.reduce((sum, score, at) => sum + score * (shares.value[at] ?? 0), 0));
  const first = totals.reduce((best, total, at) => (total > (totals[best] ?? 0) ? at : best), 0);
  const top = totals[first] ?? 0;
  // Equal to rounding counts as tied: the winner of such a pair is an accident of the order of summation.
  const near = 1e-12 * Math.max(1, Math.abs(top));
  if (totals.some((total, at) => at !== first && top - total <= near)) {
    return weights.map(() => unknown('tied', 'The first place is shared already.'));
  }
  return shares.value.map((from, weight): Known<SwapPoint, NoSwap> => {
    let nearest: SwapPoint | undefined;
    for (const challenger of scores.keys()) {
      if (challenger === first) continue;
      const own = (scores[first]?.[weight] ?? 0) - (scores[challenger]?.[weight] ?? 0);
      const rest = restLead(scores[first] ?? [], scores[challenger] ?? [], shares.value, weight);
      if (rest === undefined || rest === own) continue;
      const to = rest / (rest - own);
      if (!(to >= 0 && to <= 1)) continue;
      const change = to - from;
      if (nearest === undefined || Math.abs(change) < Math.abs(nearest.change)) {
        nearest = { weight, first, challenger, from, to, change };
      }
    }
    return nearest === undefined
      ? unknown('never', 'No value of this weight alone changes the first place.')
      : known(nearest);
  });
}

/** The lead on all other traits with their weights filled up to 1; undefined when this weight is all there is. */
function restLead(
  first: readonly number[],
  challenger: readonly number[],
  shares: readonly number[],
  weight: number,
): number | undefined {
  let lead = 0;
  let total = 0;
  for (const [at, share] of shares.entries()) {
    if (at === weight) continue;
    lead += share * ((first[at] ?? 0) - (challenger[at] ?? 0));
    total += share;
  }
  return total > 0 ? lead / total : undefined;
}
