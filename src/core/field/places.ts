/** Places on the field from clicks in the picture, with the joint covariance of all of them. */
import { known, unknown, type Known } from '../known.ts';
import type { FieldMap } from './field-map.ts';
import { isOnField, type FieldPlace } from './field-marks.ts';
import { inverseOf, mapChange, mapped, pointJacobian, type Homography } from './homography.ts';

/** A click on the ground in a calibrated frame; `sd` is its standard deviation a coordinate in pixels, 0 or more. */
export type GroundClick = { readonly map: FieldMap; readonly x: number; readonly y: number; readonly sd: number };

/** Why a click is no place. */
export type PlaceProblem = 'above the horizon' | 'off the field';

/** Places in yards; `covariance` is 2n by 2n in x1, y1, x2, y2, ... (square yards). */
export type Places = { readonly places: readonly FieldPlace[]; readonly covariance: readonly (readonly number[])[] };

/** Yards beyond sidelines and end lines where a player may still be. */
const surround = 15;

/**
 * The places clicked, with their joint covariance: each click's own error and every map error, shared where maps share
 * its cause. First order: dX = -K (dH X - dx) with K the inverse map's point Jacobian (Criminisi, Reid & Zisserman
 * 1999). Reasons: a click 'above the horizon', or more than 15 yards 'off the field'.
 */
export function placesFrom(clicks: readonly GroundClick[]): Known<Places, PlaceProblem> {
  const places: FieldPlace[] = [];
  const blocks: { readonly own: readonly [number, number, number]; readonly shared: Map<string, readonly number[]> }[] =
    [];
  for (const { map, x, y, sd } of clicks) {
    const back = inverseOf(map.homography);
    const at = mapped(back, { x, y });
    if (!(at.w > 0)) {
      return unknown('above the horizon', `The click at ${x.toFixed(0)}, ${y.toFixed(0)} is above the horizon.`);
    }
    if (!isOnField(at, surround)) {
      return unknown(
        'off the field',
        `The click at ${x.toFixed(0)}, ${y.toFixed(0)} lies ${surround} yards and more beyond the field.`,
      );
    }
    places.push({ x: at.x, y: at.y });
    const k = pointJacobian(back, { x, y });
    const variance = sd * sd;
    const shared = new Map<string, readonly number[]>();
    for (const { id, columns } of map.sources) shared.set(id, moves(map.homography, at, k, columns));
    blocks.push({
      own: [
        variance * (k[0] * k[0] + k[1] * k[1]),
        variance * (k[0] * k[2] + k[1] * k[3]),
        variance * (k[2] * k[2] + k[3] * k[3]),
      ],
      shared,
    });
  }
  const covariance = Array.from({ length: 2 * clicks.length }, () =>
    Array.from({ length: 2 * clicks.length }, () => 0),
  );
  const add = (row: number, column: number, value: number) => {
    const line = covariance[row];
    if (line !== undefined) line[column] = (line[column] ?? 0) + value;
  };
  for (const [i, a] of blocks.entries()) {
    add(2 * i, 2 * i, a.own[0]);
    add(2 * i, 2 * i + 1, a.own[1]);
    add(2 * i + 1, 2 * i, a.own[1]);
    add(2 * i + 1, 2 * i + 1, a.own[2]);
    for (const [j, b] of blocks.entries()) {
      for (const [id, mine] of a.shared) {
        const other = b.shared.get(id);
        if (other === undefined) continue;
        for (let column = 0; column < mine.length; column += 2) {
          const ax = mine[column] ?? 0;
          const ay = mine[column + 1] ?? 0;
          const bx = other[column] ?? 0;
          const by = other[column + 1] ?? 0;
          add(2 * i, 2 * j, ax * bx);
          add(2 * i, 2 * j + 1, ax * by);
          add(2 * i + 1, 2 * j, ay * bx);
          add(2 * i + 1, 2 * j + 1, ay * by);
        }
      }
    }
  }
  return known({ places, covariance });
}

/** How a place moves by each column: x, y, x, y, ... */
function moves(
  homography: Homography,
  place: FieldPlace,
  k: readonly [number, number, number, number],
  columns: readonly Homography[],
): readonly number[] {
  return columns.flatMap((column) => {
    const { x, y } = mapChange(homography, place, column);
    return [-(k[0] * x + k[1] * y), -(k[2] * x + k[3] * y)];
  });
}

/** A covariance of one place: xx, xy, yy in square yards. Throws RangeError when there is no such place. */
export function placeCovariance({ covariance }: Places, index: number): readonly [number, number, number] {
  const xx = covariance[2 * index]?.[2 * index];
  const xy = covariance[2 * index]?.[2 * index + 1];
  const yy = covariance[2 * index + 1]?.[2 * index + 1];
  if (xx === undefined || xy === undefined || yy === undefined) {
    throw new RangeError(`there are ${covariance.length / 2} places, got index ${index}`);
  }
  return [xx, xy, yy];
}

/** The longest half axis of a place's 95 % ellipse, in yards. Throws RangeError when there is no such place. */
export function reach95(places: Places, index: number): number {
  const [xx, xy, yy] = placeCovariance(places, index);
  const largest = (xx + yy) / 2 + Math.hypot((xx - yy) / 2, xy);
  // 5.991 is the 95 % point of chi-square with two degrees, -2 ln .05.
  return Math.sqrt(-2 * Math.log(0.05) * largest);
}

/** A figure with its standard error, both in the unit its maker states; 95 % lies within 1.96 errors. */
export type Estimate = { readonly value: number; readonly error: number };

/**
 * Yards between two of the places, with the standard error from their joint covariance: both share the map, so short
 * distances are far surer than their ends (the published formula that treats ends as independent overstates them).
 * At distance 0, where there is no direction, the error is the largest of any. Throws RangeError on a missing place.
 */
export function distanceBetween(places: Places, first: number, second: number): Estimate {
  const a = places.places[first];
  const b = places.places[second];
  if (a === undefined || b === undefined) {
    throw new RangeError(`there are ${places.places.length} places, got indices ${first} and ${second}`);
  }
  const c = (i: number, j: number) => places.covariance[i]?.[j] ?? 0;
  const spread = (i: 0 | 1, j: 0 | 1) =>
    c(2 * first + i, 2 * first + j) +
    c(2 * second + i, 2 * second + j) -
    c(2 * first + i, 2 * second + j) -
    c(2 * second + i, 2 * first + j);
  const xx = spread(0, 0);
  const xy = spread(0, 1);
  const yy = spread(1, 1);
  const dx = b.x - a.x;
  const dy = b.y - a.y;
  const length = Math.hypot(dx, dy);
  const variance =
    length > 0
      ? (dx * dx * xx + 2 * dx * dy * xy + dy * dy * yy) / (length * length)
      : (xx + yy) / 2 + Math.hypot((xx - yy) / 2, xy);
  return { value: length, error: Math.sqrt(Math.max(variance, 0)) };
}
