/**
 * Marks laid out for arithmetic: runners, their games and the games' carries in ascending order of id, and one cell for
 * each trait of each carry. The order is the ids' own, so that sums run the same way whatever order marks come in.
 */
import { type LeniencyGroup, leniencyGroups } from '../agreement/leniency.ts';
import { checkMark, clearnessWeight, type GradeMark } from './grade-mark.ts';

/** Cells are carry by carry, trait by trait; a game's carries and a runner's games lie together. */
export type CellTable = {
  readonly traits: readonly string[];
  readonly runners: readonly string[];
  readonly games: readonly string[];
  readonly carries: readonly string[];
  /** Where each runner's games, and each game's carries, begin; one entry more than there are. */
  readonly gamesFrom: Int32Array;
  readonly carriesFrom: Int32Array;
  /** Per cell: what it tells in clear marks (0: not marked), and the mark with leniency taken out. */
  readonly weight: Float64Array;
  readonly value: Float64Array;
  /** Marks given, per game and trait. */
  readonly marks: Int32Array;
  readonly leniency: readonly LeniencyGroup[];
  /** Per runner: variance of the leniency taken out of its marks, points squared. */
  readonly leniencyVariance: Float64Array;
  /** Marks of traits the rubric does not know, by trait: not used. */
  readonly setAside: Readonly<Record<string, number>>;
};

type Branch = { readonly carries: Map<string, number> };

/**
 * Lays marks out in cells. Marks of one trait on one carry (several evaluators, or a repeat) become one cell: the
 * clearness-weighted mean, telling no more than the clearest of them, since it is still one carry. `leniency`, when
 * given, is used instead of being estimated. Throws RangeError on a mark that is not 1 to 5 in halves.
 */
export function cellTable(
  marks: readonly GradeMark[],
  traits: readonly string[],
  leniency?: readonly LeniencyGroup[],
): CellTable {
  const traitAt = new Map(traits.map((trait, index) => [trait, index]));
  const setAside = new Map<string, number>();
  const tree = new Map<string, Map<string, Branch>>();
  const evaluatorAt = new Map<string, number>();
  const markCarry = new Int32Array(marks.length);
  const markTrait = new Int32Array(marks.length);
  const markEvaluator = new Int32Array(marks.length);
  const markValue = new Float64Array(marks.length);
  const markWeight = new Float64Array(marks.length);
  let used = 0;
  let carryCount = 0;
  for (const mark of marks) {
    checkMark(mark);
    const trait = traitAt.get(mark.trait);
    if (trait === undefined) {
      setAside.set(mark.trait, (setAside.get(mark.trait) ?? 0) + 1);
      continue;
    }
    let games = tree.get(mark.runner);
    if (games === undefined) tree.set(mark.runner, (games = new Map()));
    let game = games.get(mark.game);
    if (game === undefined) games.set(mark.game, (game = { carries: new Map() }));
    let carry = game.carries.get(mark.carry);
    if (carry === undefined) game.carries.set(mark.carry, (carry = carryCount++));
    let evaluator = evaluatorAt.get(mark.evaluator);
    if (evaluator === undefined) evaluatorAt.set(mark.evaluator, (evaluator = evaluatorAt.size));
    markCarry[used] = carry;
    markTrait[used] = trait;
    markEvaluator[used] = evaluator;
    markValue[used] = mark.value;
    markWeight[used] = clearnessWeight[mark.clearness];
    used += 1;
  }
  const layout = sortedLayout(tree, carryCount);
  const width = traits.length;
  const cellByMark = new Float64Array(used);
  for (let at = 0; at < used; at += 1) {
    cellByMark[at] = (layout.placeOf[markCarry[at] ?? 0] ?? 0) * width + (markTrait[at] ?? 0);
  }
  const evaluators = [...evaluatorAt.keys()].sort();
  const order = markOrder(used, cellByMark, carryCount * width, evaluatorAt, evaluators, markEvaluator);
  const groups =
    leniency ??
    leniencyGroups({
      item: order.cells,
      evaluator: order.evaluators,
      value:
        evaluators.length < 2
          ? markValue.subarray(0, used)
          : Float64Array.from(order.marks, (at) => markValue[at] ?? 0),
      evaluators,
    });
  const shifts = new Map(groups.flatMap((group) => group.evaluators.map((name, at) => [name, group.shift[at] ?? 0])));
  const shiftOf = Float64Array.from(evaluators, (name) => shifts.get(name) ?? 0);

  const cells = carryCount * width;
  const weight = new Float64Array(cells);
  const value = new Float64Array(cells);
  const sum = new Float64Array(cells);
  const marksGiven = new Int32Array(layout.games.length * width);
  const told = new Float64Array(layout.runners.length * evaluators.length);
  for (let at = 0; at < used; at += 1) {
    const mark = order.marks[at] ?? 0;
    const cell = order.cells[at] ?? 0;
    const evaluator = order.evaluators[at] ?? 0;
    const own = markWeight[mark] ?? 0;
    value[cell] = (value[cell] ?? 0) + own * ((markValue[mark] ?? 0) - (shiftOf[evaluator] ?? 0));
    sum[cell] = (sum[cell] ?? 0) + own;
    weight[cell] = Math.max(weight[cell] ?? 0, own);
    const carry = Math.floor(cell / width);
    const runner = layout.runnerOfCarry[carry] ?? 0;
    const slot = (layout.gameOfCarry[carry] ?? 0) * width + (markTrait[mark] ?? 0);
    marksGiven[slot] = (marksGiven[slot] ?? 0) + 1;
    told[runner * evaluators.length + evaluator] = (told[runner * evaluators.length + evaluator] ?? 0) + own;
  }
  for (let cell = 0; cell < cells; cell += 1) {
    const total = sum[cell] ?? 0;
    if (total > 0) value[cell] = (value[cell] ?? 0) / total;
  }
  return {
    traits,
    runners: layout.runners,
    games: layout.games,
    carries: layout.carries,
    gamesFrom: layout.gamesFrom,
    carriesFrom: layout.carriesFrom,
    weight,
    value,
    marks: marksGiven,
    leniency: groups,
    leniencyVariance: leniencyVariances(groups, evaluators, told, layout.runners.length),
    setAside: Object.fromEntries([...setAside].sort(([a], [b]) => (a < b ? -1 : 1))),
  };
}

function sortedLayout(tree: ReadonlyMap<string, ReadonlyMap<string, Branch>>, carryCount: number) {
  const runners = [...tree.keys()].sort();
  const games: string[] = [];
  const carries: string[] = [];
  const gamesFrom = new Int32Array(runners.length + 1);
  const carriesFrom: number[] = [0];
  const placeOf = new Int32Array(carryCount);
  const runnerOfCarry = new Int32Array(carryCount);
  const gameOfCarry = new Int32Array(carryCount);
  for (const [runnerAt, runner] of runners.entries()) {
    const branches = tree.get(runner) ?? new Map<string, Branch>();
    for (const game of [...branches.keys()].sort()) {
      games.push(game);
      const inside = branches.get(game)?.carries ?? new Map<string, number>();
      for (const carry of [...inside.keys()].sort()) {
        placeOf[inside.get(carry) ?? 0] = carries.length;
        runnerOfCarry[carries.length] = runnerAt;
        gameOfCarry[carries.length] = games.length - 1;
        carries.push(carry);
      }
      carriesFrom.push(carries.length);
    }
    gamesFrom[runnerAt + 1] = games.length;
  }
  return {
    runners,
    games,
    carries,
    gamesFrom,
    carriesFrom: Int32Array.from(carriesFrom),
    placeOf,
    runnerOfCarry,
    gameOfCarry,
  };
}

/**
 * Marks by cell and, within a cell, by evaluator, so that sums run in one order. One evaluator alone needs no sorting:
 * his cells are single marks, or sums of repeats that are exact in tenths.
 */
function markOrder(
  used: number,
  cellByMark: Float64Array,
  cells: number,
  evaluatorAt: ReadonlyMap<string, number>,
  evaluators: readonly string[],
  markEvaluator: Int32Array,
) {
  const marks = new Uint32Array(used);
  for (let at = 0; at < used; at += 1) marks[at] = at;
  if (evaluators.length < 2) return { marks, cells: cellByMark, evaluators: new Int32Array(used) };
  const rank = new Int32Array(evaluators.length);
  for (const [place, name] of evaluators.entries()) rank[evaluatorAt.get(name) ?? 0] = place;
  const rankByMark = new Float64Array(used);
  for (let at = 0; at < used; at += 1) rankByMark[at] = rank[markEvaluator[at] ?? 0] ?? 0;
  const ordered = sortedBy(sortedBy(marks, rankByMark, evaluators.length), cellByMark, cells);
  const order = new Int32Array(used);
  const cellsInOrder = new Float64Array(used);
  for (let at = 0; at < used; at += 1) {
    const mark = ordered[at] ?? 0;
    cellsInOrder[at] = cellByMark[mark] ?? 0;
    order[at] = rankByMark[mark] ?? 0;
  }
  return { marks: ordered, cells: cellsInOrder, evaluators: order };
}

/** Sorts marks by a whole-number key from 0 to size - 1, equal keys as they were, in time linear in both. */
function sortedBy(marks: Uint32Array, key: Float64Array, size: number): Uint32Array {
  const from = new Uint32Array(size + 1);
  for (const mark of marks) from[(key[mark] ?? 0) + 1] = (from[(key[mark] ?? 0) + 1] ?? 0) + 1;
  for (let at = 1; at <= size; at += 1) from[at] = (from[at] ?? 0) + (from[at - 1] ?? 0);
  const sorted = new Uint32Array(marks.length);
  for (const mark of marks) {
    const place = from[key[mark] ?? 0] ?? 0;
    sorted[place] = mark;
    from[key[mark] ?? 0] = place + 1;
  }
  return sorted;
}

function leniencyVariances(
  groups: readonly LeniencyGroup[],
  evaluators: readonly string[],
  told: Float64Array,
  runners: number,
): Float64Array {
  const variances = new Float64Array(runners);
  const place = new Map(evaluators.map((name, index) => [name, index]));
  for (let runner = 0; runner < runners; runner += 1) {
    const share = evaluators.map((_, at) => told[runner * evaluators.length + at] ?? 0);
    const total = share.reduce((sum, one) => sum + one, 0);
    let variance = 0;
    for (const group of groups) {
      const shares = group.evaluators.map((name) => (share[place.get(name) ?? -1] ?? 0) / total);
      for (const [row, one] of shares.entries()) {
        for (const [column, other] of shares.entries())
          variance += one * other * (group.covariance[row]?.[column] ?? 0);
      }
    }
    variances[runner] = Math.max(0, variance);
  }
  return variances;
}
