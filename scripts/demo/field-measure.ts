/**
 * The college field to rule-book measure, in yards: 100 by 53 1/3 between the lines, hash marks 60 ft from
 * each sideline, numbers 6 ft tall with their tops 9 yd in, goal 18 ft 6 in wide with its crossbar at 10 ft.
 */
export const FIELD = {
  length: 100,
  width: 160 / 3,
  endZone: 10,
  leftHash: 20,
  rightHash: 160 / 3 - 20,
  lineWidth: 4 / 36,
  goalLineWidth: 8 / 36,
  shortMark: 24 / 36,
  border: 2,
  numberBottom: 7,
  numberTop: 9,
  numberWidth: 4 / 3,
  goalInside: 18.5 / 3,
  crossbar: 10 / 3,
  uprightTop: 40 / 3,
} as const;

/** Frames a second of every demo film, and its picture. */
export const FILM = { numerator: 30000, denominator: 1001, width: 1280, height: 720 } as const;

/** Seconds between two frames at normal speed. */
export const FRAME_SECONDS = FILM.denominator / FILM.numerator;

/** A place on the ground: yards. In stadium axes X runs from west goal line to east, Y from far sideline to near. */
export type Place = readonly [number, number];
/** A place in the air: ground axes plus height above the grass, yards. */
export type Point3 = readonly [number, number, number];

/** Turns a place as the offence counts it (own goal line 0, left sideline 0) into stadium axes, or back again. */
export function turnField(drive: 1 | -1, place: Place): Place {
  return drive === 1 ? place : [FIELD.length - place[0], FIELD.width - place[1]];
}
