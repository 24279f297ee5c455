/** Whatever is marked, and whoever marked it: a sound answer, a typed reason, or a RangeError that says what was wrong. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { drift } from '../../../src/core/agreement/drift.ts';
import { fleissKappa } from '../../../src/core/agreement/fleiss-kappa.ts';
import { halfMarkShares } from '../../../src/core/agreement/half-marks.ts';
import { intraclass } from '../../../src/core/agreement/intraclass-correlation.ts';
import { kendallsW } from '../../../src/core/agreement/kendalls-w.ts';
import { alphaSpread, krippendorffAlpha } from '../../../src/core/agreement/krippendorff-alpha.ts';
import { markPairs, ratingsOf } from '../../../src/core/agreement/shared-marks.ts';
import { markCategories, pairTable, weightedKappa } from '../../../src/core/agreement/weighted-kappa.ts';
import { board } from '../../../src/core/board/board.ts';
import { comparable, comparableGroups } from '../../../src/core/board/comparable-groups.ts';
import { swapPoints } from '../../../src/core/board/swap-points.ts';
import { watchNext } from '../../../src/core/board/watch-next.ts';
import { cliffsDelta } from '../../../src/core/comparison/cliffs-delta.ts';
import { compareGrades } from '../../../src/core/comparison/compare-grades.ts';
import { welch } from '../../../src/core/comparison/welch.ts';
import { bootstrapGames } from '../../../src/core/grades/bootstrap-games.ts';
import { gradeClass, gradeRunner } from '../../../src/core/grades/grade-class.ts';
import { gradeHistory } from '../../../src/core/grades/grade-history.ts';
import type { GradeMark } from '../../../src/core/grades/grade-mark.ts';
import { betweenVariance, normalPrior } from '../../../src/core/grades/normal-prior.ts';
import { spreadOf } from '../../../src/core/grades/resample.ts';
import { weightedSpread } from '../../../src/core/grades/weighted-spread.ts';
import { randomFrom } from '../../../src/core/random.ts';
import { defaultRubric } from '../../../src/core/rubric/default-rubric.ts';
import { normaliseWeights, traitWeights } from '../../../src/core/rubric/weights.ts';
import { unsound } from './sound.ts';

const traits = defaultRubric.families.flatMap((family) => family.traits.map((trait) => trait.key));
const few = (name: string, most: number) => fc.integer({ min: 0, max: most }).map((at) => `${name}${at}`);

/** Marks of studies large and small, by one evaluator or several, sometimes all of one value. */
const marks = fc
  .record({
    runners: fc.integer({ min: 0, max: 7 }),
    games: fc.integer({ min: 0, max: 3 }),
    evaluators: fc.integer({ min: 0, max: 2 }),
    values: fc.constantFrom([3], [1, 5], [1, 1.5, 2, 2.5, 3, 3.5, 4, 4.5, 5], [5]),
  })
  .chain(({ runners, games, evaluators, values }) =>
    fc.array(
      fc.record({
        runner: few('r', runners),
        game: few('g', games),
        carry: few('c', 9),
        evaluator: few('e', evaluators),
        trait: fc.constantFrom(...traits.slice(0, 5), traits[11] ?? 'ball', 'unheard of'),
        value: fc.constantFrom(...values),
        clearness: fc.constantFrom('clear' as const, 'partial' as const, 'obscured' as const),
      }),
      { maxLength: 250 },
    ),
  );
const weights = fc.array(fc.constantFrom(0, 0, 1, 2, 1e-9, 1e9), { minLength: 12, maxLength: 12 });

function sound(answer: unknown): void {
  expect(unsound(answer)).toEqual([]);
}

describe('any study', () => {
  test('is graded soundly, every runner of it and his history', () => {
    fc.assert(
      fc.property(marks, (given) => {
        const study = gradeClass(Object.freeze(given), defaultRubric, { runners: ['nobody'] });
        sound(study);
        expect(study.runners['nobody']?.overall.known).toBe(false);
        for (const [runner, grades] of Object.entries(study.runners)) {
          const own = given.filter((mark) => mark.runner === runner);
          sound(gradeRunner(own, study.pooled, defaultRubric));
          const games = [...new Set(own.map((mark) => mark.game))];
          sound(gradeHistory(own, games, study.pooled, defaultRubric));
          for (const trait of Object.values(grades.traits)) {
            if (!trait.known) continue;
            const { low, grade, high, sd } = trait.value;
            expect(1 <= low && low <= grade && grade <= high && high <= 5 && sd > 0).toBe(true);
          }
        }
        const [first, second] = Object.values(study.runners);
        if (first !== undefined && second !== undefined) sound(compareGrades(first, second));
        sound(bootstrapGames(given, defaultRubric, study.pooled, randomFrom(1), { draws: 20 }));
      }),
      { numRuns: 150 },
    );
  });

  test('is ranked soundly, or a reason is given', () => {
    fc.assert(
      fc.property(marks, weights, fc.boolean(), (given, own, loose) => {
        const grades = gradeClass(given, defaultRubric);
        const groups = comparableGroups(given, grades.pooled.leniency);
        sound(groups);
        sound(comparable(groups));
        const request = { grades, marks: given, weights: own, draws: 50, random: randomFrom(2), includeThin: true };
        sound(board(loose ? { ...request, concentration: 3 } : request));
        const unmarked = ['r0', 'r1', 'new'].map((runner) => ({ runner, game: 'g0', carry: 'next' }));
        sound(watchNext(unmarked, given, grades.pooled, defaultRubric));
      }),
      { numRuns: 150 },
    );
  });

  test('has sound agreement, or a reason is given', () => {
    fc.assert(
      fc.property(marks, (given) => {
        const { ratings } = ratingsOf(given);
        for (const metric of ['nominal', 'ordinal', 'interval'] as const) sound(krippendorffAlpha(ratings, metric));
        sound(alphaSpread(ratings, 'interval', 20, randomFrom(1)));
        const pairs = markPairs(given, 'e0', 'e1').map((pair): [number, number] => [pair.first, pair.second]);
        for (const kind of ['none', 'linear', 'quadratic'] as const) {
          sound(weightedKappa(pairTable(pairs, markCategories), kind));
        }
        sound(intraclass(pairs));
        sound(halfMarkShares(given));
      }),
      { numRuns: 200 },
    );
  });
});

/** A RangeError is an answer too: it names what it wanted. Anything else thrown is not. */
const attempt = (work: () => unknown): void => {
  try {
    sound(work());
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    expect(error.message).toMatch(/want|the same number/);
  }
};

describe('any numbers', () => {
  const number = fc.oneof(
    fc.constantFrom(0, 1, 3, 3, 3, 5, -1),
    fc.double({ min: -1e6, max: 1e6, noNaN: true }),
    fc.double({ min: -1e-6, max: 1e-6, noNaN: true }),
  );
  const numbers = fc.array(number, { maxLength: 12 });
  const grid = fc
    .tuple(fc.integer({ min: 0, max: 5 }), fc.integer({ min: 0, max: 5 }))
    .chain(([rows, columns]) =>
      fc.array(fc.array(number, { minLength: columns, maxLength: columns }), { minLength: rows, maxLength: rows }),
    );

  test('give a sound answer, a reason, or a RangeError', () => {
    fc.assert(
      fc.property(numbers, numbers, grid, (first, second, table) => {
        attempt(() => cliffsDelta(first, second));
        attempt(() => welch(first, second));
        attempt(() => spreadOf(first));
        attempt(() => weightedSpread(first, second));
        attempt(() => betweenVariance(first, second.map(Math.abs).slice(0, first.length)));
        attempt(() =>
          normalPrior(
            first,
            first.map((one) => Math.abs(one) + 0.01),
          ),
        );
        attempt(() => normaliseWeights(first));
        attempt(() => intraclass(table));
        attempt(() => kendallsW(table));
        attempt(() => fleissKappa(table.map((row) => row.map((one) => Math.round(Math.abs(one)) % 4))));
        attempt(() => swapPoints(table, first.slice(0, table[0]?.length ?? 0)));
        attempt(() =>
          weightedKappa(
            table.map((row) => row.map(Math.abs)),
            'quadratic',
          ),
        );
        attempt(() =>
          drift(first.map((one, at) => ({ first: one, second: second[at] ?? 0, daysBetween: Math.abs(one) }))),
        );
      }),
      { numRuns: 600 },
    );
  });

  test('as weights of a rubric give shares or a reason', () => {
    fc.assert(
      fc.property(weights, (given) => {
        let at = 0;
        const families = defaultRubric.families.map((family) => ({
          ...family,
          traits: family.traits.map((trait) => ({ ...trait, weight: given[at++] ?? 0 })),
        }));
        sound(traitWeights({ ...defaultRubric, families }));
        const one: GradeMark[] = traits.map((trait) => ({
          runner: 'r',
          game: 'g',
          carry: 'c',
          evaluator: 'e',
          trait,
          value: 3,
          clearness: 'clear',
        }));
        sound(gradeClass(one, { ...defaultRubric, families }));
      }),
    );
  });
});
