/** A way the runner could have gone at his decision frame, as the evaluator saw it. */
import { type Known, known, unknown } from '../known.ts';

/** What the lane was like at that frame. */
export type LaneState = 'open' | 'closing' | 'filled';

/**
 * A lane: the gain it offered in whole yards, low <= likely <= high from -20 to 99. One run in ten is meant to gain less
 * than low, one in ten more than high; likely is the most likely gain.
 */
export type Lane = {
  readonly name: string;
  readonly state: LaneState;
  readonly low: number;
  readonly likely: number;
  readonly high: number;
  readonly taken: boolean;
};

/** Why a lane cannot be valued. */
export type LaneFault = 'impossible yards' | 'yards out of order';

/** Checks a lane's yards. Reasons: 'impossible yards' (not whole, or not -20 to 99), 'yards out of order'. */
export function checkLane(lane: Lane): Known<Lane, LaneFault> {
  const { low, likely, high, name } = lane;
  for (const yards of [low, likely, high]) {
    if (!(Number.isInteger(yards) && yards >= -20 && yards <= 99)) {
      return unknown(
        'impossible yards',
        `A lane's yards are whole, -20 to 99; ${name} got ${low}, ${likely}, ${high}.`,
      );
    }
  }
  if (!(low <= likely && likely <= high)) {
    return unknown(
      'yards out of order',
      `A lane's yards go low, likely, high; ${name} got ${low}, ${likely}, ${high}.`,
    );
  }
  return known(lane);
}
