/** One runner's own estimates of the traits and how their errors lean together, before the class has a say. */
import type { CellTable } from './cell-table.ts';
import type { GameStatistics } from './game-statistics.ts';
import type { LeaningTogether } from './pooled.ts';

/** Spreads of one trait as the estimates need them, squared points. */
export type Spreads = { readonly within: number; readonly betweenGames: number };

/** One entry a trait; the two unit matrices have one a pair of traits (row by row). */
export type RunnerMoments = {
  readonly estimate: Float64Array;
  /** Variance of the estimate around the runner; 0 where he has no mark of the trait. */
  readonly variance: Float64Array;
  readonly information: Float64Array;
  readonly informationSquares: Float64Array;
  readonly carries: Int32Array;
  readonly games: Int32Array;
  /** Share of each game in the estimate: game of the runner by trait. */
  readonly shares: Float64Array;
  /** What carries, and games, marked in both traits add to the covariance per unit of their covariance. */
  readonly carryUnit: Float64Array;
  readonly gameUnit: Float64Array;
  readonly leniencyVariance: number;
};

/** Weighs a runner's games by what each tells, 1/(within/information + between games), trait by trait. */
export function runnerMoments(
  table: CellTable,
  statistics: GameStatistics,
  runner: number,
  spreads: readonly Spreads[],
  games: { readonly from: number; readonly to: number } = {
    from: table.gamesFrom[runner] ?? 0,
    to: table.gamesFrom[runner + 1] ?? 0,
  },
): RunnerMoments {
  const width = table.traits.length;
  const count = games.to - games.from;
  const leniencyVariance = table.leniencyVariance[runner] ?? 0;
  const estimate = new Float64Array(width);
  const variance = new Float64Array(width);
  const information = new Float64Array(width);
  const informationSquares = new Float64Array(width);
  const carries = new Int32Array(width);
  const gameCount = new Int32Array(width);
  const shares = new Float64Array(count * width);
  for (let trait = 0; trait < width; trait += 1) {
    const spread = spreads[trait] ?? { within: 1, betweenGames: 0 };
    let total = 0;
    let weighted = 0;
    let info = 0;
    let infoSquares = 0;
    for (let game = 0; game < count; game += 1) {
      const at = (games.from + game) * width + trait;
      const told = statistics.information[at] ?? 0;
      if (told === 0) continue;
      const weight = 1 / (spread.within / told + spread.betweenGames);
      shares[game * width + trait] = weight;
      total += weight;
      weighted += weight * (statistics.mean[at] ?? 0);
      info += told;
      infoSquares += statistics.informationSquares[at] ?? 0;
      carries[trait] = (carries[trait] ?? 0) + (statistics.cells[at] ?? 0);
      gameCount[trait] = (gameCount[trait] ?? 0) + 1;
    }
    if (total === 0) continue;
    estimate[trait] = weighted / total;
    variance[trait] = 1 / total + leniencyVariance;
    information[trait] = info;
    informationSquares[trait] = infoSquares;
    for (let game = 0; game < count; game += 1) {
      shares[game * width + trait] = (shares[game * width + trait] ?? 0) / total;
    }
  }
  const carryUnit = new Float64Array(width * width);
  const gameUnit = new Float64Array(width * width);
  for (let game = 0; game < count; game += 1) {
    const base = (games.from + game) * width;
    for (let row = 0; row < width; row += 1) {
      const own = shares[game * width + row] ?? 0;
      if (own === 0) continue;
      const ownInformation = statistics.information[base + row] ?? 1;
      for (let column = 0; column < width; column += 1) {
        const other = shares[game * width + column] ?? 0;
        if (other === 0) continue;
        const at = row * width + column;
        const both = own * other;
        gameUnit[at] = (gameUnit[at] ?? 0) + both;
        const told = ownInformation * (statistics.information[base + column] ?? 1);
        carryUnit[at] = (carryUnit[at] ?? 0) + (both * (statistics.shared[(base + row) * width + column] ?? 0)) / told;
      }
    }
  }
  return {
    estimate,
    variance,
    information,
    informationSquares,
    carries,
    games: gameCount,
    shares,
    carryUnit,
    gameUnit,
    leniencyVariance,
  };
}

/** Covariance of the errors of two traits' estimates of one runner; for one trait with itself, its variance. */
export function errorCovariance(
  moments: RunnerMoments,
  spreads: readonly Spreads[],
  together: Pick<LeaningTogether, 'carry' | 'game'>,
  row: number,
  column: number,
): number {
  if (row === column) return moments.variance[row] ?? 0;
  const one = spreads[row];
  const other = spreads[column];
  const at = row * spreads.length + column;
  if (one === undefined || other === undefined || (moments.gameUnit[at] ?? 0) === 0) {
    // No game in common: only the leniency taken out of the runner's marks is.
    return (moments.variance[row] ?? 0) > 0 && (moments.variance[column] ?? 0) > 0 ? moments.leniencyVariance : 0;
  }
  return (
    together.carry * Math.sqrt(one.within * other.within) * (moments.carryUnit[at] ?? 0) +
    together.game * Math.sqrt(one.betweenGames * other.betweenGames) * (moments.gameUnit[at] ?? 0) +
    moments.leniencyVariance
  );
}
