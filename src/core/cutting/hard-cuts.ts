import { changedShare, distance, layoutLikeness } from './distance.ts';
import type { Signatures } from './signature.ts';
import type { Transition } from './transition.ts';

/** Least distance of the frames on both sides of a cut, and least share of blocks that change. */
const leastStep = 0.035;
const leastShare = 0.25;
/** A cut stands this much above what most frames around it do, and above its direct neighbours. */
const overMost = 2.25;
const overNeighbours = 1.7;
/** Below this share of the step the picture counts as come back: a flash, not a cut. */
const cameBack = 0.4;
/** Layouts at least this alike are the same view in another light. */
const sameLayout = 0.97;

/** Distances of each frame to the one before it; frame 0 has 0. */
export function steps(signatures: Signatures): Float32Array {
  const out = new Float32Array(signatures.frames);
  for (let frame = 1; frame < signatures.frames; frame += 1) out[frame] = distance(signatures, frame - 1, frame);
  return out;
}

/**
 * The step that four in five of the frames around do not exceed, the frame itself and repeated pictures left out: those
 * whose step is a small part of what one in ten exceeds.
 */
function mostAround(all: Float32Array, frame: number, reach: number): number {
  const around: number[] = [];
  for (let at = Math.max(1, frame - reach); at <= Math.min(all.length - 1, frame + reach); at += 1) {
    if (at !== frame) around.push(all[at] ?? 0);
  }
  around.sort((a, b) => a - b);
  const high = around[Math.floor(around.length * 0.9)] ?? 0;
  const moving = around.filter((step) => step >= 0.25 * high);
  return moving[Math.floor(moving.length * 0.8)] ?? 0;
}

/**
 * The steps with those into and out of flashes taken out: where the picture of just before comes back within `reach`
 * frames, the change is no cut, and must not hide one close by.
 */
function withoutFlashes(signatures: Signatures, all: Float32Array, reach: number): Float32Array {
  const calm = all.slice();
  for (let frame = 1; frame < signatures.frames; frame += 1) {
    const step = all[frame] ?? 0;
    if (step < leastStep || step < overNeighbours * (all[frame - 1] ?? 0)) continue;
    for (let back = frame + 1; back <= Math.min(frame + reach, signatures.frames - 1); back += 1) {
      const left = distance(signatures, frame - 1, back);
      if (left >= cameBack * step || (all[back] ?? 0) < cameBack * step) continue;
      calm.fill(0, frame, back);
      calm[back] = left;
      break;
    }
  }
  return calm;
}

/**
 * The hard cuts of a film by an adaptive threshold: a frame whose step (distance to the frame before) is large, over
 * much of the picture, thrice what four in five frames around it do (so that steady pans, grain and repeated frames
 * raise the bar), and clearly above its neighbours (so that a whip pan is none). A picture that comes back within a
 * quarter second is a flash; a layout that stays while its light changes is the same view. `perSecond` is the film's
 * rate, above 0.
 */
export function hardCuts(signatures: Signatures, perSecond: number, all = steps(signatures)): Transition[] {
  const reach = Math.max(6, Math.round(perSecond / 3));
  const flash = Math.max(3, Math.round(perSecond / 4));
  const calm = withoutFlashes(signatures, all, flash);
  const cuts: Transition[] = [];
  for (let frame = 1; frame < signatures.frames; frame += 1) {
    const step = calm[frame] ?? 0;
    if (step < leastStep) continue;
    const neighbours = Math.max(...[-2, -1, 1, 2].map((away) => calm[frame + away] ?? 0));
    const bar = Math.max(overMost * mostAround(calm, frame, reach), overNeighbours * neighbours);
    if (step < bar) continue;
    if (changedShare(signatures, frame - 1, frame) < leastShare) continue;
    if (layoutLikeness(signatures, frame - 1, frame) > sameLayout && step < 0.12) continue;
    const margin = step / Math.max(leastStep, bar);
    cuts.push({ kind: 'cut', last: frame - 1, first: frame, confidence: margin / (margin + 0.5) });
  }
  return cuts;
}
