/** Where a snap stands: down, to go and yards to the goal line; and what about it cannot be. */
import { type Known, known, unknown } from '../known.ts';

/** 1 to 4. */
export type Down = 1 | 2 | 3 | 4;

/** A possible snap: whole yards, 1 <= toGo <= yardsToGoal <= 99. Made by situationOf. */
export type Situation = {
  readonly down: Down;
  /** Yards to the line to gain, or to the goal line where that is nearer. */
  readonly toGo: number;
  /** Yards to the opponent's goal line, 1 to 99. */
  readonly yardsToGoal: number;
};

/** Why a situation can't be read. */
export type SituationFault =
  | 'not charted'
  | 'impossible down'
  | 'impossible spot'
  | 'impossible to go'
  | 'to go past the goal line';

/** What a study charts of a snap: spot counts yards from the offence's own goal line, 1 to 99; null is not charted. */
export type ChartedSituation = {
  readonly down: number | null;
  readonly toGo: number | null;
  readonly spot: number | null;
};

/**
 * Reads a charted snap. Reasons: 'not charted' (one of the three is null), 'impossible down' (not 1 to 4), 'impossible
 * spot' (not a whole yard from 1 to 99), 'impossible to go' (not a whole yard from 1), 'to go past the goal line'.
 */
export function situationOf(charted: ChartedSituation): Known<Situation, SituationFault> {
  const { down, toGo, spot } = charted;
  if (down === null || toGo === null || spot === null) {
    const missing = [down === null && 'down', toGo === null && 'to go', spot === null && 'spot'].filter(Boolean);
    return unknown('not charted', `This needs down, to go and spot; not charted: ${missing.join(', ')}.`);
  }
  return situationFrom({ down, toGo, yardsToGoal: 100 - spot });
}

/** The same from yards to the opponent's goal line; the reasons are those of situationOf without 'not charted'. */
export function situationFrom(snap: {
  readonly down: number;
  readonly toGo: number;
  readonly yardsToGoal: number;
}): Known<Situation, Exclude<SituationFault, 'not charted'>> {
  const { down, toGo, yardsToGoal } = snap;
  if (!isDown(down)) return unknown('impossible down', `A down is 1 to 4, got ${down}.`);
  if (!(Number.isInteger(yardsToGoal) && yardsToGoal >= 1 && yardsToGoal <= 99)) {
    return unknown('impossible spot', `A snap lies 1 to 99 whole yards from the goal line, got ${yardsToGoal}.`);
  }
  if (!(Number.isInteger(toGo) && toGo >= 1)) {
    return unknown('impossible to go', `To go is a whole number of yards from 1, got ${toGo}.`);
  }
  if (toGo > yardsToGoal) {
    return unknown(
      'to go past the goal line',
      `The goal line is ${yardsToGoal} yards away, so to go is at most ${yardsToGoal}, got ${toGo}.`,
    );
  }
  return known({ down, toGo, yardsToGoal });
}

/** Whether a number is 1, 2, 3 or 4. */
export function isDown(down: number): down is Down {
  return down === 1 || down === 2 || down === 3 || down === 4;
}

/** Throws RangeError unless the snap is possible: for callers that did not go through situationOf. */
export function checkSituation(situation: Situation): void {
  const checked = situationFrom(situation);
  if (!checked.known) throw new RangeError(checked.detail);
}

/** Throws RangeError unless the snap is possible and the gain whole yards, not past the goal line. */
export function checkGain(situation: Situation, gain: number): void {
  checkSituation(situation);
  if (!(Number.isInteger(gain) && gain <= situation.yardsToGoal && gain >= -110)) {
    throw new RangeError(`a gain wants whole yards up to ${situation.yardsToGoal} (the goal line), got ${gain}`);
  }
}
