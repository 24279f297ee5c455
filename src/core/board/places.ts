/** How often each runner takes each place over a set of draws. */
import type { TraitDraws } from './trait-draws.ts';

/** Weighted scores, draw by draw and runner by runner, in points times the weights' unit. */
export type ScoreDraws = { readonly runners: readonly string[]; readonly draws: number; readonly values: Float64Array };

/** Row by row a runner: share of draws in which he takes the first, second, ... place; rows and columns add up to 1. */
export type Places = {
  readonly runners: readonly string[];
  readonly chance: Float64Array;
  /** Mean place, 1 the best, per runner. */
  readonly expectedPlace: Float64Array;
};

/**
 * Every runner's weighted score of each draw, with weights that are either one set for all draws (length: traits) or one
 * set a draw (length: draws times traits); they need not add up to 1. Throws RangeError on another length or a weight
 * that is negative or not finite.
 */
export function scoreDraws(draws: TraitDraws, weights: ArrayLike<number>): ScoreDraws {
  const width = draws.traits.length;
  const runners = draws.runners.length;
  const each = weights.length === draws.draws * width && draws.draws > 1;
  if (!each && weights.length !== width) {
    throw new RangeError(`weights want ${width} or ${draws.draws * width} entries, got ${weights.length}`);
  }
  const all = Float64Array.from(weights);
  for (const weight of all) {
    if (!(weight >= 0 && weight < Infinity)) throw new RangeError(`a weight wants 0 or more, got ${weight}`);
  }
  const values = new Float64Array(draws.draws * runners);
  let at = 0;
  let to = 0;
  for (let draw = 0; draw < draws.draws; draw += 1) {
    const own = each ? draw * width : 0;
    for (let runner = 0; runner < runners; runner += 1) {
      let sum = 0;
      for (let trait = 0; trait < width; trait += 1) {
        sum += (all[own + trait] ?? 0) * (draws.values[at] ?? 0);
        at += 1;
      }
      values[to] = sum;
      to += 1;
    }
  }
  return { runners: draws.runners, draws: draws.draws, values };
}

/**
 * Chance of each place over scored draws; ties, which draws do not have, keep the runners' order. With scoreDraws fast
 * enough for a moving slider: time grows with draws, runners and traits.
 */
export function placesOf(scores: ScoreDraws): Places {
  const runners = scores.runners.length;
  const order = Int32Array.from({ length: runners }, (_, at) => at);
  const counts = new Float64Array(runners * runners);
  const totals = new Float64Array(runners);
  for (let draw = 0; draw < scores.draws; draw += 1) {
    const base = draw * runners;
    // The order of the draw before is nearly that of this one: insertion moves little.
    for (let place = 1; place < runners; place += 1) {
      const runner = order[place] ?? 0;
      const score = scores.values[base + runner] ?? 0;
      let to = place;
      for (; to > 0; to -= 1) {
        const before = order[to - 1] ?? 0;
        const other = scores.values[base + before] ?? 0;
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
  }
  const share = 1 / Math.max(1, scores.draws);
  return {
    runners: scores.runners,
    chance: counts.map((count) => count * share),
    expectedPlace: totals.map((total) => total * share),
  };
}

/** Chance that each runner (row) is above each other (column) over scored draws, 0 to 1, the diagonal .5. */
export function pairwiseChances(scores: ScoreDraws): readonly (readonly number[])[] {
  const runners = scores.runners.length;
  const above = new Int32Array(runners * runners);
  for (let draw = 0; draw < scores.draws; draw += 1) {
    const from = draw * runners;
    for (let row = 1; row < runners; row += 1) {
      const own = scores.values[from + row] ?? 0;
      const base = row * runners;
      for (let column = 0; column < row; column += 1) {
        above[base + column] = (above[base + column] ?? 0) + Number(own > (scores.values[from + column] ?? 0));
      }
    }
  }
  return scores.runners.map((_, row) =>
    scores.runners.map((__, column) => {
      if (row === column) return 0.5;
      const chance = (above[Math.max(row, column) * runners + Math.min(row, column)] ?? 0) / scores.draws;
      return row > column ? chance : 1 - chance;
    }),
  );
}
