import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { fleissKappa } from '../../../src/core/agreement/fleiss-kappa.ts';
import { halfMarkShares } from '../../../src/core/agreement/half-marks.ts';
import { intraclass } from '../../../src/core/agreement/intraclass-correlation.ts';
import { kendallsW } from '../../../src/core/agreement/kendalls-w.ts';
import { alphaSpread, krippendorffAlpha } from '../../../src/core/agreement/krippendorff-alpha.ts';
import { leniency } from '../../../src/core/agreement/leniency.ts';
import { markPairs, ratingsOf } from '../../../src/core/agreement/shared-marks.ts';
import { markCategories, pairTable, weightedKappa } from '../../../src/core/agreement/weighted-kappa.ts';
import type { GradeMark } from '../../../src/core/grades/grade-mark.ts';
import { randomFrom } from '../../../src/core/random.ts';
import { valueOf } from '../../value-of.ts';

const mark = fc.constantFrom(...markCategories);
const pairs = fc.array(fc.tuple(mark, mark), { minLength: 2, maxLength: 60 });
const table = (given: readonly (readonly [number, number])[]) => pairTable(given, markCategories);

describe('weighted kappa of marks', () => {
  test('is the same with the evaluators turned over, and 1 at most', () => {
    fc.assert(
      fc.property(
        pairs,
        fc.constantFrom('none' as const, 'linear' as const, 'quadratic' as const),
        (given, weights) => {
          const one = weightedKappa(Object.freeze(table(given)), weights);
          const other = weightedKappa(table(given.map(([first, second]) => [second, first])), weights);
          expect(other.known).toBe(one.known);
          if (!one.known || !other.known) return;
          expect(other.value.kappa).toBeCloseTo(one.value.kappa, 12);
          expect(other.value.standardError).toBeCloseTo(one.value.standardError, 12);
          expect(one.value.kappa).toBeLessThanOrEqual(1 + 1e-12);
        },
      ),
    );
  });

  test('has no error where the pairs leave none, whichever way the evaluators are turned', () => {
    const given = [
      [2.5, 2.5],
      [3.5, 2.5],
      [2.5, 1],
    ] as const;
    for (const pairsGiven of [given, given.map(([first, second]) => [second, first] as const)]) {
      const kappa = weightedKappa(table(pairsGiven), 'linear');
      expect(kappa.known && kappa.value.standardError).toBeCloseTo(0, 12);
    }
  });

  test('with quadratic weights is the consistency of two raters whose margins agree', () => {
    // Fleiss & Cohen 1973: quadratic kappa is an intraclass correlation, up to terms of the order 1/n (from memory).
    const random = randomFrom(4);
    const given = Array.from({ length: 2000 }, (): [number, number] => {
      const own = random.normal();
      const value = () => Math.min(5, Math.max(1, 3 + Math.round(2 * (0.6 * own + 0.5 * random.normal())) / 2));
      return [value(), value()];
    });
    const kappa = valueOf(weightedKappa(table(given), 'quadratic')).kappa;
    const icc = valueOf(valueOf(intraclass(given)).agreement.single).icc;
    expect(Math.abs(kappa - icc)).toBeLessThan(0.002);
  });

  test('of perfect agreement is 1 with no error', () => {
    const answer = valueOf(
      weightedKappa(
        table([
          [1, 1],
          [3, 3],
          [5, 5],
        ]),
        'linear',
      ),
    );
    expect(answer.kappa).toBeCloseTo(1, 12);
    expect(answer.standardError).toBeCloseTo(0, 9);
  });

  test('has reasons for nothing shared and a single category, and refuses what is not a table', () => {
    expect(weightedKappa(table([]), 'linear')).toMatchObject({ known: false, because: 'no pairs' });
    expect(weightedKappa(table([[3, 3]]), 'linear')).toMatchObject({ known: false, because: 'one category' });
    expect(() => weightedKappa([[1, 2]], 'linear')).toThrow(RangeError);
    expect(() => table([[3.25, 3]])).toThrow('no category for the pair 3.25, 3');
  });
});

describe("Fleiss' kappa", () => {
  test('of full agreement is 1, and has a reason when one category is all there is', () => {
    expect(
      valueOf(
        fleissKappa([
          [3, 0],
          [0, 3],
        ]),
      ).kappa,
    ).toBeCloseTo(1, 12);
    expect(
      fleissKappa([
        [3, 0],
        [3, 0],
      ]),
    ).toMatchObject({ known: false, because: 'one category' });
    expect(fleissKappa([])).toMatchObject({ known: false, because: 'nothing rated' });
    expect(() =>
      fleissKappa([
        [3, 0],
        [1, 1],
      ]),
    ).toThrow('the same number of ratings');
  });
});

describe("Krippendorff's alpha", () => {
  const ratings = fc.tuple(fc.integer({ min: 2, max: 4 }), fc.integer({ min: 1, max: 12 })).chain(([rows, columns]) =>
    fc.array(fc.array(fc.option(mark), { minLength: columns, maxLength: columns }), {
      minLength: rows,
      maxLength: rows,
    }),
  );

  test('does not care which row an evaluator has, nor for a unit with one value alone', () => {
    fc.assert(
      fc.property(
        ratings,
        fc.constantFrom('nominal' as const, 'ordinal' as const, 'interval' as const),
        (given, metric) => {
          const one = krippendorffAlpha(Object.freeze(given), metric);
          const other = krippendorffAlpha(
            given.toReversed().map((row, at) => [...row, at === 0 ? 2.5 : null]),
            metric,
          );
          expect(other.known).toBe(one.known);
          if (one.known && other.known) expect(other.value.alpha).toBeCloseTo(one.value.alpha, 9);
        },
      ),
    );
  });

  test('of intervals does not care for the unit of the values', () => {
    fc.assert(
      fc.property(ratings, (given) => {
        const one = krippendorffAlpha(given, 'interval');
        const scaled = given.map((row) => row.map((value) => (value === null ? null : 1e6 * value - 7)));
        const other = krippendorffAlpha(scaled, 'interval');
        if (one.known && other.known) expect(other.value.alpha).toBeCloseTo(one.value.alpha, 6);
      }),
    );
  });

  test('has an interval by drawing units again', () => {
    const random = randomFrom(6);
    const units = Array.from({ length: 60 }, () => random.normal());
    const rows = [0, 1, 2].map(() => units.map((own) => 3 + Math.round(2 * (own + 0.6 * random.normal())) / 2));
    const alpha = valueOf(krippendorffAlpha(rows, 'interval')).alpha;
    const spread = valueOf(alphaSpread(rows, 'interval', 500, randomFrom(1)));
    expect(spread.low).toBeLessThan(alpha);
    expect(spread.high).toBeGreaterThan(alpha);
    expect(spread.standardError).toBeLessThan(0.15);
  });

  test('has reasons for nothing paired and a single value', () => {
    expect(
      krippendorffAlpha(
        [
          [1, null],
          [null, 2],
        ],
        'nominal',
      ),
    ).toMatchObject({ because: 'nothing paired' });
    expect(
      krippendorffAlpha(
        [
          [2, 2],
          [2, 2],
        ],
        'ordinal',
      ),
    ).toMatchObject({ because: 'one value' });
    expect(() => krippendorffAlpha([[1, 2], [1]], 'nominal')).toThrow(RangeError);
  });
});

describe('the intraclass correlations', () => {
  test('of single ratings step up to those of the mean', () => {
    const answer = valueOf(
      intraclass([
        [9, 2, 5, 8],
        [6, 1, 3, 2],
        [8, 4, 6, 8],
        [7, 1, 2, 6],
      ]),
    );
    for (const form of [answer.oneWay, answer.consistency, answer.agreement]) {
      if (!form.mean.known) continue;
      const single = valueOf(form.single).icc;
      expect(form.mean.value.icc).toBeCloseTo((4 * single) / (1 + 3 * single), 12);
    }
  });

  test('have reasons for exact agreement, equal targets and too few of either', () => {
    const exact = valueOf(
      intraclass([
        [1, 1],
        [3, 3],
        [5, 5],
      ]),
    );
    expect(exact.oneWay.single).toMatchObject({ known: false, because: 'no error' });
    const shifted = valueOf(
      intraclass([
        [1, 2],
        [3, 4],
        [5, 6],
      ]),
    );
    expect(shifted.agreement.single).toMatchObject({ known: false, because: 'no error' });
    expect(
      intraclass([
        [1, 3],
        [2, 2],
        [3, 1],
      ]),
    ).toMatchObject({ known: false, because: 'targets do not differ' });
    expect(intraclass([[1, 2]])).toMatchObject({ known: false, because: 'fewer than two' });
    expect(() => intraclass([[1, 2], [1]])).toThrow(RangeError);
  });
});

describe("Kendall's W", () => {
  test('is 1 for one order, corrects for ties and has a reason for no order', () => {
    expect(
      valueOf(
        kendallsW([
          [1, 2, 3, 4],
          [2, 3, 5, 9],
        ]),
      ).w,
    ).toBe(1);
    expect(
      valueOf(
        kendallsW([
          [1, 2, 2, 3],
          [1, 2, 2, 3],
        ]),
      ).w,
    ).toBe(1);
    expect(
      kendallsW([
        [2, 2],
        [3, 3],
      ]),
    ).toMatchObject({ known: false, because: 'no order' });
    expect(kendallsW([[1, 2]])).toMatchObject({ known: false, because: 'fewer than two' });
  });

  test('goes with the mean rank correlation', () => {
    fc.assert(
      fc.property(
        fc.array(fc.array(mark, { minLength: 5, maxLength: 5 }), { minLength: 2, maxLength: 5 }),
        (values) => {
          const answer = kendallsW(Object.freeze(values));
          if (!answer.known) return;
          const { w, meanSpearman, p } = answer.value;
          expect(w).toBeGreaterThanOrEqual(0);
          expect(w).toBeLessThanOrEqual(1);
          expect(meanSpearman).toBeCloseTo((values.length * w - 1) / (values.length - 1), 12);
          expect(p).toBeGreaterThanOrEqual(0);
          expect(p).toBeLessThanOrEqual(1);
        },
      ),
    );
  });
});

describe('leniency', () => {
  test('is found through a third evaluator, and told apart from what was marked', () => {
    // One and three share nothing; both share items with two. Shifts 0, .5 and -1.
    const random = randomFrom(12);
    const values = Array.from({ length: 200 }, (_, at) => at).flatMap((at) => {
      const own = random.normal();
      const both = at % 2 === 0 ? (['one', 'two'] as const) : (['two', 'three'] as const);
      const shift = { one: 0, two: 0.5, three: -1 };
      return both.map((evaluator) => ({
        item: `item ${at}`,
        evaluator,
        value: own + shift[evaluator] + 0.1 * random.normal(),
      }));
    });
    const [group, second] = valueOf(leniency(Object.freeze(values)));
    expect(second).toBeUndefined();
    expect(group?.evaluators).toEqual(['one', 'three', 'two']);
    const [one = 0, three = 0, two = 0] = group?.shift ?? [];
    expect(two - one).toBeCloseTo(0.5, 1);
    expect(two - three).toBeCloseTo(1.5, 1);
    expect(Math.sqrt(group?.covariance[0]?.[0] ?? 1)).toBeLessThan(0.03);
  });

  test('weighted by marks given adds up to nothing, whatever order marks come in', () => {
    const item = fc.integer({ min: 0, max: 8 }).map(String);
    const row = fc.record({ item, evaluator: fc.constantFrom('a', 'b', 'c'), value: mark });
    fc.assert(
      fc.property(fc.array(row, { minLength: 1, maxLength: 60 }), (values) => {
        const groups = valueOf(leniency(values));
        expect(groups.flatMap((group) => group.evaluators).sort()).toEqual(
          [...new Set(values.map((one) => one.evaluator))].sort(),
        );
        for (const group of groups) {
          let sum = 0;
          for (const [at, evaluator] of group.evaluators.entries()) {
            sum += (group.shift[at] ?? 0) * values.filter((one) => one.evaluator === evaluator).length;
          }
          expect(sum).toBeCloseTo(0, 8);
        }
        expect(valueOf(leniency(values.toReversed()))).toEqual(groups);
      }),
    );
  });

  test('has a reason for no marks', () => {
    expect(leniency([])).toMatchObject({ known: false, because: 'no marks' });
  });
});

const by = (evaluator: string, carry: string, value: number): GradeMark => ({
  runner: 'r',
  game: 'g',
  carry,
  evaluator,
  trait: 'press',
  value,
  clearness: 'clear',
});

describe('marks of two evaluators', () => {
  const marks = [by('x', 'b', 3), by('y', 'b', 3.5), by('x', 'a', 2), by('y', 'c', 4), by('y', 'a', 2)];

  test('are paired where both marked the trait of the carry', () => {
    expect(markPairs(Object.freeze(marks), 'x', 'y').map((pair) => [pair.carry, pair.first, pair.second])).toEqual([
      ['a', 2, 2],
      ['b', 3, 3.5],
    ]);
    expect(markPairs(marks, 'x', 'nobody')).toEqual([]);
  });

  test('are laid out with gaps for alpha', () => {
    expect(ratingsOf(marks)).toEqual({
      evaluators: ['x', 'y'],
      ratings: [
        [2, 3, null],
        [2, 3.5, 4],
      ],
    });
  });

  test('show how often each fell back on halves', () => {
    const shares = halfMarkShares(marks);
    expect(valueOf(shares['x'])).toMatchObject({ halves: 0, marks: 2, share: 0, low: 0 });
    expect(valueOf(shares['y'])).toMatchObject({ halves: 1, marks: 3 });
    expect(halfMarkShares([])).toEqual({});
    expect(() => halfMarkShares([{ evaluator: 'x', value: 3.2 }])).toThrow(RangeError);
  });
});
