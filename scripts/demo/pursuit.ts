import { FRAME_SECONDS } from './field-measure.ts';
import { SLOTS } from './formation.ts';
import type { Slot } from './play-script.ts';

/** One figure's place at each frame. */
export type Path = [number, number][];

/** Bends a path so that it arrives at a place on a frame, starting no sooner than a man's speed demands. */
export function closing(
  base: Path,
  target: readonly [number, number],
  at: number,
  speed: number,
  earliest: number,
): Path {
  let start = Math.max(earliest, at - 10);
  for (let from = at - 8; from >= earliest; from -= 1) {
    const place = base[from] ?? [0, 0];
    start = from;
    if (Math.hypot(place[0] - target[0], place[1] - target[1]) / ((at - from) * FRAME_SECONDS) <= speed) break;
  }
  const path = base.map((place): [number, number] => [place[0], place[1]]);
  const before = base[Math.max(0, start - 2)] ?? [0, 0];
  const begin = base[start] ?? [0, 0];
  const drift = [(begin[0] - before[0]) / 2, (begin[1] - before[1]) / 2] as const;
  const run = at - start;
  for (let frame = start; frame <= at; frame += 1) {
    const t = (frame - start) / run;
    const ease = t * t * (1.9 - 0.9 * t);
    const keep = (1 - t) * (1 - t) * (frame - start);
    const left: readonly [number, number] = [begin[0] + drift[0] * keep, begin[1] + drift[1] * keep];
    path[frame] = [left[0] + (target[0] - left[0]) * ease, left[1] + (target[1] - left[1]) * ease];
  }
  return path;
}

/** Runs a figure after the ball from a frame on, up to a speed and a distance kept; writes into the path. */
export function chase(path: Path, prey: Path, from: number, until: number, speed: number, standOff: number): void {
  let [u, w] = path[from] ?? [0, 0];
  const before = path[Math.max(0, from - 1)] ?? [u, w];
  let vu = (u - before[0]) / FRAME_SECONDS;
  let vw = (w - before[1]) / FRAME_SECONDS;
  for (let frame = from; frame < path.length; frame += 1) {
    const ahead = prey[Math.min(prey.length - 1, frame + 9)] ?? [0, 0];
    const du = ahead[0] - u;
    const dw = ahead[1] - w;
    const distance = Math.hypot(du, dw);
    const wish = frame > until ? 0 : Math.min(speed, Math.max(0, (distance - standOff) * 2.2));
    const tu = distance > 0.01 ? (du / distance) * wish : 0;
    const tw = distance > 0.01 ? (dw / distance) * wish : 0;
    const gain = frame > until ? 3.5 * FRAME_SECONDS : 4.2 * FRAME_SECONDS;
    vu += (tu - vu) * gain;
    vw += (tw - vw) * gain;
    u += vu * FRAME_SECONDS;
    w += vw * FRAME_SECONDS;
    path[frame] = [u, w];
  }
}

/** Keeps figures from standing in one another: pushes those closer than `close` allows apart, frame by frame. */
export function apart(
  paths: Record<Slot, Path>,
  close: (a: Slot, b: Slot, frame: number) => number,
  fixed: (slot: Slot, frame: number) => boolean,
  frames: number,
): void {
  const push: Record<string, [number, number]> = Object.fromEntries(SLOTS.map((slot) => [slot, [0, 0]]));
  for (let frame = 0; frame < frames; frame += 1) {
    const now = SLOTS.map((slot): [number, number] => {
      const place = paths[slot][frame] ?? [0, 0];
      const shift = push[slot] ?? [0, 0];
      return [place[0] + shift[0], place[1] + shift[1]];
    });
    for (let round = 0; round < 4; round += 1) {
      for (let a = 0; a < SLOTS.length; a += 1) {
        for (let b = a + 1; b < SLOTS.length; b += 1) {
          const one = SLOTS[a];
          const two = SLOTS[b];
          const p = now[a];
          const q = now[b];
          if (!one || !two || !p || !q) continue;
          const room = close(one, two, frame);
          const du = q[0] - p[0];
          const dw = q[1] - p[1];
          const distance = Math.hypot(du, dw);
          if (distance >= room) continue;
          const nu = distance < 0.02 ? 1 : du / distance;
          const nw = distance < 0.02 ? 0 : dw / distance;
          const oneFixed = fixed(one, frame);
          const twoFixed = fixed(two, frame);
          if (oneFixed && twoFixed) continue;
          const gap = (room - distance) * 0.5;
          const shareOne = oneFixed ? 0 : twoFixed ? 2 : 1;
          const shareTwo = twoFixed ? 0 : oneFixed ? 2 : 1;
          p[0] -= nu * gap * shareOne;
          p[1] -= nw * gap * shareOne;
          q[0] += nu * gap * shareTwo;
          q[1] += nw * gap * shareTwo;
        }
      }
    }
    SLOTS.forEach((slot, at) => {
      const place = paths[slot][frame] ?? [0, 0];
      const moved = now[at] ?? [0, 0];
      push[slot] = [(moved[0] - place[0]) * 0.93, (moved[1] - place[1]) * 0.93];
      paths[slot][frame] = [moved[0], moved[1]];
    });
  }
}
