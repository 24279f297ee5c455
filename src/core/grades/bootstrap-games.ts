/** The games-only bootstrap: a diagnostic beside a grade, not its interval. */
import { type Known, unknown } from '../known.ts';
import type { Random } from '../random.ts';
import type { Rubric } from '../rubric/rubric.ts';
import { traitWeights } from '../rubric/weights.ts';
import { cellTable } from './cell-table.ts';
import { gameStatistics } from './game-statistics.ts';
import { poolsOf, traitKeys } from './grade-class.ts';
import type { GradeMark } from './grade-mark.ts';
import type { Pooled } from './pooled.ts';
import { resample, type Spread, spreadOf } from './resample.ts';

/** Why a runner's games cannot be resampled. */
export type NoBootstrap = 'fewer than two games' | 'no weight' | 'fewer than two draws';

/** How one runner's grades spread when his games are drawn again, points of the 1 to 5 scale. */
export type GamesBootstrap = {
  readonly overall: Known<Spread, NoBootstrap>;
  readonly traits: Readonly<Record<string, Known<Spread, NoBootstrap>>>;
};

/**
 * Draws each runner's games again with replacement and grades each draw against the pooled class (which stays as it
 * is); per runner id, the spread of the overall grade and of each trait marked in two games or more. With few games it
 * is too narrow, which is why it is no more than a diagnostic. Reasons: 'fewer than two games', 'no weight'. Throws as
 * resample and gradeClass do. Source: Efron & Tibshirani 1993, ch. 6; games as the units drawn.
 */
export function bootstrapGames(
  marks: readonly GradeMark[],
  rubric: Rubric,
  pooled: Pooled,
  random: Random,
  options: { readonly draws: number; readonly confidence?: number } = { draws: 2000 },
): Readonly<Record<string, GamesBootstrap>> {
  const keys = traitKeys(rubric);
  const width = keys.length;
  const table = cellTable(marks, keys, pooled.leniency);
  const statistics = gameStatistics(table);
  const pools = poolsOf(rubric, pooled);
  const shares = traitWeights(rubric);
  const weights = shares.known ? shares.value.map((share) => share.overall) : undefined;
  const tooFew = unknown('fewer than two games', 'A bootstrap over games needs marks in two games.');
  const rows = table.runners.map((runner, at): [string, GamesBootstrap] => {
    const from = table.gamesFrom[at] ?? 0;
    const count = (table.gamesFrom[at + 1] ?? 0) - from;
    if (count < 2) {
      return [runner, { overall: tooFew, traits: Object.fromEntries(keys.map((key) => [key, tooFew])) }];
    }
    // A game's precisions, then its means times them, side by side: one pass over a row a drawn game.
    const row = 2 * width;
    const told = new Float64Array(count * row);
    const gamesMarked = new Int32Array(width);
    for (let game = 0; game < count; game += 1) {
      for (const [trait, pool] of pools.entries()) {
        const source = (from + game) * width + trait;
        const information = statistics.information[source] ?? 0;
        if (information === 0) continue;
        const weight = 1 / (pool.within / information + pool.betweenGames);
        told[game * row + trait] = weight;
        told[game * row + width + trait] = weight * (statistics.mean[source] ?? 0);
        gamesMarked[trait] = (gamesMarked[trait] ?? 0) + 1;
      }
    }
    const priorMean = Float64Array.from(pools, (pool) => pool.prior.mean);
    const priorVariance = Float64Array.from(pools, (pool) => pool.prior.variance);
    const leniency = table.leniencyVariance[at] ?? 0;
    const drawn = new Float64Array(width * options.draws);
    const overall = new Float64Array(options.draws);
    const sums = new Float64Array(row);
    const times = new Float64Array(count);
    resample(count, options.draws, random, (sample, draw) => {
      sums.fill(0);
      times.fill(0);
      for (let one = 0; one < count; one += 1) times[sample[one] ?? 0] = (times[sample[one] ?? 0] ?? 0) + 1;
      for (let game = 0; game < count; game += 1) {
        const drawnTimes = times[game] ?? 0;
        if (drawnTimes === 0) continue;
        const base = game * row;
        for (let at = 0; at < row; at += 1) sums[at] = (sums[at] ?? 0) + drawnTimes * (told[base + at] ?? 0);
      }
      let total = 0;
      for (let trait = 0; trait < width; trait += 1) {
        const own = sums[trait] ?? 0;
        const prior = priorMean[trait] ?? 0;
        const spread = priorVariance[trait] ?? 0;
        let grade = prior;
        if (own > 0) {
          const variance = 1 / own + leniency;
          grade = prior + (spread / (variance + spread)) * ((sums[width + trait] ?? 0) / own - prior);
        }
        drawn[trait * options.draws + draw] = grade;
        if (weights !== undefined) total += (weights[trait] ?? 0) * grade;
      }
      overall[draw] = total;
    });
    const traits = keys.map((key, trait): [string, Known<Spread, NoBootstrap>] => [
      key,
      (gamesMarked[trait] ?? 0) < 2
        ? tooFew
        : spreadOf(drawn.subarray(trait * options.draws, (trait + 1) * options.draws), options.confidence),
    ]);
    return [
      runner,
      { overall: shares.known ? spreadOf(overall, options.confidence) : shares, traits: Object.fromEntries(traits) },
    ];
  });
  return Object.fromEntries(rows);
}
