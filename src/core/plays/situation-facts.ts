/** What follows from a charted snap, worked out where it is shown and never stored. */
import { type Known, known, unknown } from '../known.ts';
import { checkSituation, type Situation } from './situation.ts';

/** Whether the goal line is the line to gain. Throws RangeError on a snap that cannot be. */
export function isGoalToGo(situation: Situation): boolean {
  checkSituation(situation);
  return situation.toGo === situation.yardsToGoal;
}

/** Bands of yards to go, in order. Own convention. */
export const distanceBands = ['1', '2-3', '4-6', '7-10', '11 or more'] as const;
export type DistanceBand = (typeof distanceBands)[number];

/** The band of the yards to go. Throws RangeError on a snap that cannot be. */
export function distanceBand(situation: Situation): DistanceBand {
  checkSituation(situation);
  const { toGo } = situation;
  if (toGo <= 1) return '1';
  if (toGo <= 3) return '2-3';
  if (toGo <= 6) return '4-6';
  return toGo <= 10 ? '7-10' : '11 or more';
}

/** Zones of the field from one's own goal line to the other, in order. Own convention. */
export const fieldZones = [
  'own 10 and back',
  'own 11 to 40',
  'between the 40s',
  'opponent 39 to 21',
  'opponent 20 to 6',
  'opponent 5 and in',
] as const;
export type FieldZone = (typeof fieldZones)[number];

/** The zone the snap lies in. Throws RangeError on a snap that cannot be. */
export function fieldZone(situation: Situation): FieldZone {
  checkSituation(situation);
  const { yardsToGoal } = situation;
  if (yardsToGoal >= 90) return 'own 10 and back';
  if (yardsToGoal > 59) return 'own 11 to 40';
  if (yardsToGoal >= 40) return 'between the 40s';
  if (yardsToGoal > 20) return 'opponent 39 to 21';
  return yardsToGoal > 5 ? 'opponent 20 to 6' : 'opponent 5 and in';
}

/** Left, middle or right as the offence looks. */
export type Sideways = 'left' | 'middle' | 'right';

/** Which side a run goes to: the wide (field) or the short (boundary) one; neither from or through the middle. */
export const runSides = ['field', 'boundary', 'neither'] as const;
export type RunSide = (typeof runSides)[number];

/**
 * The side a run goes to, from the hash the ball lay on and the direction of the run; null is not charted. Reasons:
 * 'hash not charted', 'direction not charted'.
 */
export function runSide(
  hash: Sideways | null,
  direction: Sideways | null,
): Known<RunSide, 'hash not charted' | 'direction not charted'> {
  if (hash === null) return unknown('hash not charted', 'Field or boundary needs the hash.');
  if (direction === null) return unknown('direction not charted', 'Field or boundary needs the direction of the run.');
  if (hash === 'middle' || direction === 'middle') return known('neither');
  return known(hash === direction ? 'boundary' : 'field');
}
