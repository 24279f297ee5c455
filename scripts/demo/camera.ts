import { FIELD, FILM, type Point3 } from './field-measure.ts';

/** Where a camera stands, what it looks at (stadium axes, yards) and its focal length in picture pixels. */
export type Camera = {
  readonly at: Point3;
  readonly target: Point3;
  readonly focal: number;
};

/** Twelve numbers of a 3 by 4 matrix, row by row: (x, y, z, 1) in yards to picture pixels times depth. */
export type Matrix34 = readonly number[];

type Axes = { readonly right: Point3; readonly up: Point3; readonly forward: Point3 };

function axes(camera: Camera): Axes {
  const [ax, ay, az] = camera.at;
  const [tx, ty, tz] = camera.target;
  const length = Math.hypot(tx - ax, ty - ay, tz - az);
  const forward: Point3 = [(tx - ax) / length, (ty - ay) / length, (tz - az) / length];
  const flat = Math.hypot(forward[0], forward[1]);
  const right: Point3 = [-forward[1] / flat, forward[0] / flat, 0];
  const lift = Math.sqrt(1 - forward[2] * forward[2]);
  const up: Point3 = [
    (-forward[2] * forward[0]) / lift,
    (-forward[2] * forward[1]) / lift,
    (1 - forward[2] * forward[2]) / lift,
  ];
  return { right, up, forward };
}

/** The projection of a camera in stadium axes; row three is the depth in yards. */
export function stadiumMatrix(camera: Camera): Matrix34 {
  const { right, up, forward } = axes(camera);
  const cx = FILM.width / 2;
  const cy = FILM.height / 2;
  const rows: number[] = [];
  for (let row = 0; row < 3; row += 1) {
    const line = [0, 1, 2].map((axis) => {
      const r = right[axis] ?? 0;
      const u = up[axis] ?? 0;
      const f = forward[axis] ?? 0;
      if (row === 0) return camera.focal * r + cx * f;
      return row === 1 ? -camera.focal * u + cy * f : f;
    });
    const moved = -line.reduce((sum, value, axis) => sum + value * (camera.at[axis] ?? 0), 0);
    rows.push(...line, moved);
  }
  return rows;
}

/** The same projection for places counted as the offence counts them; `drive` is 1 when it drives east. */
export function offenceMatrix(camera: Camera, drive: 1 | -1): Matrix34 {
  const m = stadiumMatrix(camera);
  if (drive === 1) return m;
  const turned: number[] = [];
  for (let row = 0; row < 3; row += 1) {
    const [a = 0, b = 0, c = 0, d = 0] = m.slice(row * 4, row * 4 + 4);
    turned.push(-a, -b, c, d + a * FIELD.length + b * FIELD.width);
  }
  return turned;
}

/** Picture x, y in pixels and depth in yards; a depth of 0 or less lies behind the camera and its x, y mean nothing. */
export function project(m: Matrix34, point: Point3): readonly [number, number, number] {
  const row = (at: number): number =>
    (m[at] ?? 0) * point[0] + (m[at + 1] ?? 0) * point[1] + (m[at + 2] ?? 0) * point[2] + (m[at + 3] ?? 0);
  const depth = row(8);
  return [row(0) / depth, row(4) / depth, depth];
}
