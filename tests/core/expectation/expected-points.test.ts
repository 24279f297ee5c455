import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { expectedPoints } from '../../../src/core/expectation/expected-points.ts';
import { pointsAfter, stateAfter } from '../../../src/core/expectation/next-state.ts';
import { surfaceError } from '../../../src/core/expectation/points-error.ts';
import { pointsSurface, surfacePoints } from '../../../src/core/expectation/points-surface.ts';
import type { Down } from '../../../src/core/plays/situation.ts';
import { situations } from '../plays/situations.ts';

describe('expected points after a run', () => {
  test('never fall as the gain grows by a yard, from any snap on any down', () => {
    let steps = 0;
    for (const down of [1, 2, 3, 4] as const satisfies readonly Down[]) {
      for (let yardsToGoal = 1; yardsToGoal <= 99; yardsToGoal += 1) {
        for (let toGo = 1; toGo <= yardsToGoal; toGo += 1) {
          const from = Math.max(-30, yardsToGoal - 105);
          let before = pointsAfter(pointsSurface, { down, toGo, yardsToGoal }, from);
          for (let gain = from + 1; gain <= yardsToGoal; gain += 1) {
            const after = pointsAfter(pointsSurface, { down, toGo, yardsToGoal }, gain);
            steps += 1;
            if (after < before - 1e-12) expect.fail(`${down} and ${toGo} at ${yardsToGoal}: ${gain} is worth less`);
            before = after;
          }
        }
      }
    }
    expect(steps).toBeGreaterThan(1_000_000);
  });

  test('are finite and have a standard error at any place, also between whole yards and off the table', () => {
    const yards = fc.double({ min: -5, max: 130, noNaN: true });
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 4 }), yards, yards, (down, toGo, yardsToGoal) => {
        const place = { down, toGo, yardsToGoal };
        const points = surfacePoints(pointsSurface, place);
        expect(points).toBeGreaterThanOrEqual(-7);
        expect(points).toBeLessThanOrEqual(7);
        const error = surfaceError(pointsSurface, place);
        expect(error).toBeGreaterThan(0.01);
        expect(error).toBeLessThan(0.5);
      }),
    );
  });

  test('between whole yards stay between those of the yards around', () => {
    fc.assert(
      fc.property(situations, fc.double({ min: 0, max: 1, noNaN: true }), (situation, part) => {
        const { down, toGo, yardsToGoal } = situation;
        const near = surfacePoints(pointsSurface, situation);
        const far = surfacePoints(pointsSurface, { down, toGo, yardsToGoal: Math.min(99, yardsToGoal + 1) });
        const between = surfacePoints(pointsSurface, { down, toGo, yardsToGoal: Math.min(99, yardsToGoal + part) });
        expect(between).toBeLessThanOrEqual(near + 1e-9);
        expect(between).toBeGreaterThanOrEqual(far - 1e-9);
      }),
    );
  });

  test('agree with the errors computed by resampling games where those were computed', () => {
    for (const [down = 1, toGo = 1, yardsToGoal = 1, points = 0, error = 0] of pointsSurface.standardErrors.rows) {
      expect(surfaceError(pointsSurface, { down, toGo, yardsToGoal })).toBeCloseTo(error, 12);
      expect(surfacePoints(pointsSurface, { down, toGo, yardsToGoal })).toBeCloseTo(points, 2);
    }
  });

  test('take a loss into the own end zone as no better than the next down at the 1', () => {
    const situation = { down: 3, toGo: 5, yardsToGoal: 98 } as const;
    expect(stateAfter(situation, -2)).toEqual({ kind: 'safety' });
    expect(pointsAfter(pointsSurface, situation, -2)).toBeLessThanOrEqual(pointsAfter(pointsSurface, situation, -1));
    expect(pointsAfter(pointsSurface, { down: 1, toGo: 10, yardsToGoal: 99 }, -1)).toBe(-2);
  });
});

describe('expected points of a snap', () => {
  const snap = Object.freeze({ down: 1, toGo: 10, yardsToGoal: 75 });
  test.each([
    [{ quarter: 2, clockSeconds: 120 }, 'end of half'],
    [{ quarter: 4, clockSeconds: 300 }, 'end of game'],
    [{ quarter: 6, clockSeconds: null }, 'overtime'],
  ])('at %o are refused because of: %s', (clock, because) => {
    expect(expectedPoints(pointsSurface, snap, clock)).toMatchObject({ known: false, because });
  });

  test('are answered where the clock does not matter, is not charted, or by an edited limit', () => {
    const answer = expectedPoints(pointsSurface, snap, { quarter: 1, clockSeconds: 3 });
    expect(answer).toMatchObject({ known: true, value: { points: 0.901 } });
    expect(expectedPoints(pointsSurface, snap, { quarter: 2, clockSeconds: 121 }).known).toBe(true);
    expect(expectedPoints(pointsSurface, snap, { quarter: 2, clockSeconds: null }).known).toBe(true);
    const limits = { endOfHalf: 30, endOfGame: 60 };
    expect(expectedPoints(pointsSurface, snap, { quarter: 2, clockSeconds: 60 }, limits).known).toBe(true);
    expect(expectedPoints(pointsSurface, { ...snap, toGo: 76 })).toMatchObject({ because: 'to go past the goal line' });
  });
});
