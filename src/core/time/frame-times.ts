import { known, unknown, type Known } from '../known.ts';
import { frameIndex, seconds, type FrameIndex, type Seconds } from '../units.ts';

/** The presentation times of a film's frames: seconds on the film's own clock, never falling, index = frame. */
export type FrameTimes = ArrayLike<number>;

/** Why a frame has no time or a time no frame. */
export type FrameTimeProblem = 'no-frames' | 'no-such-frame' | 'not-a-time';

/** How many times are at most `time`, by binary search. */
function countUpTo(times: FrameTimes, time: number): number {
  let low = 0;
  let high = times.length;
  while (low < high) {
    const middle = (low + high) >>> 1;
    if ((times[middle] ?? Infinity) <= time) low = middle + 1;
    else high = middle;
  }
  return low;
}

/**
 * The frame whose time lies nearest to `time` (seconds on the film's clock), the later one on a tie: round, never
 * floor. Times outside the film give its first or last frame. No frames, or a time that is no number: the reason.
 */
export function nearestFrame(times: FrameTimes, time: number): Known<FrameIndex, FrameTimeProblem> {
  if (times.length === 0) return unknown('no-frames', 'The film has no frames.');
  if (Number.isNaN(time)) return unknown('not-a-time', 'A time on the film is a number of seconds, got none.');
  const after = countUpTo(times, time);
  const before = after - 1;
  if (before < 0) return known(frameIndex(0));
  if (after >= times.length) return known(frameIndex(times.length - 1));
  const early = times[before] ?? 0;
  const late = times[after] ?? 0;
  return known(frameIndex(late - time <= time - early ? after : before));
}

/**
 * The frame on screen at `time`: the last one that has begun, the first one before the film begins.
 * Use it for spans of time; for a time that names a frame use `nearestFrame`.
 */
export function frameShownAt(times: FrameTimes, time: number): Known<FrameIndex, FrameTimeProblem> {
  if (times.length === 0) return unknown('no-frames', 'The film has no frames.');
  if (Number.isNaN(time)) return unknown('not-a-time', 'A time on the film is a number of seconds, got none.');
  return known(frameIndex(Math.max(0, countUpTo(times, time) - 1)));
}

/** The time of a frame in seconds on the film's clock, or the reason when the film has no such frame. */
export function timeOfFrame(times: FrameTimes, frame: number): Known<Seconds, FrameTimeProblem> {
  const time = Number.isSafeInteger(frame) ? times[frame] : undefined;
  if (time === undefined) {
    return unknown('no-such-frame', `The film has frames 0 to ${times.length - 1}, got ${frame}.`);
  }
  return known(seconds(time));
}

/** Seconds from one frame's time to another's, negative backwards; the reason when the film lacks either. */
export function secondsBetween(times: FrameTimes, from: number, to: number): Known<Seconds, FrameTimeProblem> {
  const start = timeOfFrame(times, from);
  if (!start.known) return start;
  const end = timeOfFrame(times, to);
  return end.known ? known(seconds(end.value - start.value)) : end;
}
