import { known, type Known } from '../../../core/known.ts';
import type { Ledger } from '../../../core/lanes/ledger.ts';
import { proposedMark, type ProposedMark } from '../../../core/lanes/proposed-mark.ts';

/** The two traits a ledger speaks to, as the default rubric names them. */
export type LedgerTrait = 'crease' | 'risk';

/**
 * From this difference in the chance of a loss a choice between two lanes is one of risk more than of opening. Own
 * convention, no source.
 */
export const riskApart = 0.1;

/**
 * The trait a ledger's mark is proposed for: the risk taken where the lane taken and the best other differ in their
 * chance of a loss by riskApart or more, else the choice of crease.
 */
export function proposalTrait(ledger: Ledger): LedgerTrait {
  const taken = ledger.lines.find(({ lane }) => lane.taken);
  const [other] = ledger.lines.filter((line) => line !== taken).toSorted((a, b) => b.points - a.points);
  if (taken === undefined || other === undefined) return 'crease';
  return Math.abs(taken.chanceOfLoss - other.chanceOfLoss) >= riskApart ? 'risk' : 'crease';
}

/** The mark a ledger proposes and the trait it is for; passes on why there is no value left. */
export function proposal(
  ledger: Ledger,
): Known<ProposedMark & { readonly trait: LedgerTrait }, 'none taken' | 'several taken' | 'one lane'> {
  const mark = proposedMark(ledger.left);
  return mark.known ? known({ ...mark.value, trait: proposalTrait(ledger) }) : mark;
}
