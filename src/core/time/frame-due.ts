import type { Known } from '../known.ts';
import type { FrameIndex } from '../units.ts';
import { frameShownAt, timeOfFrame, type FrameTimeProblem, type FrameTimes } from './frame-times.ts';

/**
 * The frame due on screen after `elapsed` seconds of playing from `start` at `speed` film seconds a second (negative
 * plays backwards, 0 stands still). Variable rates keep their own times. Stops at the first and last frame. The
 * reason when the film has no such start.
 */
export function frameDue(
  times: FrameTimes,
  start: number,
  elapsed: number,
  speed: number,
): Known<FrameIndex, FrameTimeProblem> {
  const from = timeOfFrame(times, start);
  if (!from.known) return from;
  // Millionths of a second keep a frame from being missed where its time is a rounded sum.
  return frameShownAt(times, from.value + elapsed * speed + 1e-6);
}
