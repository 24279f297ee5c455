/** The pooled model of a class: spreads by moments over all runners, or the assumed ones where too few can tell. */
import type { CellTable } from './cell-table.ts';
import type { GameStatistics } from './game-statistics.ts';
import { leaningTogether } from './leaning-together.ts';
import { type NormalPrior, normalPrior } from './normal-prior.ts';
import {
  assumedPool,
  type AssumedPart,
  gamesNeeded,
  leastWithin,
  type Pooled,
  runnersNeeded,
  type TraitPool,
} from './pooled.ts';
import { runnerMoments, type RunnerMoments } from './runner-moments.ts';

/**
 * Pools a laid-out class: per trait the variance within a game (sum of squares over degrees of freedom), between games
 * and between runners (DerSimonian-Laird type moments, never below 0), and how traits lean together. Returns the model
 * and each runner's own moments under it, in the table's order of runners.
 */
export function poolTable(
  table: CellTable,
  statistics: GameStatistics,
): { readonly pooled: Pooled; readonly moments: readonly RunnerMoments[] } {
  const spreads = table.traits.map((_, trait) => traitSpreads(table, statistics, trait));
  const moments = table.runners.map((_, runner) => runnerMoments(table, statistics, runner, spreads));
  const traits: [string, TraitPool][] = table.traits.map((key, trait) => {
    const spread = spreads[trait] ?? unmarkedSpreads;
    const seen = moments.filter((runner) => (runner.variance[trait] ?? 0) > 0);
    const estimates = seen.map((runner) => runner.estimate[trait] ?? 0);
    const variances = seen.map((runner) => runner.variance[trait] ?? 0);
    const assumed: AssumedPart[] = [...spread.assumed];
    let prior: NormalPrior = assumedPool.prior;
    const told = seen.length >= runnersNeeded ? normalPrior(estimates, variances) : undefined;
    if (told?.known === true) prior = told.value;
    else assumed.unshift('class mean', 'spread between runners');
    return [
      key,
      {
        prior,
        within: spread.within,
        betweenGames: spread.betweenGames,
        runners: seen.length,
        games: spread.games,
        degrees: spread.degrees,
        assumed,
      },
    ];
  });
  const pools = traits.map(([, pool]) => pool);
  const together = leaningTogether(table, statistics, moments, pools);
  return { pooled: { traits: Object.fromEntries(traits), together, leniency: table.leniency }, moments };
}

type TraitSpreads = Pick<TraitPool, 'within' | 'betweenGames' | 'games' | 'degrees' | 'assumed'>;

const unmarkedSpreads: TraitSpreads = {
  within: assumedPool.within,
  betweenGames: assumedPool.betweenGames,
  games: 0,
  degrees: assumedPool.degrees,
  assumed: ['spread between games', 'spread within a game'],
};

function traitSpreads(table: CellTable, statistics: GameStatistics, trait: number): TraitSpreads {
  const width = table.traits.length;
  let squares = 0;
  let squaresDegrees = 0;
  let gamesTellingWithin = 0;
  let games = 0;
  for (let at = trait; at < statistics.cells.length; at += width) {
    const cells = statistics.cells[at] ?? 0;
    if (cells === 0) continue;
    games += 1;
    if (cells === 1) continue;
    gamesTellingWithin += 1;
    squares += statistics.squares[at] ?? 0;
    squaresDegrees += cells - 1;
  }
  if (gamesTellingWithin < gamesNeeded) return { ...unmarkedSpreads, games };
  const within = Math.max(leastWithin, squares / squaresDegrees);

  // Q around each runner's own mean; its expectation is within (games - runners) + between games times `lever`.
  let q = 0;
  let lever = 0;
  let degrees = 0;
  let gamesTellingBetween = 0;
  for (let runner = 0; runner < table.runners.length; runner += 1) {
    const from = table.gamesFrom[runner] ?? 0;
    const to = table.gamesFrom[runner + 1] ?? 0;
    let sum = 0;
    let sumSquares = 0;
    let weighted = 0;
    let count = 0;
    for (let game = from; game < to; game += 1) {
      const weight = statistics.information[game * width + trait] ?? 0;
      if (weight === 0) continue;
      count += 1;
      sum += weight;
      sumSquares += weight * weight;
      weighted += weight * (statistics.mean[game * width + trait] ?? 0);
    }
    if (count < 2) continue;
    const own = weighted / sum;
    for (let game = from; game < to; game += 1) {
      const weight = statistics.information[game * width + trait] ?? 0;
      if (weight > 0) q += weight * ((statistics.mean[game * width + trait] ?? 0) - own) ** 2;
    }
    lever += sum - sumSquares / sum;
    degrees += count - 1;
    gamesTellingBetween += count;
  }
  if (gamesTellingBetween < gamesNeeded) {
    return { ...unmarkedSpreads, within, games, assumed: ['spread between games'] };
  }
  return { within, betweenGames: Math.max(0, (q - within * degrees) / lever), games, degrees, assumed: [] };
}
