/** How much the traits of one carry, one game and one runner lean the same way, one correlation for each level. */
import type { CellTable } from './cell-table.ts';
import type { GameStatistics } from './game-statistics.ts';
import { assumedTogether, gamesNeeded, type LeaningTogether, runnersNeeded, type TraitPool } from './pooled.ts';
import { errorCovariance, type RunnerMoments } from './runner-moments.ts';

/** Above this a correlation tells no more than "the same mark twice", and joint draws lose their rank. */
const mostTogether = 0.95;

/**
 * Moment estimates of three correlations, each common to all pairs of traits and kept within 0 and .95 (the halo of
 * Saal, Downey & Lahey 1980, Psychological Bulletin 88:413-428, citation from memory, at three levels; the moment
 * equations are our own, derived in docs/method.md). Assumed ones when fewer than 5 runners or 10 games have two traits.
 */
export function leaningTogether(
  table: CellTable,
  statistics: GameStatistics,
  moments: readonly RunnerMoments[],
  pools: readonly TraitPool[],
): LeaningTogether {
  const runners = moments.filter((runner) => runner.games.filter((games) => games > 0).length > 1);
  const carry = carryLevel(table, statistics, pools);
  if (carry === undefined || runners.length < runnersNeeded) return assumedTogether;
  const game = gameLevel(table, statistics, moments, pools, carry);
  const runner = runnerLevel(runners, pools, { carry, game });
  return { carry, game, runner, assumed: false };
}

const bounded = (top: number, bottom: number) => (bottom > 0 ? Math.min(mostTogether, Math.max(0, top / bottom)) : 0);

/** Residuals of two traits on a carry; the bottom is what a correlation of 1 would leave around the game's means. */
function carryLevel(table: CellTable, statistics: GameStatistics, pools: readonly TraitPool[]): number | undefined {
  const width = table.traits.length;
  const sd = pools.map((pool) => Math.sqrt(pool.within));
  const present = new Int32Array(width);
  const residual = new Float64Array(width);
  const root = new Float64Array(width);
  let top = 0;
  let bottom = 0;
  let games = 0;
  for (let game = 0; game < table.games.length; game += 1) {
    const base = game * width;
    const before = bottom;
    for (let carry = table.carriesFrom[game] ?? 0; carry < (table.carriesFrom[game + 1] ?? 0); carry += 1) {
      let count = 0;
      for (let trait = 0; trait < width; trait += 1) {
        const weight = table.weight[carry * width + trait] ?? 0;
        if (weight === 0 || (statistics.cells[base + trait] ?? 0) < 2) continue;
        const gap = (table.value[carry * width + trait] ?? 0) - (statistics.mean[base + trait] ?? 0);
        present[count] = trait;
        root[count] = Math.sqrt(weight);
        residual[count] = ((root[count] ?? 0) * gap) / (sd[trait] ?? 1);
        count += 1;
      }
      for (let one = 1; one < count; one += 1) {
        const row = present[one] ?? 0;
        const ownInformation = statistics.information[base + row] ?? 1;
        const own = (root[one] ?? 0) ** 2 / ownInformation;
        for (let other = 0; other < one; other += 1) {
          const column = present[other] ?? 0;
          const otherInformation = statistics.information[base + column] ?? 1;
          const product = (root[one] ?? 0) * (root[other] ?? 0);
          const both = (statistics.shared[(base + row) * width + column] ?? 0) / (ownInformation * otherInformation);
          top += (residual[one] ?? 0) * (residual[other] ?? 0);
          bottom += 1 - own - (root[other] ?? 0) ** 2 / otherInformation + product * both;
        }
      }
    }
    if (bottom > before) games += 1;
  }
  return games < gamesNeeded ? undefined : bounded(top, bottom);
}

/** Game means around the runner's own mean, less what the carries alone make lean together. */
function gameLevel(
  table: CellTable,
  statistics: GameStatistics,
  moments: readonly RunnerMoments[],
  pools: readonly TraitPool[],
  carry: number,
): number {
  const width = table.traits.length;
  let top = 0;
  let bottom = 0;
  for (const [runner, own] of moments.entries()) {
    const from = table.gamesFrom[runner] ?? 0;
    const count = (table.gamesFrom[runner + 1] ?? 0) - from;
    for (let game = 0; game < count; game += 1) {
      const base = (from + game) * width;
      for (let row = 1; row < width; row += 1) {
        const rowShare = own.shares[game * width + row] ?? 0;
        const rowPool = pools[row];
        if (rowShare === 0 || rowPool === undefined) continue;
        for (let column = 0; column < row; column += 1) {
          const share = own.shares[game * width + column] ?? 0;
          const pool = pools[column];
          if (share === 0 || pool === undefined) continue;
          const rowInformation = statistics.information[base + row] ?? 1;
          const information = statistics.information[base + column] ?? 1;
          const weight =
            1 /
            Math.sqrt(
              (rowPool.within / rowInformation + rowPool.betweenGames) *
                (pool.within / information + pool.betweenGames),
            );
          const left = 1 - rowShare - share;
          const at = row * width + column;
          const product =
            ((statistics.mean[base + row] ?? 0) - (own.estimate[row] ?? 0)) *
            ((statistics.mean[base + column] ?? 0) - (own.estimate[column] ?? 0));
          const carryPart =
            carry *
            Math.sqrt(rowPool.within * pool.within) *
            (((statistics.shared[(base + row) * width + column] ?? 0) / (rowInformation * information)) * left +
              (own.carryUnit[at] ?? 0));
          const unit = Math.sqrt(rowPool.betweenGames * pool.betweenGames) * (left + (own.gameUnit[at] ?? 0));
          top += weight * (product - carryPart);
          bottom += weight * unit;
        }
      }
    }
  }
  return bounded(top, bottom);
}

/** Runners around the class mean, less the covariance of their errors. */
function runnerLevel(
  runners: readonly RunnerMoments[],
  pools: readonly TraitPool[],
  together: { readonly carry: number; readonly game: number },
): number {
  const left = 1 - 1 / runners.length;
  let top = 0;
  let bottom = 0;
  for (const runner of runners) {
    for (let row = 1; row < pools.length; row += 1) {
      const rowPool = pools[row];
      const rowVariance = runner.variance[row] ?? 0;
      if (rowPool === undefined || rowVariance === 0) continue;
      for (let column = 0; column < row; column += 1) {
        const pool = pools[column];
        const variance = runner.variance[column] ?? 0;
        if (pool === undefined || variance === 0) continue;
        const weight = 1 / Math.sqrt((rowVariance + rowPool.prior.variance) * (variance + pool.prior.variance));
        const product =
          ((runner.estimate[row] ?? 0) - rowPool.prior.mean) * ((runner.estimate[column] ?? 0) - pool.prior.mean);
        top += weight * (product - left * errorCovariance(runner, pools, together, row, column));
        bottom += weight * left * Math.sqrt(rowPool.prior.variance * pool.prior.variance);
      }
    }
  }
  return bounded(top, bottom);
}
