import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { frameOfTimecode, timecodeOf } from '../../../src/core/time/timecode.ts';
import type { Rate } from '../../../src/core/time/rate.ts';
import { dropFrame2997, dropFrameDay } from '../../published/timecode.ts';

const ntsc30: Rate = Object.freeze({ frames: 30000, seconds: 1001 });
const ntsc60: Rate = Object.freeze({ frames: 60000, seconds: 1001 });
const counted: readonly Rate[] = [
  { frames: 24000, seconds: 1001 },
  { frames: 24, seconds: 1 },
  { frames: 25, seconds: 1 },
  ntsc30,
  { frames: 30, seconds: 1 },
  { frames: 50, seconds: 1 },
  ntsc60,
  { frames: 60, seconds: 1 },
];

/** Counts labels one after another by the standard's sentence, the slow way. */
function* labels(base: number, skipped: number): Generator<string> {
  for (let second = 0; ; second += 1) {
    const minute = Math.floor(second / 60);
    for (let frame = 0; frame < base; frame += 1) {
      if (second % 60 === 0 && minute % 10 !== 0 && frame < skipped) continue;
      const parts = [Math.floor(minute / 60), minute % 60, second % 60, frame].map((part) =>
        String(part).padStart(2, '0'),
      );
      yield `${parts.slice(0, 3).join(':')};${parts[3]}`;
    }
  }
}

describe('SMPTE timecode', () => {
  it('drops labels at 29.97 as the published vectors do', () => {
    for (const [frame, timecode] of dropFrame2997) {
      expect(timecodeOf(frame, ntsc30)).toEqual({ known: true, value: timecode });
      expect(frameOfTimecode(timecode, ntsc30)).toEqual({ known: true, value: frame });
    }
  });

  it('equals counting labels one by one at 29.97 and 59.94 for 200,000 frames', () => {
    for (const [rate, base, skipped] of [
      [ntsc30, 30, 2],
      [ntsc60, 60, 4],
    ] as const) {
      const counting = labels(base, skipped);
      const wrong: number[] = [];
      for (let frame = 0; frame < 200_000; frame += 1) {
        const got = timecodeOf(frame, rate);
        if (!got.known || got.value !== counting.next().value) wrong.push(frame);
      }
      expect(wrong).toEqual([]);
    }
  });

  it('begins again at midnight of its labels', () => {
    expect(timecodeOf(dropFrameDay.frames - 1, ntsc30)).toEqual({ known: true, value: '23:59:59;29' });
    expect(timecodeOf(dropFrameDay.frames, ntsc30)).toEqual({ known: true, value: '00:00:00;00' });
    expect((dropFrameDay.frames * 1001) / 30000).toBeCloseTo(dropFrameDay.seconds, 9);
  });

  it('counts straight through at other rates', () => {
    expect(timecodeOf(90_000, { frames: 25, seconds: 1 })).toEqual({ known: true, value: '01:00:00:00' });
    expect(timecodeOf(1440, { frames: 24000, seconds: 1001 })).toEqual({ known: true, value: '00:01:00:00' });
    expect(timecodeOf(1800, { frames: 30, seconds: 1 })).toEqual({ known: true, value: '00:01:00:00' });
  });

  it('names the same frame it was made from, at every rate', () => {
    fc.assert(
      fc.property(fc.constantFrom(...counted), fc.nat(2_000_000), (rate, frame) => {
        const code = timecodeOf(frame, rate);
        return (
          code.known &&
          frameOfTimecode(code.value, rate).known &&
          JSON.stringify(frameOfTimecode(code.value, rate)) === JSON.stringify({ known: true, value: frame })
        );
      }),
    );
  });

  it('says why there is none', () => {
    expect(timecodeOf(3, { frames: 37, seconds: 2 })).toMatchObject({ because: 'no-timecode-rate' });
    expect(frameOfTimecode('00:01:00;01', ntsc30)).toMatchObject({ because: 'dropped-label' });
    expect(frameOfTimecode('00:01:00;03', ntsc60)).toMatchObject({ because: 'dropped-label' });
    for (const code of ['', '1:2:3:4', '00:00:00:30', '00:60:00:00', '24:00:00:00', 'aa:bb:cc:dd']) {
      expect(frameOfTimecode(code, ntsc30)).toMatchObject({ because: 'not-a-timecode' });
    }
    expect(() => timecodeOf(-1, ntsc30)).toThrow(/whole number from 0, got -1/);
  });
});
