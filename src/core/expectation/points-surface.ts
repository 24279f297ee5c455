/** The table of expected points and its rule of interpolation. */
import { type Down, isDown } from '../plays/situation.ts';
import shipped from './data/expected-points.json' with { type: 'json' };

/** Expected points by down, to go and yards to goal, as kept in the data file. */
export type PointsSurface = {
  readonly source: string;
  readonly touchdown: number;
  readonly safety: number;
  /** v[down][toGo - 1][yardsToGoal - toGo], toGo 1 to 30, yardsToGoal toGo to 99. */
  readonly v: Readonly<Record<'1' | '2' | '3' | '4', readonly (readonly number[])[]>>;
  /** Rows of [down, toGo, yardsToGoal, points, standard error, ...]. */
  readonly standardErrors: { readonly rows: readonly (readonly number[])[] };
};

/** The surface that comes with the program: professional, clock-neutral quarters; see its `source`. */
export const pointsSurface: PointsSurface = shipped;

/** A place to read the surface at; toGo and yardsToGoal may be fractions. */
export type SurfacePlace = { readonly down: number; readonly toGo: number; readonly yardsToGoal: number };

/**
 * Expected points at a place, linear between whole yards. To go is taken as at most yards to goal and at most 30, yards
 * to goal as 1 to 99, as the data file's `meta` lays down. Throws RangeError on a down that is not 1 to 4 or on numbers
 * that are not finite. For an answer with its reasons use expectedPoints.
 */
export function surfacePoints(surface: PointsSurface, place: SurfacePlace): number {
  const { down, toGo, yardsToGoal } = onSurface(place);
  const table = surface.v[`${down}`];
  const value = (i: number, j: number) => {
    const row = table[Math.min(30, i) - 1] ?? [];
    // An edge cell is only read with weight 0 where i + 1 or j + 1 would leave the table.
    return row[Math.min(99, j) - Math.min(30, i)] ?? row.at(-1) ?? 0;
  };
  const i = Math.floor(toGo);
  const j = Math.floor(yardsToGoal);
  const a = toGo - i;
  const b = yardsToGoal - j;
  if (i === j) {
    return value(i, j) + b * (value(i, j + 1) - value(i, j)) + a * (value(i + 1, j + 1) - value(i, j + 1));
  }
  const near = value(i, j) + a * (value(i + 1, j) - value(i, j));
  const far = value(i, j + 1) + a * (value(i + 1, j + 1) - value(i, j + 1));
  return near + b * (far - near);
}

/** The rules of the data file's `meta` for places off the table. */
export function onSurface(place: SurfacePlace): {
  readonly down: Down;
  readonly toGo: number;
  readonly yardsToGoal: number;
} {
  const { down } = place;
  if (!isDown(down)) throw new RangeError(`a down wants 1 to 4, got ${down}`);
  if (!(Number.isFinite(place.toGo) && Number.isFinite(place.yardsToGoal))) {
    throw new RangeError(
      `a place wants finite yards, got ${place.toGo} to go and ${place.yardsToGoal} to the goal line`,
    );
  }
  let toGo = Math.min(place.toGo, place.yardsToGoal);
  let { yardsToGoal } = place;
  if (toGo < 1) {
    yardsToGoal += 1 - toGo;
    toGo = 1;
  }
  yardsToGoal = Math.min(99, Math.max(1, yardsToGoal));
  return { down, toGo: Math.min(30, Math.max(1, toGo), yardsToGoal), yardsToGoal };
}
