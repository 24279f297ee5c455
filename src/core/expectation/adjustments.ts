/** The two things a delta still holds besides the runner: his team, and the defences he met. */
import { type Known, known, unknown } from '../known.ts';
import { deltaSummary, type OverExpected, reliabilityOf, type Residual } from './delta.ts';
import type { Spread } from './yards-model.ts';

/** A runner's delta less that of his team's other carries, yards a carry. */
export type OverTeammates = {
  readonly difference: number;
  readonly standardError: number;
  readonly own: OverExpected;
  readonly others: OverExpected;
};

/**
 * Delta over the team's other carries, which stood behind the same line. The two sets must not share carries. Reasons:
 * 'no carries' (of the runner), 'no other carries' (none imported).
 */
export function overTeammates(
  own: readonly Residual[],
  others: readonly Residual[],
  spread: Spread,
): Known<OverTeammates, 'no carries' | 'no other carries'> {
  const one = deltaSummary(own, spread);
  const rest = deltaSummary(others, spread);
  if (!one.known) return one;
  if (!rest.known) return unknown('no other carries', "None of the team's other carries are in the study.");
  return known({
    difference: one.value.mean - rest.value.mean,
    standardError: Math.hypot(one.value.standardError, rest.value.standardError),
    own: one.value,
    others: rest.value,
  });
}

/** What a defence allows over expected, yards a carry, and the carries (whole, from 0) that rests on. */
export type DefenceRow = { readonly delta: number; readonly carries: number };

/** A delta as it is and with the defences' part taken out, side by side. */
export type OpponentAdjusted = {
  readonly plain: OverExpected;
  readonly adjusted: OverExpected;
  /** Carries against defences that are in the table, and against those that are not (left as they are). */
  readonly known: number;
  readonly unknown: number;
};

/**
 * What a defence allows, shrunk for its carries: delta x n / (n + k), yards a carry. k is the runners' own, because no
 * source for defences is at hand: an assumption. Throws RangeError on a delta that is not finite or on carries that are
 * not whole.
 */
export function shrunkAllowance(row: DefenceRow, spread: Spread): number {
  if (!Number.isFinite(row.delta)) throw new RangeError(`a defence's delta wants a finite number, got ${row.delta}`);
  return row.delta * reliabilityOf(row.carries, spread.shrinkCarries);
}

/**
 * Yards over expected with each carry's defence taken out by the user's table (by defence id; null is not charted).
 * The adjusted standard error carries what is not known of each defence. Reasons: 'no carries', 'no defence known'.
 */
export function opponentAdjusted(
  carries: readonly { readonly residual: Residual; readonly defence: string | null }[],
  table: ReadonlyMap<string, DefenceRow>,
  spread: Spread,
): Known<OpponentAdjusted, 'no carries' | 'no defence known'> {
  const plain = deltaSummary(
    carries.map(({ residual }) => residual),
    spread,
  );
  if (!plain.known) return plain;
  const met = new Map<string, number>();
  const adjusted = carries.map(({ residual, defence }) => {
    const row = defence === null ? undefined : table.get(defence);
    if (row === undefined || defence === null) return residual;
    met.set(defence, (met.get(defence) ?? 0) + 1);
    return { ...residual, delta: residual.delta - shrunkAllowance(row, spread) };
  });
  const counted = [...met.values()].reduce((sum, times) => sum + times, 0);
  if (counted === 0) return unknown('no defence known', 'None of the defences met is in the table.');
  const after = deltaSummary(adjusted, spread);
  if (!after.known) return after;
  const n = carries.length;
  const notKnown = [...met]
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .reduce((sum, [defence, times]) => {
      const rests = table.get(defence)?.carries ?? 0;
      const left = spread.betweenRunnersSd ** 2 * (1 - reliabilityOf(rests, spread.shrinkCarries));
      return sum + (times / n) ** 2 * left;
    }, 0);
  return known({
    plain: plain.value,
    adjusted: { ...after.value, standardError: Math.sqrt(after.value.standardError ** 2 + notKnown) },
    known: counted,
    unknown: n - counted,
  });
}
