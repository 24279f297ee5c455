import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  headPath,
  insideFilm,
  movedInside,
  ringRadius,
  secondLater,
  thinned,
  type ChalkPoint,
} from '../../../src/ui/stage/chalk/chalk-geometry.ts';

const film = Object.freeze({ width: 1280, height: 720 });
const point = fc.tuple(fc.integer({ min: 0, max: 1280 }), fc.integer({ min: 0, max: 720 }));

describe('chalk in film pixels', () => {
  it('is kept in whole pixels inside the picture', () => {
    expect(insideFilm([-3.2, 719.6], film)).toEqual([0, 720]);
    expect(insideFilm([1400, 300.4], film)).toEqual([1280, 300]);
  });

  it('keeps its shape when it is moved against the picture’s edge', () => {
    fc.assert(
      fc.property(
        fc.array(point, { minLength: 1, maxLength: 12 }),
        fc.tuple(fc.integer({ min: -3000, max: 3000 }), fc.integer({ min: -3000, max: 3000 })),
        (points, by) => {
          const moved = movedInside(Object.freeze(points), by, film);
          const [dx, dy] = [(moved[0]?.[0] ?? 0) - (points[0]?.[0] ?? 0), (moved[0]?.[1] ?? 0) - (points[0]?.[1] ?? 0)];
          expect(moved).toEqual(points.map(([x, y]) => [x + dx, y + dy]));
          expect(moved.every(([x, y]) => x >= 0 && x <= film.width && y >= 0 && y <= film.height)).toBe(true);
        },
      ),
    );
  });

  it('moves as far as it is asked to where there is room', () => {
    expect(
      movedInside(
        [
          [100, 100],
          [200, 150],
        ],
        [30, -40],
        film,
      ),
    ).toEqual([
      [130, 60],
      [230, 110],
    ]);
  });

  it('keeps a freehand line’s ends and never more points than the study takes', () => {
    fc.assert(
      fc.property(fc.array(point, { minLength: 2, maxLength: 9000 }), (points) => {
        const kept = thinned(points);
        expect(kept.length).toBeLessThanOrEqual(2000);
        expect(kept[0]).toEqual(points[0]);
      }),
      { numRuns: 20 },
    );
    const slow = Array.from({ length: 400 }, (_, at): ChalkPoint => [at, 10]);
    const kept = thinned(slow);
    expect(kept.at(-1)).toEqual([399, 10]);
    expect(kept.length).toBeLessThan(140);
  });

  it('gives a ring the distance of its two points, and an arrow of no length no head', () => {
    expect(
      ringRadius([
        [100, 100],
        [130, 140],
      ]),
    ).toBe(50);
    expect(
      headPath(
        [
          [50, 50],
          [50, 50],
        ],
        20,
      ),
    ).toBe('');
    // A head's wings go back: for an arrow to the right both lie left of its tip.
    expect(
      headPath(
        [
          [0, 0],
          [100, 0],
        ],
        20,
      ),
    ).toMatch(/^M81\.9 -8\.5L100 0L81\.9 8\.5$/);
  });

  it('lies from its frame for a second of film, and no farther than the span', () => {
    const times = Float64Array.from({ length: 300 }, (_, frame) => (frame * 1001) / 30_000);
    expect(secondLater(times, 100, 299)).toBe(129);
    expect(secondLater(times, 100, 110)).toBe(110);
    const film25 = Float64Array.from({ length: 300 }, (_, frame) => frame / 25);
    expect(secondLater(film25, 10, 299)).toBe(35);
    expect(secondLater(film25, 299, 299)).toBe(299);
  });
});
