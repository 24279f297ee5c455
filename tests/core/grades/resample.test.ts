import { quantileSorted } from 'd3-array';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { bootstrapGames } from '../../../src/core/grades/bootstrap-games.ts';
import { gradeClass } from '../../../src/core/grades/grade-class.ts';
import { percentileEnds, resample, spreadOf } from '../../../src/core/grades/resample.ts';
import { randomFrom } from '../../../src/core/random.ts';
import { valueOf } from '../../value-of.ts';
import { plainRubric } from './coverage.ts';
import { drawnClass, world } from './drawn-class.ts';

describe('resampling', () => {
  test('draws every unit about as often', () => {
    const counts = [0, 0, 0, 0, 0, 0, 0];
    resample(7, 10_000, randomFrom(5), (sample) => {
      for (const unit of sample) counts[unit] = (counts[unit] ?? 0) + 1;
    });
    for (const count of counts) expect(Math.abs(count - 10_000)).toBeLessThan(400);
  });

  test('refuses no units, no draws and counts that are not whole', () => {
    for (const [units, draws] of [
      [0, 1],
      [1, 0],
      [1.5, 2],
      [2 ** 22, 1],
    ] as const) {
      expect(() => resample(units, draws, randomFrom(1), () => undefined)).toThrow(RangeError);
    }
  });

  test('has the ends that a library gives to sorted values, whatever guides the search', () => {
    const finite = fc.double({ min: -1e6, max: 1e6, noNaN: true });
    fc.assert(
      fc.property(
        fc.array(finite, { minLength: 1, maxLength: 60 }),
        fc.double({ min: 0.01, max: 0.99, noNaN: true }),
        finite,
        fc.double({ min: 0, max: 1e6, noNaN: true }),
        (values, confidence, mean, sd) => {
          const ends = percentileEnds(Object.freeze(values), confidence, mean, sd);
          const sorted = [...values].sort((a, b) => a - b);
          expect(ends.low).toBeCloseTo(quantileSorted(sorted, (1 - confidence) / 2) ?? 0, 6);
          expect(ends.high).toBeCloseTo(quantileSorted(sorted, (1 + confidence) / 2) ?? 0, 6);
        },
      ),
    );
  });

  test('needs two values for a spread', () => {
    expect(spreadOf([3])).toMatchObject({ known: false, because: 'fewer than two draws' });
    expect(() => spreadOf([3, Number.NaN])).toThrow(RangeError);
    expect(valueOf(spreadOf([3, 3, 3]))).toEqual({ mean: 3, standardError: 0, low: 3, high: 3 });
  });
});

describe('the bootstrap over games', () => {
  const rubric = plainRubric(['press', 'tempo']);
  const { marks } = drawnClass(randomFrom(6), { ...world, traits: ['press', 'tempo'], fewestGames: 1 });
  const { pooled, runners } = gradeClass(marks, rubric);
  const bootstrap = bootstrapGames(Object.freeze(marks), rubric, pooled, randomFrom(1), { draws: 400 });

  test('is centred near the grade and, over the class, narrower than its interval', () => {
    let inside = 0;
    let rich = 0;
    let resampled = 0;
    let posterior = 0;
    for (const [runner, spread] of Object.entries(bootstrap)) {
      const grade = valueOf(runners[runner]?.overall);
      if (!spread.overall.known || grade.games < 5) continue;
      rich += 1;
      if (Math.abs(spread.overall.value.mean - grade.grade) < 0.1) inside += 1;
      resampled += spread.overall.value.standardError;
      posterior += grade.sd;
    }
    expect(rich).toBeGreaterThan(5);
    expect(inside).toBe(rich);
    expect(resampled).toBeLessThan(posterior);
  });

  test('has a reason for a runner with a single game', () => {
    const single = Object.entries(bootstrap).filter(([runner]) => valueOf(runners[runner]?.overall).games === 1);
    expect(single.length).toBeGreaterThan(0);
    for (const [, spread] of single) {
      expect(spread.overall).toMatchObject({ known: false, because: 'fewer than two games' });
      expect(spread.traits['press']).toMatchObject({ known: false, because: 'fewer than two games' });
    }
  });

  test('is the same for the same seed and another for another', () => {
    expect(bootstrapGames(marks, rubric, pooled, randomFrom(1), { draws: 400 })).toEqual(bootstrap);
    expect(bootstrapGames(marks, rubric, pooled, randomFrom(2), { draws: 400 })).not.toEqual(bootstrap);
  });
});
