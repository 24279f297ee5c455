import { speedsOf } from './curve.ts';
import { FRAME_SECONDS } from './field-measure.ts';
import type { PlannedStep } from './runner-plan.ts';

/** A foot set down: the frame it first stands, which foot, and where (yards). */
export type Plant = { readonly frame: number; readonly foot: 'L' | 'R'; readonly u: number; readonly w: number };

/** Both feet of one figure at each frame: u, w and height, yards. */
export type Feet = {
  readonly plants: readonly Plant[];
  readonly left: readonly (readonly [number, number, number])[];
  readonly right: readonly (readonly [number, number, number])[];
};

type Places = readonly (readonly [number, number])[];

/** What a gait needs besides the path: which way the figure faces, how wide it stands, and planned plants. */
export type GaitWishes = {
  readonly stanceWidth: number;
  readonly stagger: number;
  readonly planned?: readonly PlannedStep[];
  readonly still?: readonly [number, number];
};

function besideAt(
  path: Places,
  faces: readonly number[],
  frame: number,
  foot: 'L' | 'R',
  half: number,
): [number, number] {
  const at = Math.max(0, Math.min(path.length - 1, frame));
  const [u, w] = path[at] ?? [0, 0];
  const face = faces[at] ?? 0;
  const side = foot === 'L' ? -1 : 1;
  return [u - Math.sin(face) * half * side, w + Math.cos(face) * half * side];
}

function rateOf(speed: number): number {
  return speed < 0.5 ? 2.4 : 2.7 + 0.21 * Math.min(speed, 8.5);
}

function freePlants(path: Places, faces: readonly number[], speeds: readonly number[], wishes: GaitWishes): Plant[] {
  const plants: Plant[] = [];
  const feet: Record<'L' | 'R', readonly [number, number]> = {
    L: besideAt(path, faces, 0, 'L', wishes.stanceWidth),
    R: besideAt(path, faces, 0, 'R', wishes.stanceWidth),
  };
  let next: 'L' | 'R' = 'R';
  let phase = 0.55;
  for (let frame = 1; frame < path.length; frame += 1) {
    if (wishes.still && frame >= wishes.still[0] && frame < wishes.still[1]) continue;
    const speed = speeds[frame] ?? 0;
    const half = wishes.stanceWidth * (speed > 3 ? 0.55 : 1);
    const home = besideAt(path, faces, frame, next, half);
    const stray = Math.hypot(home[0] - feet[next][0], home[1] - feet[next][1]);
    const otherFoot: 'L' | 'R' = next === 'L' ? 'R' : 'L';
    const otherHome = besideAt(path, faces, frame, otherFoot, half);
    const otherStray = Math.hypot(otherHome[0] - feet[otherFoot][0], otherHome[1] - feet[otherFoot][1]);
    if (speed < 0.5 && Math.max(stray, otherStray) < 0.27 + wishes.stagger) {
      phase = 0.55;
      continue;
    }
    phase += rateOf(speed) * FRAME_SECONDS;
    if (phase < 1) continue;
    phase -= 1;
    const ahead = frame + Math.round((0.28 / rateOf(speed)) * 2 * 0.5 * (1 / FRAME_SECONDS));
    const place = besideAt(path, faces, ahead, next, half);
    plants.push({ frame, foot: next, u: place[0], w: place[1] });
    feet[next] = place;
    next = otherFoot;
  }
  return plants;
}

function plannedPlants(
  path: Places,
  faces: readonly number[],
  speeds: readonly number[],
  planned: readonly PlannedStep[],
): Plant[] {
  return planned.map((step) => {
    const speed = speeds[step.frame] ?? 0;
    const half = step.wide ? 0.3 : speed > 3 ? 0.11 : 0.16;
    const place = besideAt(path, faces, step.frame + (step.wide ? 1 : 2), step.foot, half);
    return { frame: step.frame, foot: step.foot, u: place[0], w: place[1] };
  });
}

function footTrack(
  foot: 'L' | 'R',
  plants: readonly Plant[],
  start: readonly [number, number],
  speeds: readonly number[],
): [number, number, number][] {
  const own = plants.filter((plant) => plant.foot === foot);
  const track: [number, number, number][] = [];
  let at = 0;
  for (let frame = 0; frame < speeds.length; frame += 1) {
    while (at < own.length && (own[at]?.frame ?? 0) <= frame) at += 1;
    const held = own[at - 1];
    const from: readonly [number, number] = held ? [held.u, held.w] : start;
    const coming = own[at];
    if (!coming) {
      track.push([from[0], from[1], 0]);
      continue;
    }
    const since = held ? held.frame : coming.frame - 12;
    const speed = Math.min(9, speeds[frame] ?? 0);
    const swing = Math.min(coming.frame - since - 1.5, 4.5 + (coming.frame - since) * (0.28 + 0.035 * speed));
    const t = 1 - (coming.frame - frame) / Math.max(1.5, swing);
    if (t <= 0) {
      track.push([from[0], from[1], 0]);
      continue;
    }
    const eased = t * t * (3 - 2 * t);
    const reach = Math.hypot(coming.u - from[0], coming.w - from[1]);
    const lift = Math.min(0.42, 0.07 + 0.16 * reach) * Math.sin(Math.PI * Math.pow(t, 0.8));
    track.push([from[0] + (coming.u - from[0]) * eased, from[1] + (coming.w - from[1]) * eased, Math.max(0, lift)]);
  }
  return track;
}

/** Sets alternating feet under a path so that each foot stands still on the grass while it carries. */
export function walk(path: Places, faces: readonly number[], wishes: GaitWishes): Feet {
  const speeds = speedsOf(path, FRAME_SECONDS);
  const plants = wishes.planned
    ? plannedPlants(path, faces, speeds, wishes.planned)
    : freePlants(path, faces, speeds, wishes);
  const face = faces[0] ?? 0;
  const back = wishes.stagger;
  const home = (foot: 'L' | 'R', behind: number): [number, number] => {
    const [u, w] = besideAt(path, faces, 0, foot, wishes.stanceWidth);
    return [u - Math.cos(face) * behind, w - Math.sin(face) * behind];
  };
  return {
    plants,
    left: footTrack('L', plants, home('L', 0), speeds),
    right: footTrack('R', plants, home('R', back), speeds),
  };
}
