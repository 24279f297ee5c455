import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { betweenVariance, normalPrior, shrunken } from '../../../src/core/grades/normal-prior.ts';
import { valueOf } from '../../value-of.ts';

const estimate = fc.double({ min: 1, max: 5, noNaN: true });
const variance = fc.double({ min: 0.001, max: 2, noNaN: true });
const units = fc.array(fc.tuple(estimate, variance), { minLength: 4, maxLength: 40 });

describe('the prior of a class', () => {
  test('lies among the estimates, with a variance above 0 whatever they are', () => {
    fc.assert(
      fc.property(units, (given) => {
        const estimates = given.map(([one]) => one);
        const prior = valueOf(normalPrior(Object.freeze(estimates), Object.freeze(given.map(([, one]) => one))));
        expect(prior.mean).toBeGreaterThanOrEqual(Math.min(...estimates) - 1e-9);
        expect(prior.mean).toBeLessThanOrEqual(Math.max(...estimates) + 1e-9);
        expect(prior.variance).toBeGreaterThan(0);
        expect(prior.meanVariance).toBeGreaterThan(0);
      }),
    );
  });

  test('has reasons under two and under four units', () => {
    expect(betweenVariance([3], [1])).toMatchObject({ known: false, because: 'fewer than two' });
    expect(normalPrior([3, 3, 3], [1, 1, 1])).toMatchObject({ known: false, because: 'fewer than four' });
    expect(() => normalPrior([3, 3, 3, 3], [1, 1, 0, 1])).toThrow(RangeError);
    expect(() => betweenVariance([3, 4], [1])).toThrow(RangeError);
  });
});

describe('a shrunken estimate', () => {
  const prior = { mean: 3, meanVariance: 0.01, variance: 0.2, morris: 0.1 };

  test('lies between the prior and the estimate, nearer to it the surer it is', () => {
    fc.assert(
      fc.property(estimate, variance, variance, (own, one, other) => {
        const sure = shrunken(prior, { estimate: own, variance: Math.min(one, other) });
        const unsure = shrunken(prior, { estimate: own, variance: Math.max(one, other) });
        expect(Math.abs(sure.mean - own)).toBeLessThanOrEqual(Math.abs(unsure.mean - own) + 1e-12);
        expect(Math.abs(unsure.mean - 3)).toBeLessThanOrEqual(Math.abs(own - 3) + 1e-12);
      }),
    );
  });

  test('of nothing is the prior', () => {
    expect(shrunken(prior)).toEqual({ mean: 3, variance: 0.21000000000000002, shrink: 1 });
  });
});
