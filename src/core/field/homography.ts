/** Plane to plane maps as nine numbers, row by row. Own arithmetic: a 3 by 3 is no reason for a matrix object. */

/** A 3 by 3 matrix, row by row. As a homography its scale is free. */
export type Homography = readonly [number, number, number, number, number, number, number, number, number];

/** A point of a plane: pixels of a picture (x right, y down) or yards. */
export type PlanePoint = { readonly x: number; readonly y: number };

/** The product a b: first b, then a. */
export function product(a: Homography, b: Homography): Homography {
  const cell = (row: 0 | 3 | 6, column: 0 | 1 | 2) =>
    a[row] * b[column] +
    (row === 0 ? a[1] : row === 3 ? a[4] : a[7]) * (column === 0 ? b[3] : column === 1 ? b[4] : b[5]) +
    (row === 0 ? a[2] : row === 3 ? a[5] : a[8]) * (column === 0 ? b[6] : column === 1 ? b[7] : b[8]);
  return [cell(0, 0), cell(0, 1), cell(0, 2), cell(3, 0), cell(3, 1), cell(3, 2), cell(6, 0), cell(6, 1), cell(6, 2)];
}

/** Every number times `factor`. */
export function scaled(h: Homography, factor: number): Homography {
  return [
    h[0] * factor,
    h[1] * factor,
    h[2] * factor,
    h[3] * factor,
    h[4] * factor,
    h[5] * factor,
    h[6] * factor,
    h[7] * factor,
    h[8] * factor,
  ];
}

/** The determinant. */
export function determinantOf(h: Homography): number {
  return h[0] * (h[4] * h[8] - h[5] * h[7]) - h[1] * (h[3] * h[8] - h[5] * h[6]) + h[2] * (h[3] * h[7] - h[4] * h[6]);
}

/** The inverse, by cofactors. Throws RangeError on a determinant that is 0 or no number. */
export function inverseOf(h: Homography): Homography {
  const determinant = determinantOf(h);
  if (!(Math.abs(determinant) > 0)) throw new RangeError(`an inverse wants a determinant off 0, got ${determinant}`);
  return scaled(
    [
      h[4] * h[8] - h[5] * h[7],
      h[2] * h[7] - h[1] * h[8],
      h[1] * h[5] - h[2] * h[4],
      h[5] * h[6] - h[3] * h[8],
      h[0] * h[8] - h[2] * h[6],
      h[2] * h[3] - h[0] * h[5],
      h[3] * h[7] - h[4] * h[6],
      h[1] * h[6] - h[0] * h[7],
      h[0] * h[4] - h[1] * h[3],
    ],
    1 / determinant,
  );
}

/** A mapped point with its weight w: the third coordinate before division, whose sign tells front from behind. */
export type Mapped = { readonly x: number; readonly y: number; readonly w: number };

/** Maps a point. On the horizon (w 0) x and y are not finite: look at w first. */
export function mapped(h: Homography, point: PlanePoint): Mapped {
  const w = h[6] * point.x + h[7] * point.y + h[8];
  return {
    x: (h[0] * point.x + h[1] * point.y + h[2]) / w,
    y: (h[3] * point.x + h[4] * point.y + h[5]) / w,
    w,
  };
}

/** A 2 by 2 matrix, row by row. */
export type Matrix2 = readonly [number, number, number, number];

/**
 * How a mapped point moves with the point mapped: J = (1/w) [h1 - X h3; h2 - Y h3], first two columns.
 * Source: Criminisi, Reid & Zisserman 1999, Image and Vision Computing 17:625-634 (from memory, checked numerically).
 */
export function pointJacobian(h: Homography, point: PlanePoint): Matrix2 {
  const { x, y, w } = mapped(h, point);
  return [(h[0] - x * h[6]) / w, (h[1] - x * h[7]) / w, (h[3] - y * h[6]) / w, (h[4] - y * h[7]) / w];
}

/** How a mapped point moves when the map's nine numbers move by `change`, the point mapped standing still. */
export function mapChange(h: Homography, point: PlanePoint, change: Homography): PlanePoint {
  const { x, y, w } = mapped(h, point);
  const third = change[6] * point.x + change[7] * point.y + change[8];
  return {
    x: (change[0] * point.x + change[1] * point.y + change[2] - x * third) / w,
    y: (change[3] * point.x + change[4] * point.y + change[5] - y * third) / w,
  };
}
