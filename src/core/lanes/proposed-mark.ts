/** The judgment mark a ledger proposes; the evaluator decides. */
import { type Known, known } from '../known.ts';
import type { ValueLeft } from './value-left.ts';

/** A whole mark from 1 to 5 and the sentence behind it. */
export type ProposedMark = { readonly mark: 1 | 2 | 3 | 4 | 5; readonly because: string };

/** Points left beyond chance from which a choice costs the play. Own convention, no source. */
export const costsThePlay = 0.5;

/**
 * The mark a decision's value left proposes. The best lane taken: 3, or 4 where it beat the best other by more than the
 * error of that margin, 5 by more than twice. Another lane taken: 3 while the points left are within what equal lanes
 * show by chance, 2 beyond that, 1 from half a point beyond. Own convention, no source. It passes on the reasons of
 * valueLeft.
 */
export function proposedMark<Because extends string>(left: Known<ValueLeft, Because>): Known<ProposedMark, Because> {
  if (!left.known) return left;
  const { takenIsBest, margin, marginError, beyondChance, points } = left.value;
  if (takenIsBest) {
    const by = `worth ${margin.toFixed(2)} points more than the best other lane`;
    if (margin > 2 * marginError) return known({ mark: 5, because: `Took the best lane, ${by}, far beyond doubt.` });
    if (margin > marginError) return known({ mark: 4, because: `Took the best lane, ${by}.` });
    return known({ mark: 3, because: `Took the best lane, ${by}: too close to tell apart.` });
  }
  const gave = `left ${points.toFixed(2)} points`;
  if (beyondChance <= 0) return known({ mark: 3, because: `Took a lane that ${gave}, no more than equal lanes show.` });
  if (beyondChance < costsThePlay) {
    return known({ mark: 2, because: `Took a lane that ${gave}, more than equal lanes show by chance.` });
  }
  return known({ mark: 1, because: `Took a lane that ${gave}, far more than equal lanes show by chance.` });
}
