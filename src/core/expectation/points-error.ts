/** How well the table of expected points is known. */
import { onSurface, type PointsSurface, type SurfacePlace } from './points-surface.ts';

/**
 * Standard error of expected points at a place, in points: the bootstrap errors of the data file, linear in to go within
 * the yard lines they were computed at and then linear between those. Sampling error only; differences between
 * neighbouring places are known better than either. Throws as surfacePoints, and RangeError on a surface that has no
 * errors for the down.
 */
export function surfaceError(surface: PointsSurface, place: SurfacePlace): number {
  const { down, toGo, yardsToGoal } = onSurface(place);
  const columns = columnsOf(surface).get(down);
  if (columns === undefined) throw new RangeError(`the surface wants standard errors for down ${down}, has none`);
  return interpolate(columns, yardsToGoal, (column) => interpolate(column.errors, toGo, ({ error }) => error));
}

/** Errors at one yard line, by to go; and the yard lines of one down: both ascending in `at`. */
type Column = { readonly at: number; readonly errors: readonly { readonly at: number; readonly error: number }[] };

/** A surface's rows never change, so the lookup made of them is kept with it. */
const made = new WeakMap<PointsSurface, ReadonlyMap<number, readonly Column[]>>();

function columnsOf(surface: PointsSurface): ReadonlyMap<number, readonly Column[]> {
  const kept = made.get(surface);
  if (kept !== undefined) return kept;
  const rows = surface.standardErrors.rows.map(([down = 0, toGo = 0, yards = 0, , error = 0]) => ({
    down,
    toGo,
    yards,
    error,
  }));
  const columns = new Map(
    [1, 2, 3, 4].flatMap((down) => {
      const own = Map.groupBy(
        rows.filter((row) => row.down === down),
        ({ yards }) => yards,
      );
      const sorted = [...own]
        .map(([at, cells]) => ({
          at,
          errors: cells.map(({ toGo, error }) => ({ at: toGo, error })).sort((a, b) => a.at - b.at),
        }))
        .sort((a, b) => a.at - b.at);
      return sorted.length === 0 ? [] : [[down, sorted] as const];
    }),
  );
  made.set(surface, columns);
  return columns;
}

/** Linear between the two points around x, flat beyond the ends. */
function interpolate<Point extends { readonly at: number }>(
  points: readonly Point[],
  x: number,
  valueOf: (point: Point) => number,
): number {
  const above = points.find(({ at }) => at >= x) ?? points.at(-1);
  const below = points.findLast(({ at }) => at <= x) ?? points[0];
  if (above === undefined || below === undefined) throw new RangeError('interpolation wants at least one point');
  if (above.at <= below.at) return valueOf(below);
  const share = (x - below.at) / (above.at - below.at);
  return valueOf(below) + share * (valueOf(above) - valueOf(below));
}
