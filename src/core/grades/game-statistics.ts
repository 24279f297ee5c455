/** What each game says of each trait, out of a cell table: the first summary that grades, pooling and history share. */
import type { CellTable } from './cell-table.ts';

/** One entry a game and trait (game by game); `shared` has one a game and pair of traits. */
export type GameStatistics = {
  /** Sum of weights, and of their squares. */
  readonly information: Float64Array;
  readonly informationSquares: Float64Array;
  /** Weighted mean of the cells (0 where there is none), cells, and the weighted sum of squares around that mean. */
  readonly mean: Float64Array;
  readonly cells: Int32Array;
  readonly squares: Float64Array;
  /** Sum over carries with both traits marked of the root of the product of their weights. */
  readonly shared: Float64Array;
};

/** Summarises a table game by game; time grows with carries times pairs of traits marked on a carry. */
export function gameStatistics(table: CellTable): GameStatistics {
  const width = table.traits.length;
  const games = table.games.length;
  const information = new Float64Array(games * width);
  const informationSquares = new Float64Array(games * width);
  const mean = new Float64Array(games * width);
  const squares = new Float64Array(games * width);
  const cells = new Int32Array(games * width);
  const shared = new Float64Array(games * width * width);
  const present = new Int32Array(width);
  const root = new Float64Array(width);
  for (let game = 0; game < games; game += 1) {
    const first = table.carriesFrom[game] ?? 0;
    const last = table.carriesFrom[game + 1] ?? 0;
    const base = game * width;
    for (let carry = first; carry < last; carry += 1) {
      let count = 0;
      for (let trait = 0; trait < width; trait += 1) {
        const weight = table.weight[carry * width + trait] ?? 0;
        if (weight === 0) continue;
        const at = base + trait;
        information[at] = (information[at] ?? 0) + weight;
        informationSquares[at] = (informationSquares[at] ?? 0) + weight * weight;
        mean[at] = (mean[at] ?? 0) + weight * (table.value[carry * width + trait] ?? 0);
        cells[at] = (cells[at] ?? 0) + 1;
        present[count] = trait;
        root[count] = Math.sqrt(weight);
        count += 1;
      }
      for (let one = 0; one < count; one += 1) {
        const row = (base + (present[one] ?? 0)) * width;
        const own = root[one] ?? 0;
        for (let other = 0; other < count; other += 1) {
          const at = row + (present[other] ?? 0);
          shared[at] = (shared[at] ?? 0) + own * (root[other] ?? 0);
        }
      }
    }
    for (let trait = 0; trait < width; trait += 1) {
      const total = information[base + trait] ?? 0;
      if (total > 0) mean[base + trait] = (mean[base + trait] ?? 0) / total;
    }
    for (let carry = first; carry < last; carry += 1) {
      for (let trait = 0; trait < width; trait += 1) {
        const weight = table.weight[carry * width + trait] ?? 0;
        if (weight === 0) continue;
        const gap = (table.value[carry * width + trait] ?? 0) - (mean[base + trait] ?? 0);
        squares[base + trait] = (squares[base + trait] ?? 0) + weight * gap * gap;
      }
    }
  }
  return { information, informationSquares, mean, cells, squares, shared };
}
