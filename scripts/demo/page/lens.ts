import { project, stadiumMatrix, type Camera, type Matrix34 } from '../camera.ts';
import type { Point3 } from '../field-measure.ts';

/** A camera made ready for drawing. */
export type Lens = {
  readonly camera: Camera;
  readonly matrix: Matrix34;
  readonly context: CanvasRenderingContext2D;
};

const NEAR = 2;

/** Makes a lens of a camera and the canvas it draws on. */
export function lensOf(context: CanvasRenderingContext2D, camera: Camera): Lens {
  return { camera, matrix: stadiumMatrix(camera), context };
}

/** Picture place and pixels a yard at a point; undefined behind the lens. */
export function seen(lens: Lens, point: Point3): { x: number; y: number; scale: number; depth: number } | undefined {
  const [x, y, depth] = project(lens.matrix, point);
  return depth < NEAR ? undefined : { x, y, scale: lens.camera.focal / depth, depth };
}

function depthOf(lens: Lens, point: Point3): number {
  const m = lens.matrix;
  return (m[8] ?? 0) * point[0] + (m[9] ?? 0) * point[1] + (m[10] ?? 0) * point[2] + (m[11] ?? 0);
}

/** Adds a polygon of the world to the current path, cut at the near plane. */
export function addPolygon(lens: Lens, points: readonly Point3[]): void {
  const kept: Point3[] = [];
  points.forEach((point, at) => {
    const next = points[(at + 1) % points.length] ?? point;
    const depth = depthOf(lens, point);
    const nextDepth = depthOf(lens, next);
    if (depth >= NEAR) kept.push(point);
    if (depth >= NEAR !== nextDepth >= NEAR) {
      const t = (NEAR - depth) / (nextDepth - depth);
      kept.push([
        point[0] + (next[0] - point[0]) * t,
        point[1] + (next[1] - point[1]) * t,
        point[2] + (next[2] - point[2]) * t,
      ]);
    }
  });
  kept.forEach((point, at) => {
    const [x, y] = project(lens.matrix, point);
    if (at === 0) lens.context.moveTo(x, y);
    else lens.context.lineTo(x, y);
  });
  if (kept.length > 0) lens.context.closePath();
}

/** Fills one or more polygons of the world in one colour. */
export function fillPolygons(lens: Lens, colour: string, polygons: readonly (readonly Point3[])[]): void {
  lens.context.fillStyle = colour;
  lens.context.beginPath();
  for (const polygon of polygons) addPolygon(lens, polygon);
  lens.context.fill();
}

/** A rectangle lying on the grass. */
export function flat(x0: number, y0: number, x1: number, y1: number, height = 0): Point3[] {
  return [
    [x0, y0, height],
    [x1, y0, height],
    [x1, y1, height],
    [x0, y1, height],
  ];
}
