import type { Point3 } from '../field-measure.ts';
import type { FigureFrame } from '../scene.ts';

/** Joints of one figure in stadium axes, yards. */
export type Skeleton = {
  readonly pelvis: Point3;
  readonly hips: readonly [Point3, Point3];
  readonly knees: readonly [Point3, Point3];
  readonly ankles: readonly [Point3, Point3];
  readonly toes: readonly [Point3, Point3];
  readonly waist: Point3;
  readonly chest: Point3;
  readonly shoulders: readonly [Point3, Point3];
  readonly elbows: readonly [Point3, Point3];
  readonly hands: readonly [Point3, Point3];
  readonly neck: Point3;
  readonly head: Point3;
  /** Unit vectors: the way the chest faces, the figure's right, and up along the spine. */
  readonly front: Point3;
  readonly right: Point3;
  readonly spine: Point3;
};

const THIGH = 0.48;
const SHIN = 0.47;
const UPPER_ARM = 0.34;
const FOREARM = 0.36;

const plus = (a: Point3, b: Point3, by = 1): Point3 => [a[0] + b[0] * by, a[1] + b[1] * by, a[2] + b[2] * by];
const minus = (a: Point3, b: Point3): Point3 => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
const size = (a: Point3): number => Math.hypot(a[0], a[1], a[2]);

/** A two-bone limb: the end (pulled in when out of reach) and the joint between, bent toward `bend`. */
function bendLimb(
  from: Point3,
  wish: Point3,
  upper: number,
  lower: number,
  bend: Point3,
): { joint: Point3; end: Point3 } {
  const way = minus(wish, from);
  const far = Math.max(0.05, size(way));
  const reach = Math.min(far, (upper + lower) * 0.995);
  const unit: Point3 = [way[0] / far, way[1] / far, way[2] / far];
  const along = (upper * upper - lower * lower + reach * reach) / (2 * reach);
  const off = Math.sqrt(Math.max(0, upper * upper - along * along));
  const dot = bend[0] * unit[0] + bend[1] * unit[1] + bend[2] * unit[2];
  const side = plus(bend, unit, -dot);
  const sideSize = Math.max(0.001, size(side));
  return { joint: plus(plus(from, unit, along), side, off / sideSize), end: plus(from, unit, reach) };
}

/** Builds a figure's joints from its bearing at one frame; `bulk` widens shoulders and hips. */
export function skeletonOf(frame: FigureFrame, bulk: number): Skeleton {
  const at = (index: number): number => frame[index] ?? 0;
  const point = (index: number): Point3 => [at(index), at(index + 1), at(index + 2)];
  const face = at(2);
  const leanWay = at(3);
  const lean = at(4);
  const fall = at(6);
  const pelvis: Point3 = [at(0), at(1), at(5)];
  const spine: Point3 = [Math.cos(leanWay) * Math.sin(lean), Math.sin(leanWay) * Math.sin(lean), Math.cos(lean)];
  const right: Point3 = [-Math.sin(face), Math.cos(face), 0];
  const front: Point3 = [Math.cos(face) * Math.cos(lean), Math.sin(face) * Math.cos(lean), -Math.sin(lean)];
  const hipHalf = 0.115 * bulk;
  const shoulderHalf = 0.27 * bulk;
  const hips: [Point3, Point3] = [plus(pelvis, right, -hipHalf), plus(pelvis, right, hipHalf)];
  const waist = plus(pelvis, spine, 0.2);
  const chest = plus(pelvis, spine, 0.46);
  const neck = plus(pelvis, spine, 0.64);
  const headLift: Point3 = [
    spine[0] * 0.55 + Math.cos(face) * 0.1,
    spine[1] * 0.55 + Math.sin(face) * 0.1,
    Math.max(spine[2], 0.72 * (1 - fall) + 0.05),
  ];
  const head = plus(neck, headLift, 0.21 / Math.max(0.2, size(headLift)));
  const shoulders: [Point3, Point3] = [
    plus(plus(pelvis, spine, 0.56), right, -shoulderHalf),
    plus(plus(pelvis, spine, 0.56), right, shoulderHalf),
  ];
  const forward: Point3 = [Math.cos(face), Math.sin(face), 0.35];
  const legs = [0, 1].map((side) => {
    const foot = point(8 + side * 3);
    const hip = hips[side] ?? pelvis;
    return bendLimb(hip, [foot[0], foot[1], foot[2] + 0.09], THIGH, SHIN, forward);
  });
  const arms = [0, 1].map((side) => {
    const out = side === 0 ? -0.55 : 0.55;
    const bend: Point3 = [right[0] * out - Math.cos(face) * 0.5, right[1] * out - Math.sin(face) * 0.5, -0.75];
    return bendLimb(shoulders[side] ?? chest, point(14 + side * 3), UPPER_ARM, FOREARM, bend);
  });
  const toes = legs.map((leg, side): Point3 => {
    const lifted = Math.min(1, (point(8 + side * 3)[2] ?? 0) / 0.3);
    const [x, y, z] = leg.end;
    return [
      x + Math.cos(face) * 0.24 * (1 - lifted * 0.35),
      y + Math.sin(face) * 0.24 * (1 - lifted * 0.35),
      Math.max(0.03, z - 0.06 - lifted * 0.16),
    ];
  });
  const pair = (of: readonly { joint: Point3; end: Point3 }[], part: 'joint' | 'end'): [Point3, Point3] => [
    of[0]?.[part] ?? pelvis,
    of[1]?.[part] ?? pelvis,
  ];
  return {
    pelvis,
    hips,
    knees: pair(legs, 'joint'),
    ankles: pair(legs, 'end'),
    toes: [toes[0] ?? pelvis, toes[1] ?? pelvis],
    waist,
    chest,
    shoulders,
    elbows: pair(arms, 'joint'),
    hands: pair(arms, 'end'),
    neck,
    head,
    front,
    right,
    spine,
  };
}
