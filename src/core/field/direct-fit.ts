/** A homography from pairs of points by the normalised direct linear transform, and what makes a set of pairs unfit. */
import { Matrix, SVD } from 'ml-matrix';
import { known, unknown, type Known } from '../known.ts';
import { inverseOf, product, type Homography, type PlanePoint } from './homography.ts';

/** One point in two planes. */
export type PointPair = { readonly from: PlanePoint; readonly to: PlanePoint };

/** Why pairs give no homography. */
export type DirectFitProblem = 'fewer than four points' | 'same place twice' | 'points on one line' | 'not a number';

/** Moves a plane's points to centroid 0 and mean distance sqrt 2 (Hartley 1997). */
export function normalisation(points: readonly PlanePoint[]): Homography {
  const count = points.length;
  const cx = points.reduce((sum, { x }) => sum + x, 0) / count;
  const cy = points.reduce((sum, { y }) => sum + y, 0) / count;
  const spread = points.reduce((sum, { x, y }) => sum + Math.hypot(x - cx, y - cy), 0) / count;
  const scale = spread > 0 ? Math.SQRT2 / spread : 1;
  return [scale, 0, -scale * cx, 0, scale, -scale * cy, 0, 0, 1];
}

/**
 * The homography from `from` to `to` that is least squares in the algebraic error of normalised points; Frobenius norm
 * free. Reasons: fewer than 4 pairs; two pairs with one place in either plane; all points but one within `tolerance`
 * (share of the set's extent, default 1e-6) of one line in either plane, so that no four are in general position;
 * a coordinate that is not finite. Source: Hartley 1997, IEEE PAMI 19:580-593.
 */
export function directFit(pairs: readonly PointPair[], tolerance = 1e-6): Known<Homography, DirectFitProblem> {
  if (!pairs.every(({ from, to }) => [from.x, from.y, to.x, to.y].every(Number.isFinite))) {
    return unknown('not a number', 'Every point wants two finite coordinates in both planes.');
  }
  if (pairs.length < 4) {
    return unknown('fewer than four points', `A calibration wants at least 4 points, got ${pairs.length}.`);
  }
  for (const plane of ['from', 'to'] as const) {
    const points = pairs.map((pair) => pair[plane]);
    const extent = extentOf(points);
    const twice = firstRepeat(points, extent * tolerance);
    if (twice !== null) {
      return unknown('same place twice', `Points ${twice[0] + 1} and ${twice[1] + 1} lie on one place.`);
    }
    if (mostOnALine(points, extent * tolerance) >= points.length - 1) {
      return unknown('points on one line', 'All points but at most one lie on one line; click some off it.');
    }
  }
  const before = normalisation(pairs.map(({ from }) => from));
  const after = normalisation(pairs.map(({ to }) => to));
  const rows: number[][] = [];
  for (const { from, to } of pairs) {
    const x = before[0] * from.x + before[2];
    const y = before[4] * from.y + before[5];
    const u = after[0] * to.x + after[2];
    const v = after[4] * to.y + after[5];
    rows.push([x, y, 1, 0, 0, 0, -u * x, -u * y, -u], [0, 0, 0, x, y, 1, -v * x, -v * y, -v]);
  }
  // Four pairs give eight rows; a row of zeros lets the decomposition show the ninth direction.
  while (rows.length < 9) rows.push([0, 0, 0, 0, 0, 0, 0, 0, 0]);
  const v = new SVD(new Matrix(rows), { computeLeftSingularVectors: false }).rightSingularVectors;
  const n = (row: number) => v.get(row, 8);
  const fitted: Homography = [n(0), n(1), n(2), n(3), n(4), n(5), n(6), n(7), n(8)];
  return known(product(inverseOf(after), product(fitted, before)));
}

/** The diagonal of the points' bounding box. */
export function extentOf(points: readonly PlanePoint[]): number {
  const xs = points.map(({ x }) => x);
  const ys = points.map(({ y }) => y);
  return Math.hypot(Math.max(...xs) - Math.min(...xs), Math.max(...ys) - Math.min(...ys));
}

/** The first two points within `reach` of each other, by index; null when all stand apart. */
export function firstRepeat(points: readonly PlanePoint[], reach: number): readonly [number, number] | null {
  for (const [first, a] of points.entries()) {
    for (let second = first + 1; second < points.length; second += 1) {
      const b = points[second];
      if (b !== undefined && Math.hypot(a.x - b.x, a.y - b.y) <= reach) return [first, second];
    }
  }
  return null;
}

/** The largest number of points within `reach` of a line through two of them. */
export function mostOnALine(points: readonly PlanePoint[], reach: number): number {
  let most = 0;
  for (const [first, a] of points.entries()) {
    for (const b of points.slice(first + 1)) {
      const length = Math.hypot(b.x - a.x, b.y - a.y);
      if (length === 0) continue;
      const off = ({ x, y }: PlanePoint) => Math.abs((b.x - a.x) * (y - a.y) - (b.y - a.y) * (x - a.x)) / length;
      most = Math.max(most, points.filter((point) => off(point) <= reach).length);
    }
  }
  return most;
}
