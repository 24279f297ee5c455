import { known, unknown, type Known } from '../known.ts';
import { frameIndex, type FrameIndex } from '../units.ts';
import { framesPerSecond, type Rate } from './rate.ts';

/** Why there is no timecode or no frame for one. */
export type TimecodeProblem = 'no-timecode-rate' | 'not-a-timecode' | 'dropped-label';

/** How a rate is counted: labels a second, and how many labels are skipped in each minute not divisible by ten. */
type Counting = { readonly base: number; readonly skipped: number };

const bases = [24, 25, 30, 48, 50, 60];

function countingOf(rate: Rate): Known<Counting, 'no-timecode-rate'> {
  const base = Math.round(framesPerSecond(rate));
  const whole = rate.frames === base * rate.seconds;
  const ntsc = rate.frames * 1001 === base * 1000 * rate.seconds;
  if (!bases.includes(base) || !(whole || ntsc)) {
    return unknown(
      'no-timecode-rate',
      `Timecode counts 24, 25, 30, 48, 50 or 60 frames a second or 1000/1001 of that, got ${rate.frames}/${rate.seconds}.`,
    );
  }
  return known({ base, skipped: ntsc && base % 30 === 0 ? base / 15 : 0 });
}

const two = (value: number): string => String(value).padStart(2, '0');

/**
 * The SMPTE ST 12-1 timecode of a frame: drop frame (`;` before the frames) at 30000/1001 and 60000/1001, counted
 * straight through (`:`) at other rates. `frame` is a whole number from 0; it wraps after 24 hours of labels.
 * Other rates give the reason. Throws when `frame` is not a whole number from 0.
 * Drop frame skips labels 00 and 01 (00 to 03 at 59.94) at each minute not divisible by ten.
 */
export function timecodeOf(frame: number, rate: Rate): Known<string, 'no-timecode-rate'> {
  if (!Number.isSafeInteger(frame) || frame < 0) {
    throw new Error(`A frame is a whole number from 0, got ${frame}.`);
  }
  const counting = countingOf(rate);
  if (!counting.known) return counting;
  const { base, skipped } = counting.value;
  const minute = base * 60 - skipped;
  const tenMinutes = base * 600 - skipped * 9;
  const inDay = frame % (tenMinutes * 144);
  const tens = Math.floor(inDay / tenMinutes);
  const inTen = inDay % tenMinutes;
  const droppedMinutes = inTen < base * 60 ? 0 : 1 + Math.floor((inTen - base * 60) / minute);
  const label = inDay + skipped * (9 * tens + droppedMinutes);
  const seconds = Math.floor(label / base);
  const parts = [Math.floor(seconds / 3600), Math.floor(seconds / 60) % 60, seconds % 60].map(two).join(':');
  return known(`${parts}${skipped > 0 ? ';' : ':'}${two(label % base)}`);
}

/**
 * The frame a timecode names, from 0. Accepts `hh:mm:ss:ff` and `hh:mm:ss;ff`; the rate alone decides whether labels
 * are dropped. A malformed code, a label that drop frame skips, or a rate without timecode give their reason.
 */
export function frameOfTimecode(code: string, rate: Rate): Known<FrameIndex, TimecodeProblem> {
  const counting = countingOf(rate);
  if (!counting.known) return counting;
  const { base, skipped } = counting.value;
  const match = /^(\d{2}):(\d{2}):(\d{2})[:;](\d{2})$/.exec(code.trim());
  const [hours = 99, minutes = 99, seconds = 99, frames = 99] = match?.slice(1).map(Number) ?? [];
  if (match === null || hours > 23 || minutes > 59 || seconds > 59 || frames >= base) {
    return unknown('not-a-timecode', `A timecode reads hh:mm:ss:ff with ff below ${base}, got “${code}”.`);
  }
  if (skipped > 0 && minutes % 10 !== 0 && seconds === 0 && frames < skipped) {
    return unknown(
      'dropped-label',
      `Drop-frame timecode has no ${code.trim()}: that minute begins at frame ${two(skipped)}.`,
    );
  }
  const allMinutes = hours * 60 + minutes;
  const label = (allMinutes * 60 + seconds) * base + frames;
  return known(frameIndex(label - skipped * (allMinutes - Math.floor(allMinutes / 10))));
}
