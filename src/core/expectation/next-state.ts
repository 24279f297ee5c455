/** What a gain leads to, and what that is worth. */
import { checkGain, type Down, type Situation } from '../plays/situation.ts';
import { type PointsSurface, surfacePoints } from './points-surface.ts';

/** Where the ball lies after a run; yards are whole. On turnover on downs they are the other side's. */
export type NextState =
  | { readonly kind: 'touchdown' }
  | { readonly kind: 'safety' }
  | { readonly kind: 'first down'; readonly down: 1; readonly toGo: number; readonly yardsToGoal: number }
  | { readonly kind: 'next down'; readonly down: Down; readonly toGo: number; readonly yardsToGoal: number }
  | { readonly kind: 'turnover on downs'; readonly down: 1; readonly toGo: number; readonly yardsToGoal: number };

/**
 * The state after a gain in whole yards (a loss below 0). Reaching the goal line is a touchdown, one's own a safety; the
 * line to gain a first down with 10, or the goal line, to go; fourth down short of it gives the ball over on the spot.
 * Throws RangeError on a gain that is not whole or goes past the goal line.
 */
export function stateAfter(situation: Situation, gain: number): NextState {
  checkGain(situation, gain);
  const yardsToGoal = situation.yardsToGoal - gain;
  if (yardsToGoal <= 0) return { kind: 'touchdown' };
  if (yardsToGoal >= 100) return { kind: 'safety' };
  if (gain >= situation.toGo) return { kind: 'first down', down: 1, toGo: Math.min(10, yardsToGoal), yardsToGoal };
  if (situation.down === 4) {
    const theirs = 100 - yardsToGoal;
    return { kind: 'turnover on downs', down: 1, toGo: Math.min(10, theirs), yardsToGoal: theirs };
  }
  const down = situation.down === 1 ? 2 : situation.down === 2 ? 3 : 4;
  return { kind: 'next down', down, toGo: situation.toGo - gain, yardsToGoal };
}

/**
 * Expected points after a gain: touchdown 7, the surface's value of the next state, minus the other side's
 * first-and-ten after a failed fourth down. A loss into the own end zone is min(-2, the value of the next down at the 1):
 * a bare -2 leaves out the free kick, and would make losing one yard more worth having. On fourth down the same rule
 * takes the failed down at the 1. Never falls as the gain grows. Throws as stateAfter.
 * Source: the data file's `meta` and the notes that came with it; scoring values as in Yurko, Ventura & Horowitz 2019,
 * J. Quant. Anal. Sports 15:163-183.
 */
export function pointsAfter(surface: PointsSurface, situation: Situation, gain: number): number {
  const next = stateAfter(situation, gain);
  if (next.kind === 'touchdown') return surface.touchdown;
  if (next.kind === 'safety') return Math.min(surface.safety, pointsAtOwnOne(surface, situation, gain));
  const points = surfacePoints(surface, next);
  return next.kind === 'turnover on downs' ? -points : points;
}

function pointsAtOwnOne(surface: PointsSurface, situation: Situation, gain: number): number {
  if (situation.down === 4) return -surfacePoints(surface, { down: 1, toGo: 1, yardsToGoal: 1 });
  return surfacePoints(surface, { down: situation.down + 1, toGo: situation.toGo - gain, yardsToGoal: 99 });
}
