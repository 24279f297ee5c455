/** Which unmarked carries would tell most about the order, were they marked. */
import normalCdf from '@stdlib/stats-base-dists-normal-cdf';
import { cellTable } from '../grades/cell-table.ts';
import { type GameStatistics, gameStatistics } from '../grades/game-statistics.ts';
import { poolsOf, traitKeys } from '../grades/grade-class.ts';
import { clearnessWeight, type GradeMark, type MarkClearness } from '../grades/grade-mark.ts';
import { jointPosterior } from '../grades/joint-posterior.ts';
import type { Pooled } from '../grades/pooled.ts';
import { runnerMoments } from '../grades/runner-moments.ts';
import { type Known, known, unknown } from '../known.ts';
import type { Rubric } from '../rubric/rubric.ts';
import { traitWeights } from '../rubric/weights.ts';

/** A carry nobody has marked. `clearness`: how well it can be seen, where that is known; partial is expected otherwise. */
export type UnmarkedCarry = {
  readonly runner: string;
  readonly game: string;
  readonly carry: string;
  readonly clearness?: MarkClearness;
};

/** What marking it is expected to do. */
export type WatchNext = {
  readonly runner: string;
  readonly game: string;
  readonly carry: string;
  /** Expected number of runners whose order with this one changes. */
  readonly swaps: number;
  /** Standard deviation of how far the runner's overall grade would move, points. */
  readonly movement: number;
};

/**
 * Unmarked carries from the one whose marking is expected to change the order most. Marking takes the variance of the
 * runner's overall grade from v to v', so the grade itself moves as a normal of variance v - v'; the chance that it then
 * passes another runner's is summed over the others. A carry is expected to show each trait as often as the study's
 * marked carries do. Ties go by runner, game and carry. Reasons: 'no weight', 'fewer than two' runners, 'nothing
 * unmarked'. The pre-posterior argument is Raiffa & Schlaifer 1961, Applied Statistical Decision Theory (memory).
 */
export function watchNext(
  unmarked: readonly UnmarkedCarry[],
  marks: readonly GradeMark[],
  pooled: Pooled,
  rubric: Rubric,
): Known<readonly WatchNext[], 'no weight' | 'fewer than two' | 'nothing unmarked'> {
  const shares = traitWeights(rubric);
  if (!shares.known) return shares;
  if (unmarked.length === 0) return unknown('nothing unmarked', 'Every carry is marked.');
  const weights = shares.value.map((share) => share.overall);
  const keys = traitKeys(rubric);
  const table = cellTable(marks, keys, pooled.leniency);
  const runnerAt = new Map(table.runners.map((runner, at) => [runner, at]));
  for (const { runner } of unmarked) if (!runnerAt.has(runner)) runnerAt.set(runner, -1);
  if (runnerAt.size < 2) return unknown('fewer than two', `An order needs two runners, got ${runnerAt.size}.`);
  const statistics = gameStatistics(table);
  const pools = poolsOf(rubric, pooled);
  const shown = traitRates(table.weight, keys.length);

  /** Overall mean and variance of a runner with his games as summarised, and what each trait can be expected to show. */
  const overall = (games: GameStatistics, count: number, leniencyVariance: number) => {
    const view = { ...table, leniencyVariance: Float64Array.of(leniencyVariance) };
    const moments = runnerMoments(view, games, 0, pools, { from: 0, to: count });
    const joint = jointPosterior(moments, pooled, keys, pools);
    const expected = pools.map((pool, at) =>
      (moments.variance[at] ?? 0) > 0 ? (moments.estimate[at] ?? 0) : pool.prior.mean,
    );
    let mean = 0;
    let variance = 0;
    for (const [row, weight] of weights.entries()) {
      mean += weight * (joint.mean[row] ?? 0);
      for (const [column, other] of weights.entries())
        variance += weight * other * (joint.covariance[row]?.[column] ?? 0);
    }
    return { mean, variance, expected };
  };
  const ownGames = (at: number) => {
    const from = at < 0 ? 0 : (table.gamesFrom[at] ?? 0);
    const to = at < 0 ? 0 : (table.gamesFrom[at + 1] ?? 0);
    return { from, to, leniency: at < 0 ? 0 : (table.leniencyVariance[at] ?? 0) };
  };
  const standing = new Map(
    [...runnerAt].map(([runner, at]) => {
      const { from, to, leniency } = ownGames(at);
      return [runner, overall(slice(statistics, keys.length, from, to), to - from, leniency)];
    }),
  );
  const remembered = new Map<string, { swaps: number; movement: number }>();
  const rows = unmarked.map((carry): WatchNext => {
    const clearness = carry.clearness ?? 'partial';
    const key = JSON.stringify([carry.runner, carry.game, clearness]);
    let gain = remembered.get(key);
    if (gain === undefined) {
      const { from, to, leniency } = ownGames(runnerAt.get(carry.runner) ?? -1);
      const place = table.games.slice(from, to).indexOf(carry.game);
      const games = slice(statistics, keys.length, from, to + (place < 0 ? 1 : 0));
      const before = standing.get(carry.runner) ?? { mean: 0, variance: 0, expected: [] };
      addCarry(games, place < 0 ? to - from : place, shown, clearnessWeight[clearness], before.expected);
      const after = overall(games, to - from + (place < 0 ? 1 : 0), leniency);
      const movement = Math.sqrt(Math.max(0, before.variance - after.variance));
      let swaps = 0;
      for (const [runner, other] of standing) {
        if (runner === carry.runner || movement === 0) continue;
        swaps += normalCdf(-Math.abs(before.mean - other.mean) / movement, 0, 1);
      }
      remembered.set(key, (gain = { swaps, movement }));
    }
    return { runner: carry.runner, game: carry.game, carry: carry.carry, ...gain };
  });
  const name = (row: WatchNext) => `${row.runner}\n${row.game}\n${row.carry}`;
  rows.sort((a, b) => b.swaps - a.swaps || (name(a) < name(b) ? -1 : 1));
  return known(rows);
}

/** Share of marked carries that show each trait; all of them while nothing is marked. */
function traitRates(weight: Float64Array, width: number): readonly number[] {
  const carries = weight.length / Math.max(1, width);
  return Array.from({ length: width }, (_, trait) => {
    if (carries === 0) return 1;
    let shown = 0;
    for (let at = trait; at < weight.length; at += width) if ((weight[at] ?? 0) > 0) shown += 1;
    return shown / carries;
  });
}

/** A copy of some games' summaries; games beyond the end are empty. */
function slice(all: GameStatistics, width: number, from: number, to: number): GameStatistics {
  const size = (to - from) * width;
  const cut = (values: Float64Array, each: number) => {
    const copy = new Float64Array(size * each);
    copy.set(values.subarray(from * width * each, Math.min(values.length, to * width * each)));
    return copy;
  };
  const cells = new Int32Array(size);
  cells.set(all.cells.subarray(from * width, Math.min(all.cells.length, to * width)));
  return {
    information: cut(all.information, 1),
    informationSquares: cut(all.informationSquares, 1),
    mean: cut(all.mean, 1),
    squares: cut(all.squares, 1),
    cells,
    shared: cut(all.shared, width),
  };
}

/** Adds a carry that shows each trait with its rate and shows what is expected, so that only information is added. */
function addCarry(
  games: GameStatistics,
  game: number,
  shown: readonly number[],
  weight: number,
  expected: readonly number[],
): void {
  const width = shown.length;
  for (const [row, rate] of shown.entries()) {
    const at = game * width + row;
    if (games.information[at] === 0) games.mean[at] = expected[row] ?? 0;
    games.information[at] = (games.information[at] ?? 0) + weight * rate;
    for (const [column, other] of shown.entries()) {
      const both = row === column ? rate : rate * other;
      games.shared[at * width + column] = (games.shared[at * width + column] ?? 0) + weight * both;
    }
  }
}
