/** The field's measure and where each level of football paints its marks, in yards. */

/** Levels of football whose marks differ. */
export type MarksPreset = 'professional' | 'college' | 'school';

/** Every preset, in the order a list shows them. */
export const marksPresets: readonly MarksPreset[] = ['professional', 'college', 'school'];

/** Yards from sideline to sideline: 160 ft at every level. */
export const fieldWidth = 160 / 3;

/** Yards from goal line to goal line, and of each end zone behind it. */
export const fieldLength = 100;
export const endZoneDepth = 10;

/** Distances from the nearer sideline in yards; null where the level's rules leave the numbers' edge open. */
export type Marks = {
  readonly hash: number;
  readonly numberTop: number | null;
  readonly numberBottom: number | null;
};

/**
 * Marks of a level in yards from the nearer sideline. Professional: inbound lines 70 ft 9 in, numbers' bottoms 12 yd
 * and 2 yd tall (NFL rule 1 sections 1-2). College: 60 ft, tops 9 yd, at most 6 ft tall (NCAA rule 1-2-1, only
 * recommended for numbers, so check the residuals). School: 53 ft 4 in, tops 9 yd (NFHS rule 1-2-3, numbers from
 * memory); the bottoms are not fixed.
 */
export function marksOf(preset: MarksPreset): Marks {
  switch (preset) {
    case 'professional':
      return { hash: 70.75 / 3, numberTop: 14, numberBottom: 12 };
    case 'college':
      return { hash: 20, numberTop: 9, numberBottom: 7 };
    case 'school':
      return { hash: 160 / 9, numberTop: 9, numberBottom: null };
  }
}

/** A stretch of paint to draw over the film: two places in yards. */
export type MarkLine = { readonly from: FieldPlace; readonly to: FieldPlace };

/** A place on the ground in yards: x from the offence's own goal line, y from its left sideline. */
export type FieldPlace = { readonly x: number; readonly y: number };

/** The same ground as an offence that drives the other way counts it: both axes turned, never mirrored. */
export function turnedAround(place: FieldPlace): FieldPlace {
  return { x: fieldLength - place.x, y: fieldWidth - place.y };
}

/** True when a place lies on the field, its end zones or within `margin` yards (at least 0) beyond them. */
export function isOnField(place: FieldPlace, margin = 0): boolean {
  return (
    place.x >= -endZoneDepth - margin &&
    place.x <= fieldLength + endZoneDepth + margin &&
    place.y >= -margin &&
    place.y <= fieldWidth + margin
  );
}

/** The grid of a level: sidelines, end lines, goal lines, a line every 5 yards and both rows of hash marks. */
export function gridOf(preset: MarksPreset): readonly MarkLine[] {
  const { hash } = marksOf(preset);
  const across = (x: number): MarkLine => ({ from: { x, y: 0 }, to: { x, y: fieldWidth } });
  const along = (y: number, from: number, to: number): MarkLine => ({ from: { x: from, y }, to: { x: to, y } });
  const lines = [across(-endZoneDepth), across(fieldLength + endZoneDepth)];
  for (let x = 0; x <= fieldLength; x += 5) lines.push(across(x));
  for (const y of [0, fieldWidth]) lines.push(along(y, -endZoneDepth, fieldLength + endZoneDepth));
  for (const y of [hash, fieldWidth - hash]) lines.push(along(y, 0, fieldLength));
  return lines;
}
