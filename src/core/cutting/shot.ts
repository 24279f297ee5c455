import { chromaWeight } from './distance.ts';
import { blockCount, chromaCount, signatureLength } from './signature.ts';
import type { Transition } from './transition.ts';

const lookLength = blockCount + chromaCount;
/** Steps below these are no movement at all (a repeated picture), and hardly any (a card). */
const repeatedStep = 0.0008;

/** One shot of a film and how it looks. */
export type Shot = {
  /** Its first and last whole frame. */
  readonly first: number;
  readonly last: number;
  /** Means of its luma and chroma blocks, 0 to 255. */
  readonly look: Float32Array;
  /** Mean distance of neighbouring frames. */
  readonly pace: number;
  /** Share of frames that repeat the one before, 0 to 1: high in slowed-down film. */
  readonly repeated: number;
  /** The change it begins with, and the one it ends with; null at the film's ends. */
  readonly before: Transition | null;
  readonly after: Transition | null;
};

/** How different two shots look on average, 0 to about 2, on the scale of `distance` without its histogram. */
export function lookDistance(a: Float32Array, b: Float32Array): number {
  let [luma, chroma] = [0, 0];
  for (let at = 0; at < lookLength; at += 1) {
    const change = Math.abs((a[at] ?? 0) - (b[at] ?? 0));
    if (at < blockCount) luma += change;
    else chroma += change;
  }
  return luma / blockCount / 255 + (chromaWeight * chroma) / chromaCount / 255;
}

/** Gathers a shot frame by frame. */
export type ShotBuilder = {
  readonly add: (row: Float32Array, step: number) => void;
  readonly frames: () => number;
  readonly end: (last: number, after: Transition | null) => Shot;
};

/** Begins a shot at a frame after a change (null at the film's beginning). Rows are signatures of its frames. */
export function beginShot(first: number, before: Transition | null): ShotBuilder {
  const sums = new Float64Array(lookLength);
  let frames = 0;
  let paces = 0;
  let repeats = 0;
  return {
    add(row, step) {
      if (row.length !== signatureLength)
        throw new Error(`A signature has ${signatureLength} numbers, got ${row.length}.`);
      for (let at = 0; at < lookLength; at += 1) sums[at] = (sums[at] ?? 0) + (row[at] ?? 0);
      if (frames > 0) {
        paces += step;
        repeats += step < repeatedStep ? 1 : 0;
      }
      frames += 1;
    },
    frames: () => frames,
    end: (last, after) => ({
      first,
      last,
      look: Float32Array.from(sums, (sum) => (frames === 0 ? 0 : sum / frames)),
      pace: frames < 2 ? 0 : paces / (frames - 1),
      repeated: frames < 2 ? 0 : repeats / (frames - 1),
      before,
      after,
    }),
  };
}
