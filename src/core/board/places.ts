/** How often each runner takes each place over a set of draws. */
import type { TraitDraws } from './trait-draws.ts';

/** Row by row a runner: share of draws in which he takes the first, second, ... place; rows and columns add up to 1. */
export type Places = {
  readonly runners: readonly string[];
  readonly chance: Float64Array;
  /** Mean place, 1 the best, per runner. */
  readonly expectedPlace: Float64Array;
};

/**
 * Chance of each place with weights that are either one set for all draws (length: traits) or one set a draw (length:
 * draws times traits); weights need not add up to 1. Ties, which draws do not have, would keep the runners' order. Fast
 * enough for a moving slider: time grows with draws, runners and traits. Throws RangeError on another length or a weight
 * that is negative or not finite.
 */
export function placesOf(draws: TraitDraws, weights: ArrayLike<number>): Places {
  const runners = draws.runners.length;
  const scores = new Float64Array(runners);
  const order = Int32Array.from({ length: runners }, (_, at) => at);
  const counts = new Float64Array(runners * runners);
  const totals = new Float64Array(runners);
  eachDraw(draws, weights, scores, () => {
    // The order of the draw before is nearly that of this one: insertion moves little.
    for (let place = 1; place < runners; place += 1) {
      const runner = order[place] ?? 0;
      const score = scores[runner] ?? 0;
      let to = place;
      for (; to > 0; to -= 1) {
        const before = order[to - 1] ?? 0;
        const other = scores[before] ?? 0;
        if (other > score || (other === score && before < runner)) break;
        order[to] = before;
      }
      order[to] = runner;
    }
    for (let place = 0; place < runners; place += 1) {
      const runner = order[place] ?? 0;
      counts[runner * runners + place] = (counts[runner * runners + place] ?? 0) + 1;
      totals[runner] = (totals[runner] ?? 0) + place + 1;
    }
  });
  const share = 1 / Math.max(1, draws.draws);
  return {
    runners: draws.runners,
    chance: counts.map((count) => count * share),
    expectedPlace: totals.map((total) => total * share),
  };
}

/**
 * Chance that each runner (row) is above each other (column), 0 to 1, the diagonal .5; weights and throws as placesOf.
 */
export function pairwiseChances(draws: TraitDraws, weights: ArrayLike<number>): readonly (readonly number[])[] {
  const runners = draws.runners.length;
  const scores = new Float64Array(runners);
  const above = new Int32Array(runners * runners);
  eachDraw(draws, weights, scores, () => {
    for (let row = 1; row < runners; row += 1) {
      const own = scores[row] ?? 0;
      const base = row * runners;
      for (let column = 0; column < row; column += 1) {
        above[base + column] = (above[base + column] ?? 0) + Number(own > (scores[column] ?? 0));
      }
    }
  });
  return draws.runners.map((_, row) =>
    draws.runners.map((__, column) => {
      if (row === column) return 0.5;
      const chance = (above[Math.max(row, column) * runners + Math.min(row, column)] ?? 0) / draws.draws;
      return row > column ? chance : 1 - chance;
    }),
  );
}

/** Fills `scores` with every runner's weighted score of each draw, then calls `visit`. */
export function eachDraw(
  draws: TraitDraws,
  weights: ArrayLike<number>,
  scores: Float64Array,
  visit: (draw: number) => void,
): void {
  const width = draws.traits.length;
  const each = weights.length === draws.draws * width && draws.draws > 1;
  if (!each && weights.length !== width) {
    throw new RangeError(`weights want ${width} or ${draws.draws * width} entries, got ${weights.length}`);
  }
  for (let at = 0; at < weights.length; at += 1) {
    const weight = weights[at] ?? 0;
    if (!(weight >= 0 && weight < Infinity)) throw new RangeError(`a weight wants 0 or more, got ${weight}`);
  }
  const own = Float64Array.from({ length: width }, (_, trait) => weights[trait] ?? 0);
  const values = draws.values;
  let at = 0;
  for (let draw = 0; draw < draws.draws; draw += 1) {
    if (each) for (let trait = 0; trait < width; trait += 1) own[trait] = weights[draw * width + trait] ?? 0;
    for (let runner = 0; runner < scores.length; runner += 1) {
      let sum = 0;
      for (let trait = 0; trait < width; trait += 1) {
        sum += (own[trait] ?? 0) * (values[at] ?? 0);
        at += 1;
      }
      scores[runner] = sum;
    }
    visit(draw);
  }
}
