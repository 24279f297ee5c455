import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { openFrameCache } from '../../src/film/frame-server/frame-cache.ts';
import { nextAhead } from '../../src/film/frame-server/read-ahead.ts';
import { toRgba } from '../../src/film/frame-server/to-rgba.ts';
import type { Picture } from '../../src/film/frame-server/picture.ts';

describe('the frame cache', () => {
  it('never holds more than its budget, whatever is put, and counts what it holds', () => {
    const puts = fc.array(
      fc.record({ film: fc.constantFrom('a', 'b'), frame: fc.nat(80), bytes: fc.integer({ min: 1, max: 40 }) }),
      { maxLength: 200 },
    );
    fc.assert(
      fc.property(puts, fc.nat(80), fc.constantFrom(1 as const, -1 as const), (all, head, direction) => {
        const cache = openFrameCache<number>(100);
        cache.look('main', { film: 'a', frame: head, direction });
        const sizes = new Map<string, number>();
        for (const { film, frame, bytes } of all) {
          cache.put(film, frame, bytes, bytes);
          sizes.set(`${film} ${frame}`, bytes);
          expect(cache.held().bytes).toBeLessThanOrEqual(100);
        }
        let kept = 0;
        for (const [name, bytes] of sizes) {
          const [film = '', frame = ''] = name.split(' ');
          if (cache.has(film, Number(frame))) kept += bytes;
        }
        expect(cache.held().bytes).toBe(kept);
      }),
    );
  });

  it('keeps what lies ahead of a viewer longest and forgets a closed film', () => {
    const cache = openFrameCache<string>(10);
    cache.look('main', { film: 'a', frame: 50, direction: 1 });
    for (let frame = 40; frame < 70; frame += 1) cache.put('a', frame, 'x', 1);
    const kept = Array.from({ length: 100 }, (_, frame) => frame).filter((frame) => cache.has('a', frame));
    expect(kept).toEqual([48, 49, 50, 51, 52, 53, 54, 55, 56, 57]);
    cache.dropFilm('a');
    expect(cache.held()).toEqual({ bytes: 0, frames: 0, budget: 10 });
  });

  it('does not keep a picture larger than all its budget, and lets go when the budget shrinks', () => {
    const cache = openFrameCache<string>(10);
    cache.put('a', 1, 'x', 11);
    expect(cache.has('a', 1)).toBe(false);
    for (let frame = 0; frame < 10; frame += 1) cache.put('a', frame, 'x', 1);
    cache.setBudget(3);
    expect(cache.held()).toEqual({ bytes: 3, frames: 3, budget: 3 });
  });
});

describe('reading ahead', () => {
  const film = { frames: 1000, room: 400 } as const;
  it('wants the first missing frame onwards, and nothing once enough are ready', () => {
    expect(nextAhead({ ...film, frame: 10, direction: 1 }, (frame) => frame < 15)).toBe(15);
    expect(nextAhead({ ...film, frame: 10, direction: 1 }, () => true)).toBeNull();
  });
  it('going back begins again only once few frames are left, so that whole groups are decoded', () => {
    expect(nextAhead({ ...film, frame: 500, direction: -1 }, (frame) => frame >= 440)).toBeNull();
    expect(nextAhead({ ...film, frame: 500, direction: -1 }, (frame) => frame >= 470)).toBe(469);
  });
  it('stops at the ends of the film and within the cache’s room', () => {
    expect(nextAhead({ ...film, frame: 999, direction: 1 }, () => false)).toBeNull();
    expect(nextAhead({ ...film, frame: 0, direction: -1 }, () => false)).toBeNull();
    expect(nextAhead({ ...film, room: 5, frame: 10, direction: 1 }, (frame) => frame <= 13)).toBeNull();
  });
});

describe('colours', () => {
  // ITU-R BT.709-6 8-bit codes of 100 % colour bars, computed from the recommendation's own equations.
  const bars = [
    { y: 235, cb: 128, cr: 128, rgb: [255, 255, 255] },
    { y: 16, cb: 128, cr: 128, rgb: [0, 0, 0] },
    { y: 63, cb: 102, cr: 240, rgb: [255, 0, 0] },
    { y: 173, cb: 42, cr: 26, rgb: [0, 255, 0] },
    { y: 32, cb: 240, cr: 118, rgb: [0, 0, 255] },
  ] as const;
  it('come out as the colour bars of BT.709 within two steps', () => {
    for (const { y, cb, cr, rgb } of bars) {
      const picture: Picture = {
        format: 'i420',
        width: 3,
        height: 3,
        matrix: 'bt709',
        fullRange: false,
        data: Uint8Array.from([...Array.from({ length: 9 }, () => y), cb, cb, cb, cb, cr, cr, cr, cr]),
      };
      const out = toRgba(picture);
      expect(out).toHaveLength(36);
      for (let pixel = 0; pixel < 9; pixel += 1) {
        for (const [channel, wanted] of rgb.entries()) {
          expect(Math.abs((out[pixel * 4 + channel] ?? -99) - wanted)).toBeLessThanOrEqual(2);
        }
        expect(out[pixel * 4 + 3]).toBe(255);
      }
    }
  });
});
