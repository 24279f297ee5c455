/** Expected points of a snap, or why this surface cannot speak of it. */
import { type Known, known, unknown } from '../known.ts';
import { type SituationFault, situationFrom } from '../plays/situation.ts';
import { surfaceError } from './points-error.ts';
import { type PointsSurface, surfacePoints } from './points-surface.ts';

/** When a snap was: quarter 1 to 4 (5 and up is overtime), seconds left in it; null is not charted. */
export type GameClock = { readonly quarter: number | null; readonly clockSeconds: number | null };

/** Seconds before the end of a half within which the surface is silent. Own convention, no source; made to be edited. */
export type ClockLimits = { readonly endOfHalf: number; readonly endOfGame: number };

/** The last two minutes of the second quarter and the last five of the fourth. Own convention, no source. */
export const usualClockLimits: ClockLimits = { endOfHalf: 120, endOfGame: 300 };

/** Why expected points can't be given at a moment of the game. */
export type ClockFault = 'overtime' | 'end of half' | 'end of game';

/**
 * Whether the surface may speak at this moment: it comes from the first and third quarters, where the clock does not
 * matter. Reasons: 'overtime', 'end of half', 'end of game'. A moment that is not charted passes.
 */
export function clockAllows(clock: GameClock, limits: ClockLimits = usualClockLimits): Known<true, ClockFault> {
  const { quarter, clockSeconds } = clock;
  if (quarter !== null && quarter > 4) {
    return unknown('overtime', 'Expected points come from clock-neutral quarters and say nothing of overtime.');
  }
  if (clockSeconds === null) return known(true);
  if (quarter === 2 && clockSeconds <= limits.endOfHalf) {
    return unknown('end of half', `Expected points say nothing of the last ${limits.endOfHalf} seconds of a half.`);
  }
  if (quarter === 4 && clockSeconds <= limits.endOfGame) {
    return unknown('end of game', `Expected points say nothing of the last ${limits.endOfGame} seconds of a game.`);
  }
  return known(true);
}

/** Points the offence may expect of the next score in the half, minus what the defence may; with its sampling error. */
export type ExpectedPoints = { readonly points: number; readonly standardError: number };

/**
 * Expected points of a snap (whole yards). Professional and clock-neutral; on fourth down the average of what teams
 * chose. Reasons: those of situationFrom, 'overtime', 'end of half', 'end of game'.
 * Source: the surface's own `source`; the idea: Carter & Machol 1971, Operations Research 19:541-544.
 */
export function expectedPoints(
  surface: PointsSurface,
  snap: { readonly down: number; readonly toGo: number; readonly yardsToGoal: number },
  clock: GameClock = { quarter: null, clockSeconds: null },
  limits: ClockLimits = usualClockLimits,
): Known<ExpectedPoints, Exclude<SituationFault, 'not charted'> | ClockFault> {
  const situation = situationFrom(snap);
  if (!situation.known) return situation;
  const allowed = clockAllows(clock, limits);
  if (!allowed.known) return allowed;
  return known({
    points: surfacePoints(surface, situation.value),
    standardError: surfaceError(surface, situation.value),
  });
}
