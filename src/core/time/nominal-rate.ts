import { mean, medianSorted } from 'simple-statistics';
import { known, unknown, type Known } from '../known.ts';
import type { FrameTimes } from './frame-times.ts';
import { framesPerSecond, rateOf, standardRates, type Rate } from './rate.ts';

/** What a film's times say about its rate. */
export type NominalRate = {
  readonly rate: Rate;
  /** True when some frame lies off the rate's even grid by more than its container's rounding explains. */
  readonly variable: boolean;
};

/** Rounding to whole milliseconds moves the first and any other frame by half a millisecond each. */
const roundingSeconds = 0.0011;

/** The furthest any frame lies from an even grid through the first frame, in seconds. */
function worstError(times: FrameTimes, perSecond: number): number {
  const first = times[0] ?? 0;
  let worst = 0;
  for (let frame = 0; frame < times.length; frame += 1) {
    worst = Math.max(worst, Math.abs((times[frame] ?? 0) - first - frame / perSecond));
  }
  return worst;
}

/**
 * The usual distance of neighbouring frames in seconds: the mean of those within rounding of the median, so that
 * times in whole milliseconds (33, 34, 33, ...) average out. At most 4,096 spread over the film are looked at.
 */
function usualInterval(times: FrameTimes): number {
  const intervals: number[] = [];
  const stride = Math.max(1, Math.floor((times.length - 1) / 4096));
  for (let frame = 1; frame < times.length; frame += stride) {
    intervals.push((times[frame] ?? 0) - (times[frame - 1] ?? 0));
  }
  const middle = medianSorted(intervals.sort((a, b) => a - b));
  return mean(intervals.filter((interval) => Math.abs(interval - middle) <= roundingSeconds));
}

/**
 * The nominal rate of a film and whether its frames keep to it. `times` are seconds, never falling. A film is of
 * constant rate when an even grid through its first frame meets every frame to 1.1 ms, what rounding to whole
 * milliseconds can do; the grid is a standard rate near the median interval, or the mean rate. Otherwise the
 * rate is that of the median interval and `variable` is true. Fewer than two frames, or no time passing: the reason.
 */
export function nominalRate(times: FrameTimes): Known<NominalRate, 'too-few-frames'> {
  const span = (times[times.length - 1] ?? 0) - (times[0] ?? 0);
  if (times.length < 2 || !(span > 0)) {
    return unknown('too-few-frames', `A rate needs two frames at different times, got ${times.length} over ${span} s.`);
  }
  const average = (times.length - 1) / span;
  const interval = usualInterval(times);
  const near = standardRates
    .map((rate) => ({ rate, away: Math.abs(framesPerSecond(rate) / average - 1) }))
    .filter(({ away }) => away < 0.05)
    .sort((a, b) => a.away - b.away);
  for (const { rate } of near) {
    if (worstError(times, framesPerSecond(rate)) <= roundingSeconds) return known({ rate, variable: false });
  }
  if (worstError(times, average) <= roundingSeconds) return known({ rate: rateOf(average), variable: false });
  const closest = standardRates
    .map((rate) => ({ rate, away: Math.abs(1 / framesPerSecond(rate) - interval) }))
    .sort((a, b) => a.away - b.away)[0];
  const standard = closest !== undefined && closest.away <= roundingSeconds / 4 ? closest.rate : null;
  return known({ rate: standard ?? rateOf(interval > 0 ? Math.min(1000, 1 / interval) : average), variable: true });
}
