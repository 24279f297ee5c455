import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  apart,
  placeOnStrip,
  stripRange,
  withHandle,
  yardAt,
  yardHandles,
} from '../../src/ui/stage/ledger/yard-strip.ts';

const yards = fc.integer({ min: -20, max: 99 });
const lane = fc
  .tuple(yards, yards, yards)
  .map((three) => three.toSorted((a, b) => a - b))
  .map(([low = 0, likely = 0, high = 0]) => Object.freeze({ low, likely, high }));
const handle = fc.constantFrom(...yardHandles);

describe('the yard strip', () => {
  it('goes from -5 to 15 for ordinary lanes and further for those that need it, inside -20 to 99', () => {
    expect(stripRange([])).toEqual([-5, 15]);
    expect(stripRange([{ low: 0, likely: 3, high: 8 }])).toEqual([-5, 15]);
    expect(stripRange([{ low: -8, likely: 2, high: 30 }])).toEqual([-10, 33]);
    expect(stripRange([{ low: -20, likely: 0, high: 99 }])).toEqual([-20, 99]);
  });

  it('finds on a strip the yard that was placed there, at any width', () => {
    fc.assert(
      fc.property(fc.array(lane, { maxLength: 4 }), fc.double({ min: 40, max: 2000, noNaN: true }), (lanes, width) => {
        const range = stripRange(lanes);
        for (const { low, likely, high } of lanes)
          for (const each of [low, likely, high])
            expect(yardAt(placeOnStrip(each, range, width), range, width)).toBe(each);
      }),
    );
  });

  it('stops at its ends when a handle is dragged past them', () => {
    expect(yardAt(-400, [-5, 15], 200)).toBe(-5);
    expect(yardAt(900, [-5, 15], 200)).toBe(15);
    expect(yardAt(100, [-5, 15], 200)).toBe(5);
  });

  it('puts the handle where it is dragged, keeps the order, and moves the others only as far as they must', () => {
    fc.assert(
      fc.property(lane, handle, yards, (before, which, to) => {
        const after = withHandle(before, which, to);
        expect(after[which]).toBe(to);
        expect(after.low).toBeLessThanOrEqual(after.likely);
        expect(after.likely).toBeLessThanOrEqual(after.high);
        for (const other of yardHandles) if (other !== which) expect([before[other], to]).toContain(after[other]);
      }),
    );
  });

  it('drags by the yards given: low pushed over likely takes it along', () => {
    expect(withHandle({ low: 0, likely: 3, high: 8 }, 'low', 5)).toEqual({ low: 5, likely: 5, high: 8 });
    expect(withHandle({ low: 0, likely: 3, high: 8 }, 'high', -2)).toEqual({ low: -2, likely: -2, high: -2 });
    expect(withHandle({ low: 0, likely: 3, high: 8 }, 'high', 400)).toEqual({ low: 0, likely: 3, high: 99 });
  });
});

describe('labels on the film', () => {
  const film = Object.freeze({ width: 1280, height: 720 });
  const box = fc
    .record({ x: fc.integer({ min: -200, max: 1400 }), y: fc.integer({ min: -200, max: 900 }) })
    .map((at) => Object.freeze({ ...at, width: 330, height: 124 }));

  it('stay inside it', () => {
    fc.assert(
      fc.property(fc.array(box, { maxLength: 8 }), (boxes) => {
        for (const { x, y, width, height } of apart(boxes, film)) {
          expect(x).toBeGreaterThanOrEqual(6);
          expect(y).toBeGreaterThanOrEqual(6);
          expect(x + width).toBeLessThanOrEqual(1274);
          expect(y + height).toBeLessThanOrEqual(714);
        }
      }),
    );
  });

  it('do not lie over each other, for as many lanes as one decision has', () => {
    fc.assert(
      fc.property(fc.array(box, { maxLength: 3 }), (boxes) => {
        const placed = apart(boxes, film);
        for (const [at, one] of placed.entries())
          for (const other of placed.slice(at + 1)) {
            const over =
              one.x < other.x + other.width &&
              other.x < one.x + one.width &&
              one.y < other.y + other.height &&
              other.y < one.y + one.height;
            expect(over).toBe(false);
          }
      }),
    );
  });
});
