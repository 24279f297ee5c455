/** How far each evaluator marks above or below the others, told only by carries they share. */
import { inverse, Matrix } from 'ml-matrix';
import { type Known, known, unknown } from '../known.ts';

/** One value given by one evaluator to one thing that several may have marked (a trait on a carry). */
export type SharedValue = { readonly item: string; readonly evaluator: string; readonly value: number };

/** Evaluators joined, directly or through others, by things they both marked. */
export type LeniencyGroup = {
  readonly evaluators: readonly string[];
  /** Points each evaluator marks above the group's own level; weighted by marks given they add up to 0. */
  readonly shift: readonly number[];
  /** Covariance of the shifts, points squared. */
  readonly covariance: readonly (readonly number[])[];
  /** Marks in things marked by two evaluators or more. */
  readonly shared: number;
};

/** Two evaluators count as joined from this many things both marked. Own convention, no source. */
export const sharedNeeded = 5;

/** Columns of marks in a fixed order: `item` ascending, and within an item `evaluator` ascending. */
export type LeniencyColumns = {
  readonly item: ArrayLike<number>;
  readonly evaluator: ArrayLike<number>;
  readonly value: ArrayLike<number>;
  readonly evaluators: readonly string[];
};

/**
 * Additive leniency per evaluator, by least squares on deviations from each shared thing's own mean (a two-way layout
 * with gaps), in points of the marks' scale. One group for evaluators joined by at least five shared things; groups
 * cannot be compared with one another. Reason 'no marks' for an empty list. Throws RangeError on a non-finite value.
 * Source: the additive rater effect of Shrout & Fleiss 1979, Psychological Bulletin 86:420-428, fitted with gaps.
 */
export function leniency(values: readonly SharedValue[]): Known<readonly LeniencyGroup[], 'no marks'> {
  if (values.length === 0) return unknown('no marks', 'Nothing was marked.');
  const evaluators = [...new Set(values.map((row) => row.evaluator))].sort();
  const items = [...new Set(values.map((row) => row.item))].sort();
  const evaluatorAt = new Map(evaluators.map((name, index) => [name, index]));
  const itemAt = new Map(items.map((name, index) => [name, index]));
  const rows = values.map((row) => {
    if (!Number.isFinite(row.value)) throw new RangeError(`a mark wants a finite value, got ${row.value}`);
    return [itemAt.get(row.item) ?? 0, evaluatorAt.get(row.evaluator) ?? 0, row.value] as const;
  });
  rows.sort((a, b) => a[0] - b[0] || a[1] - b[1] || a[2] - b[2]);
  return known(
    leniencyGroups({
      item: rows.map((row) => row[0]),
      evaluator: rows.map((row) => row[1]),
      value: rows.map((row) => row[2]),
      evaluators,
    }),
  );
}

/**
 * The same from sorted columns (see LeniencyColumns), for callers with many marks; evaluator numbers index
 * `evaluators`. Returns one group per set of joined evaluators, in order of their first evaluator.
 */
export function leniencyGroups(columns: LeniencyColumns): readonly LeniencyGroup[] {
  const count = columns.evaluators.length;
  const given = columns.evaluators.map(() => 0);
  for (let at = 0; at < columns.item.length; at += 1) {
    const evaluator = columns.evaluator[at] ?? 0;
    given[evaluator] = (given[evaluator] ?? 0) + 1;
  }
  const cells = count > 1 ? sharedCells(columns) : noCells;
  const groups = joinedEvaluators(count, cells);
  return groups.map((members) => solveGroup(members, cells, given, columns.evaluators));
}

/** Items marked by two evaluators or more, laid end to end: evaluator numbers and their mean values. */
type SharedCells = {
  readonly from: readonly number[];
  readonly evaluators: readonly number[];
  readonly values: readonly number[];
};

const noCells: SharedCells = { from: [0], evaluators: [], values: [] };

function sharedCells(columns: LeniencyColumns): SharedCells {
  const from = [0];
  const evaluators: number[] = [];
  const values: number[] = [];
  const { item, evaluator, value } = columns;
  const size = item.length;
  for (let start = 0; start < size;) {
    const before = evaluators.length;
    let end = start;
    while (end < size && item[end] === item[start]) {
      const own = evaluator[end] ?? 0;
      let sum = 0;
      let times = 0;
      for (; end < size && item[end] === item[start] && evaluator[end] === own; end += 1) {
        sum += value[end] ?? 0;
        times += 1;
      }
      evaluators.push(own);
      values.push(sum / times);
    }
    if (evaluators.length > before + 1) from.push(evaluators.length);
    else {
      evaluators.length = before;
      values.length = before;
    }
    start = end;
  }
  return { from, evaluators, values };
}

function joinedEvaluators(count: number, cells: SharedCells): readonly (readonly number[])[] {
  const both = Array.from({ length: count }, () => Array.from({ length: count }, () => 0));
  for (let cell = 1; cell < cells.from.length; cell += 1) {
    const start = cells.from[cell - 1] ?? 0;
    const end = cells.from[cell] ?? 0;
    for (let one = start; one < end; one += 1) {
      const row = both[cells.evaluators[one] ?? 0];
      if (row === undefined) continue;
      for (let at = start; at < end; at += 1) {
        const other = cells.evaluators[at] ?? 0;
        row[other] = (row[other] ?? 0) + 1;
      }
    }
  }
  const seen = new Set<number>();
  const groups: number[][] = [];
  for (let first = 0; first < count; first += 1) {
    if (seen.has(first)) continue;
    const members = [first];
    seen.add(first);
    for (const member of members) {
      for (let other = 0; other < count; other += 1) {
        if (seen.has(other) || (both[member]?.[other] ?? 0) < sharedNeeded) continue;
        seen.add(other);
        members.push(other);
      }
    }
    groups.push(members.sort((a, b) => a - b));
  }
  return groups;
}

function solveGroup(
  members: readonly number[],
  cells: SharedCells,
  given: readonly number[],
  names: readonly string[],
): LeniencyGroup {
  const evaluators = members.map((member) => names[member] ?? '');
  const size = members.length;
  const zero = {
    evaluators,
    shift: evaluators.map(() => 0),
    covariance: evaluators.map(() => evaluators.map(() => 0)),
  };
  if (size === 1) return { ...zero, shared: 0 };
  const place = names.map((_, evaluator) => members.indexOf(evaluator));
  const normal = Matrix.zeros(size, size);
  const right = Matrix.zeros(size, 1);
  let shared = 0;
  let used = 0;
  let squares = 0;
  const places: number[] = [];
  const values: number[] = [];
  for (let cell = 1; cell < cells.from.length; cell += 1) {
    places.length = 0;
    values.length = 0;
    let total = 0;
    for (let at = cells.from[cell - 1] ?? 0; at < (cells.from[cell] ?? 0); at += 1) {
      const own = place[cells.evaluators[at] ?? 0] ?? -1;
      if (own < 0) continue;
      places.push(own);
      values.push(cells.values[at] ?? 0);
      total += cells.values[at] ?? 0;
    }
    const count = places.length;
    if (count < 2) continue;
    used += 1;
    shared += count;
    for (let one = 0; one < count; one += 1) {
      const row = places[one] ?? 0;
      const gap = (values[one] ?? 0) - total / count;
      right.set(row, 0, right.get(row, 0) + gap);
      squares += gap * gap;
      for (let other = 0; other < count; other += 1) {
        const column = places[other] ?? 0;
        normal.set(row, column, normal.get(row, column) + (one === other ? 1 : 0) - 1 / count);
      }
    }
  }
  // A joined group's normal matrix is singular only in the direction "everyone together", which J/n fills.
  const level = Matrix.ones(size, size).mul(1 / size);
  const generalInverse = inverse(Matrix.add(normal, level)).sub(level);
  const raw = generalInverse.mmul(right);
  const explained = right.transpose().mmul(raw).get(0, 0);
  const degrees = Math.max(1, shared - used - (size - 1));
  const noise = Math.max(0, squares - explained) / degrees;
  const total = members.reduce((sum, member) => sum + (given[member] ?? 0), 0);
  const centre = Matrix.eye(size, size);
  for (let row = 0; row < size; row += 1) {
    for (const [column, member] of members.entries()) {
      centre.set(row, column, centre.get(row, column) - (given[member] ?? 0) / total);
    }
  }
  const shift = centre.mmul(raw);
  const covariance = centre.mmul(generalInverse.mul(noise)).mmul(centre.transpose());
  return { evaluators, shift: shift.to1DArray(), covariance: covariance.to2DArray(), shared };
}
