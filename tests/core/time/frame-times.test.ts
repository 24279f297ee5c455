import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { frameDue } from '../../../src/core/time/frame-due.ts';
import { frameShownAt, nearestFrame, secondsBetween, timeOfFrame } from '../../../src/core/time/frame-times.ts';
import { nominalRate } from '../../../src/core/time/nominal-rate.ts';
import { frameAtConstantRate, framesPerSecond, rateOf, standardRates } from '../../../src/core/time/rate.ts';
import { dropFrame2997, millisecondTimes } from '../../published/timecode.ts';

const ntsc30 = { frames: 30000, seconds: 1001 } as const;
const ntsc60 = { frames: 60000, seconds: 1001 } as const;
const rising = fc
  .array(fc.double({ min: 0.001, max: 0.2, noNaN: true }), { minLength: 1, maxLength: 60 })
  .map((gaps) => Object.freeze(gaps.reduce<number[]>((times, gap) => [...times, (times.at(-1) ?? 0) + gap], [])));

describe('frames and times', () => {
  it('finds the frame of each published time at 29.97, by rounding', () => {
    for (const [frame, , seconds] of dropFrame2997) expect(frameAtConstantRate(seconds, ntsc30)).toBe(frame);
  });

  it('finds the right frame from times rounded to milliseconds, where flooring is wrong on about half', () => {
    for (const [times, rate] of [
      [millisecondTimes[2997], ntsc30],
      [millisecondTimes[5994], ntsc60],
    ] as const) {
      const found = times.map((ms) => frameAtConstantRate(ms / 1000, rate));
      expect(found).toEqual([...times.keys()]);
      const floored = times.filter((ms, frame) => Math.floor((ms / 1000) * framesPerSecond(rate)) !== frame);
      expect(floored.length / times.length).toBeGreaterThan(0.3);
    }
  });

  it('rounds times of whole milliseconds back to their frame at every standard rate', () => {
    for (const rate of standardRates) {
      for (let frame = 0; frame < 20_000; frame += 7) {
        const rounded = Math.round((frame / framesPerSecond(rate)) * 1000) / 1000;
        expect(frameAtConstantRate(rounded, rate)).toBe(frame);
      }
    }
  });

  it('finds the nearest frame as looking at all of them does', () => {
    fc.assert(
      fc.property(rising, fc.double({ min: -1, max: 13, noNaN: true }), (times, time) => {
        const found = nearestFrame(times, time);
        const least = Math.min(...times.map((at) => Math.abs(at - time)));
        return found.known && Math.abs((times[found.value] ?? Infinity) - time) === least;
      }),
    );
  });

  it('finds each frame from its own time, and the frame on screen in between', () => {
    fc.assert(
      fc.property(rising, (times) =>
        times.every((time, frame) => {
          const shown = frameShownAt(times, time + 0.0005);
          return (
            JSON.stringify(nearestFrame(times, time)) === JSON.stringify({ known: true, value: frame }) &&
            shown.known &&
            shown.value === frame
          );
        }),
      ),
    );
  });

  it('says why there is no frame or no time', () => {
    expect(nearestFrame([], 1)).toMatchObject({ because: 'no-frames' });
    expect(nearestFrame([0, 1], Number.NaN)).toMatchObject({ because: 'not-a-time' });
    expect(timeOfFrame([0, 1], 2)).toMatchObject({ because: 'no-such-frame' });
    expect(timeOfFrame([0, 1], 0.5)).toMatchObject({ because: 'no-such-frame' });
    expect(secondsBetween([0, 0.5, 2], 2, 1)).toEqual({ known: true, value: -1.5 });
  });

  it('plays a film of uneven frames against the clock, both ways, and stops at its ends', () => {
    const times = Object.freeze([0, 0.1, 0.15, 0.4, 0.5]);
    const at = (start: number, elapsed: number, speed: number) => frameDue(times, start, elapsed, speed);
    expect(at(0, 0.12, 1)).toEqual({ known: true, value: 1 });
    expect(at(1, 0.1, 0.5)).toEqual({ known: true, value: 2 });
    expect(at(4, 0.1, -1)).toEqual({ known: true, value: 3 });
    expect(at(4, 9, -1)).toEqual({ known: true, value: 0 });
    expect(at(0, 9, 4)).toEqual({ known: true, value: 4 });
  });
});

describe('the nominal rate', () => {
  it('is found from exact times and from times in milliseconds at every standard rate', () => {
    for (const rate of standardRates) {
      const exact = Array.from({ length: 500 }, (_, frame) => frame / framesPerSecond(rate));
      expect(nominalRate(exact)).toEqual({ known: true, value: { rate, variable: false } });
      const rounded = exact.map((time) => Math.round(time * 1000) / 1000);
      expect(nominalRate(rounded)).toMatchObject({ known: true, value: { variable: false } });
    }
    const long = Array.from({ length: 4000 }, (_, frame) => Math.round((frame * 1001) / 30) / 1000);
    expect(nominalRate(long)).toEqual({ known: true, value: { rate: ntsc30, variable: false } });
  });

  it('is called variable when one frame is missing', () => {
    const times = Array.from({ length: 300 }, (_, frame) => ((frame < 150 ? frame : frame + 1) * 1001) / 30000);
    expect(nominalRate(times)).toEqual({ known: true, value: { rate: ntsc30, variable: true } });
  });

  it('needs two frames at different times', () => {
    expect(nominalRate([1])).toMatchObject({ because: 'too-few-frames' });
    expect(nominalRate([1, 1])).toMatchObject({ because: 'too-few-frames' });
  });

  it('takes a number of frames a second for the standard rate it stands for', () => {
    expect(rateOf(29.97)).toEqual(ntsc30);
    expect(rateOf(59.94)).toEqual(ntsc60);
    expect(rateOf(25)).toEqual({ frames: 25, seconds: 1 });
    expect(rateOf(12.5)).toEqual({ frames: 25, seconds: 2 });
    expect(() => rateOf(0)).toThrow(/above 0/);
  });
});
