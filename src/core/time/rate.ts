/** A frame rate as the fraction it is defined by: `frames` in `seconds`, both whole and above 0 (30000 in 1001). */
export type Rate = { readonly frames: number; readonly seconds: number };

/** The rates film and broadcast work with, slow to fast. The NTSC family is n * 1000 / 1001 (SMPTE ST 12-1). */
export const standardRates: readonly Rate[] = [
  { frames: 10, seconds: 1 },
  { frames: 12, seconds: 1 },
  { frames: 15000, seconds: 1001 },
  { frames: 15, seconds: 1 },
  { frames: 20, seconds: 1 },
  { frames: 24000, seconds: 1001 },
  { frames: 24, seconds: 1 },
  { frames: 25, seconds: 1 },
  { frames: 30000, seconds: 1001 },
  { frames: 30, seconds: 1 },
  { frames: 48000, seconds: 1001 },
  { frames: 48, seconds: 1 },
  { frames: 50, seconds: 1 },
  { frames: 60000, seconds: 1001 },
  { frames: 60, seconds: 1 },
  { frames: 100, seconds: 1 },
  { frames: 120000, seconds: 1001 },
  { frames: 120, seconds: 1 },
  { frames: 240000, seconds: 1001 },
  { frames: 240, seconds: 1 },
];

/** Frames a second of a rate, as a plain number above 0. Throws when a part of the fraction is not above 0. */
export function framesPerSecond(rate: Rate): number {
  if (!(rate.frames > 0 && rate.seconds > 0)) {
    throw new Error(`A rate is a fraction of two numbers above 0, got ${rate.frames}/${rate.seconds}.`);
  }
  return rate.frames / rate.seconds;
}

/** The greatest common divisor of two whole numbers, by Euclid. */
function commonDivisor(a: number, b: number): number {
  return b === 0 ? a : commonDivisor(b, a % b);
}

/**
 * The rate a number of frames a second stands for: the standard rate within 0.02 %, else the fraction in thousandths.
 * `perSecond` is above 0 and at most 1000; throws otherwise. 29.97 gives 30000/1001, 25 gives 25/1, 12.5 gives 25/2.
 */
export function rateOf(perSecond: number): Rate {
  if (!(perSecond > 0 && perSecond <= 1000)) {
    throw new Error(`A frame rate is above 0 and at most 1000 a second, got ${perSecond}.`);
  }
  let best: Rate | null = null;
  let bestError = 2e-4;
  for (const rate of standardRates) {
    const error = Math.abs(framesPerSecond(rate) / perSecond - 1);
    if (error < bestError) {
      best = rate;
      bestError = error;
    }
  }
  if (best !== null) return best;
  const frames = Math.max(1, Math.round(perSecond * 1000));
  const divisor = commonDivisor(frames, 1000);
  return { frames: frames / divisor, seconds: 1000 / divisor };
}

/**
 * The frame a time falls on in a film of constant rate that starts at 0: rounded, never floored, because millisecond
 * times lie up to half a millisecond early. `seconds` is finite; a time before 0 gives frame 0.
 */
export function frameAtConstantRate(seconds: number, rate: Rate): number {
  return Math.max(0, Math.round((seconds * rate.frames) / rate.seconds));
}
