/** Pairs of carries, one of each runner, in the same sort of situation. */
import { linearSumAssignment } from 'linear-sum-assignment';
import { type Known, known, unknown } from '../known.ts';

/** A carry's situation; null: not charted. `toGo` and `spot` in yards, `spot` from the offence's own goal line. */
export type CarrySituation = {
  readonly id: string;
  readonly down: number | null;
  readonly toGo: number | null;
  readonly spot: number | null;
  readonly gap: string | null;
  readonly box: number | null;
  readonly direction: string | null;
};

/** What a difference costs: a down, a yard to go, a yard of spot, another gap, a man in the box, another direction. */
export type MatchCosts = {
  readonly down: number;
  readonly toGo: number;
  readonly spot: number;
  readonly gap: number;
  readonly box: number;
  readonly direction: number;
  /** What a feature that either carry has not charted costs. */
  readonly unknown: number;
  /** A pair that costs more than this is never made. */
  readonly caliper: number;
};

/**
 * One down, four yards to go, twenty of spot, another gap or two men in the box weigh the same; a pair may cost two of
 * those. The program's own opinion, no source.
 */
export const matchCosts: MatchCosts = {
  down: 1,
  toGo: 0.25,
  spot: 0.05,
  gap: 1,
  box: 0.5,
  direction: 0.5,
  unknown: 0.5,
  caliper: 2,
};

/** One pair, by carry id. */
export type CarryPair = { readonly first: string; readonly second: string; readonly cost: number };

/** Pairs from the closest on, and how many carries of each side found none. */
export type CarryMatch = {
  readonly pairs: readonly CarryPair[];
  readonly cost: number;
  readonly firstUnpaired: number;
  readonly secondUnpaired: number;
};

/** What a pair costs: 0 for the same situation, growing with every difference. */
export function pairCost(first: CarrySituation, second: CarrySituation, costs: MatchCosts = matchCosts): number {
  const far = (one: number | null, other: number | null, each: number) =>
    one === null || other === null ? costs.unknown : Math.abs(one - other) * each;
  const other = (one: string | null, two: string | null, each: number) => {
    if (one === null || two === null) return costs.unknown;
    return one === two ? 0 : each;
  };
  return (
    far(first.down, second.down, costs.down) +
    far(first.toGo, second.toGo, costs.toGo) +
    far(first.spot, second.spot, costs.spot) +
    other(first.gap, second.gap, costs.gap) +
    far(first.box, second.box, costs.box) +
    other(first.direction, second.direction, costs.direction)
  );
}

/**
 * The most pairs within the caliper and, of all ways to make that many, the cheapest; each carry in one pair at most.
 * Whatever order carries come in, the answer is the same. Reason 'no pair' when none is within the caliper. Throws
 * RangeError on a negative or non-finite cost. Sources: Rosenbaum & Rubin 1985, The American Statistician 39:33-38
 * (caliper), Crouse 2016, IEEE Transactions on Aerospace and Electronic Systems 52:1679-1696 (the assignment), both from
 * memory.
 */
export function matchCarries(
  first: readonly CarrySituation[],
  second: readonly CarrySituation[],
  costs: MatchCosts = matchCosts,
): Known<CarryMatch, 'no pair'> {
  for (const cost of Object.values(costs)) {
    if (!(cost >= 0 && cost < Infinity)) throw new RangeError(`a cost wants a number from 0, got ${cost}`);
  }
  const rows = byId(first);
  const columns = byId(second);
  const none = unknown('no pair', 'No two carries are in situations close enough to pair.');
  if (rows.length === 0 || columns.length === 0) return none;
  // One pair beyond the caliper costs more than all allowed pairs together, so as few as possible are taken.
  const beyond = (costs.caliper + 1) * (Math.min(rows.length, columns.length) + 1);
  const table = rows.map((row) =>
    columns.map((column) => {
      const cost = pairCost(row, column, costs);
      return cost <= costs.caliper + rounding ? cost : beyond;
    }),
  );
  const { rowAssignments } = linearSumAssignment(table, { maximaze: false });
  const pairs: CarryPair[] = [];
  for (const [at, row] of rows.entries()) {
    const column = columns[rowAssignments[at] ?? -1];
    const cost = table[at]?.[rowAssignments[at] ?? -1];
    if (column === undefined || cost === undefined || cost > costs.caliper + rounding) continue;
    pairs.push({ first: row.id, second: column.id, cost });
  }
  if (pairs.length === 0) return none;
  pairs.sort((a, b) => a.cost - b.cost || (a.first < b.first ? -1 : 1));
  return known({
    pairs,
    cost: pairs.reduce((sum, pair) => sum + pair.cost, 0),
    firstUnpaired: rows.length - pairs.length,
    secondUnpaired: columns.length - pairs.length,
  });
}

/** Sums of twentieths are not exact; a pair that costs just the caliper is a pair. */
const rounding = 1e-9;

const byId = (carries: readonly CarrySituation[]) => [...carries].sort((a, b) => (a.id < b.id ? -1 : 1));
