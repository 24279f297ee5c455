import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { cliffsDelta } from '../../../src/core/comparison/cliffs-delta.ts';
import { compareGrades, differenceOf } from '../../../src/core/comparison/compare-grades.ts';
import { welch } from '../../../src/core/comparison/welch.ts';
import { gradeClass } from '../../../src/core/grades/grade-class.ts';
import { randomFrom } from '../../../src/core/random.ts';
import { valueOf } from '../../value-of.ts';
import { plainRubric } from '../grades/coverage.ts';
import { drawnClass, world } from '../grades/drawn-class.ts';

const marks = fc.array(
  fc.integer({ min: 2, max: 10 }).map((halves) => halves / 2),
  { minLength: 2, maxLength: 40 },
);

const exact = (grade: number) => ({ grade, sd: 0, df: 10, thin: false });

describe('the difference of two grades', () => {
  const rubric = plainRubric(['press', 'tempo']);
  const drawn = drawnClass(randomFrom(12), { ...world, traits: ['press', 'tempo'] });
  const { runners } = gradeClass(drawn.marks, rubric, { runners: ['nobody'] });
  const first = runners['runner 00'];
  const second = runners['runner 01'];
  const nobody = runners['nobody'];
  if (first === undefined || second === undefined || nobody === undefined) throw new Error('runners are missing');

  test('turned over has the other sign and the other chance', () => {
    const one = compareGrades(first, second);
    const other = compareGrades(second, first);
    for (const trait of ['press', 'tempo']) {
      const here = valueOf(one.traits[trait]);
      const there = valueOf(other.traits[trait]);
      expect(there.difference).toBeCloseTo(-here.difference, 12);
      expect(there.low).toBeCloseTo(-here.high, 12);
      expect(there.chance + here.chance).toBeCloseTo(1, 12);
    }
  });

  test('is wider than either interval alone and holds more the surer it has to be', () => {
    const whole = valueOf(compareGrades(first, second).overall);
    const surer = valueOf(compareGrades(first, second, 0.99).overall);
    const own = valueOf(first.overall);
    expect(whole.high - whole.low).toBeGreaterThan(own.high - own.low);
    expect(surer.high - surer.low).toBeGreaterThan(whole.high - whole.low);
  });

  test('with himself is nothing, evenly likely', () => {
    expect(valueOf(compareGrades(first, first).overall)).toMatchObject({ difference: 0, chance: 0.5 });
  });

  test('keeps the reason of a grade that is not there', () => {
    const answer = compareGrades(first, nobody);
    expect(answer.overall).toMatchObject({ known: false, because: 'no marks' });
    expect(answer.traits['press']).toMatchObject({ known: false, because: 'no marks' });
    expect(answer.families['all']).toMatchObject({ known: false, because: 'no marks' });
  });

  test('of two exact grades is exact', () => {
    expect(differenceOf(exact(4), exact(3))).toMatchObject({ difference: 1, low: 1, high: 1, chance: 1 });
    expect(differenceOf(exact(3), exact(3)).chance).toBe(0.5);
  });
});

describe("Cliff's delta", () => {
  test('is what counting every pair gives, turns its sign with the sides, and stays in its interval', () => {
    fc.assert(
      fc.property(marks, marks, (first, second) => {
        const answer = valueOf(cliffsDelta(Object.freeze(first), Object.freeze(second)));
        let sum = 0;
        for (const one of first) for (const other of second) sum += Math.sign(one - other);
        expect(answer.delta).toBeCloseTo(sum / (first.length * second.length), 12);
        expect(answer.low).toBeLessThanOrEqual(answer.delta + 1e-9);
        expect(answer.high).toBeGreaterThanOrEqual(answer.delta - 1e-9);
        expect(valueOf(cliffsDelta(second, first)).delta).toBeCloseTo(-answer.delta, 12);
        expect(valueOf(cliffsDelta(first.map(Math.exp), second.map(Math.exp))).delta).toBeCloseTo(answer.delta, 12);
      }),
    );
  });

  test('needs two marks on each side', () => {
    expect(cliffsDelta([3], [3, 4])).toMatchObject({ known: false, because: 'fewer than two' });
  });
});

describe("Welch's difference", () => {
  test('turns its sign with the sides and does not care for a shift of both', () => {
    fc.assert(
      fc.property(marks, marks, fc.integer({ min: -50, max: 50 }), (first, second, shift) => {
        const answer = welch(Object.freeze(first), Object.freeze(second));
        const other = welch(
          second.map((one) => one + shift),
          first.map((one) => one + shift),
        );
        expect(other.known).toBe(answer.known);
        if (!answer.known || !other.known) return;
        expect(other.value.difference).toBeCloseTo(-answer.value.difference, 9);
        expect(other.value.p).toBeCloseTo(answer.value.p, 9);
        expect(other.value.df).toBeCloseTo(answer.value.df, 6);
        expect(answer.value.chance).toBeGreaterThanOrEqual(0);
        expect(answer.value.chance).toBeLessThanOrEqual(1);
      }),
    );
  });

  test('has reasons for too little and for no spread', () => {
    expect(welch([1], [2, 3])).toMatchObject({ known: false, because: 'fewer than two' });
    expect(welch([2, 2], [3, 3])).toMatchObject({ known: false, because: 'no spread' });
  });
});
