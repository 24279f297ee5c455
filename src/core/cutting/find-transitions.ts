import { gradualChanges } from './gradual-changes.ts';
import { hardCuts, steps } from './hard-cuts.ts';
import type { Signatures } from './signature.ts';
import type { Transition } from './transition.ts';

/**
 * The changes of shot in a film, in order, none overlapping: hard cuts, dissolves and fades. Where a cut falls inside
 * a gradual change the cut stands if it carries most of the difference, the gradual one otherwise. `perSecond` is the
 * film's rate, above 0. A film of fewer than two frames has none.
 */
export function findTransitions(signatures: Signatures, perSecond: number): Transition[] {
  const all = steps(signatures);
  const cuts = hardCuts(signatures, perSecond, all);
  const gradual = gradualChanges(signatures, perSecond, all).filter(
    (change) => !cuts.some((cut) => cut.first > change.last && cut.last < change.first),
  );
  return [...cuts, ...gradual].sort((a, b) => a.last - b.last);
}
