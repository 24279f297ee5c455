/** Where every runner stands over scored draws: the part of the board that has to be ready while a weight moves. */
import { percentileEnds } from '../grades/resample.ts';
import { placesOf, type ScoreDraws } from './places.ts';

/** One runner's standing. Places count from 1; chances are 0 to 1; the score is in points of the 1 to 5 scale. */
export type Standing = {
  readonly runner: string;
  readonly place: number;
  readonly score: number;
  readonly expectedPlace: number;
  /** Chance of first, second, ... place, and of being the best. */
  readonly places: readonly number[];
  readonly best: number;
  /** Places that hold 90 % of the draws, from the middle out. */
  readonly likelyFrom: number;
  readonly likelyTo: number;
};

/**
 * Standings, best first, by posterior mean of the weighted traits; equal means keep the runners' order. `means` has one
 * row a runner in the order of `scored`, one column a trait; `shares` are the weights by trait, adding up to 1. Throws
 * RangeError when there are not as many rows of means as runners.
 */
export function standings(
  scored: ScoreDraws,
  means: readonly (readonly number[])[],
  shares: readonly number[],
): readonly Standing[] {
  const size = scored.runners.length;
  if (means.length !== size) throw new RangeError(`means of ${size} runners wanted, got ${means.length}`);
  const scores = means.map((mean) => mean.reduce((sum, one, at) => sum + one * (shares[at] ?? 0), 0));
  const order = means.map((_, at) => at).sort((a, b) => (scores[b] ?? 0) - (scores[a] ?? 0) || a - b);
  const places = placesOf(scored);
  return order.map((at, row) => {
    const chances = Array.from(places.chance.subarray(at * size, (at + 1) * size));
    return {
      runner: scored.runners[at] ?? '',
      place: row + 1,
      score: scores[at] ?? 0,
      expectedPlace: places.expectedPlace[at] ?? 0,
      places: chances,
      best: chances[0] ?? 0,
      ...likelyPlaces(chances, 0.9),
    };
  });
}

/** The ends of each runner's 95 % interval of the score over draws, by runner id, kept within 1 and 5. */
export function scoreEnds(scored: ScoreDraws): ReadonlyMap<string, { readonly low: number; readonly high: number }> {
  const runners = scored.runners.length;
  const column = new Float64Array(scored.draws);
  return new Map(
    scored.runners.map((id, runner) => {
      for (let draw = 0; draw < scored.draws; draw += 1) column[draw] = scored.values[draw * runners + runner] ?? 0;
      const mean = column.reduce((sum, one) => sum + one, 0) / column.length;
      const sd = Math.sqrt(column.reduce((sum, one) => sum + (one - mean) ** 2, 0) / column.length);
      const ends = percentileEnds(column, 0.95, mean, sd);
      return [id, { low: onScale(ends.low), high: onScale(ends.high) }] as const;
    }),
  );
}

const onScale = (value: number) => Math.min(5, Math.max(1, value));

/** Cuts places off the rarer end while what is left still holds the share wanted. */
function likelyPlaces(chances: readonly number[], share: number) {
  let from = 0;
  let to = chances.length - 1;
  let held = 1;
  while (from < to) {
    const first = chances[from] ?? 0;
    const last = chances[to] ?? 0;
    const cut = Math.min(first, last);
    if (held - cut < share) break;
    held -= cut;
    if (first < last) from += 1;
    else to -= 1;
  }
  return { likelyFrom: from + 1, likelyTo: to + 1 };
}
