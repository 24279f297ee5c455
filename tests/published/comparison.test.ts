/** Bootstrap, Welch, Cliff's delta and the chance of being above, beside published examples. */
import { median, sampleCorrelation } from 'simple-statistics';
import { describe, expect, test } from 'vitest';
import { cliffsDelta } from '../../src/core/comparison/cliffs-delta.ts';
import { differenceOf } from '../../src/core/comparison/compare-grades.ts';
import { welch, welchFrom } from '../../src/core/comparison/welch.ts';
import { resample, spreadOf } from '../../src/core/grades/resample.ts';
import { randomFrom } from '../../src/core/random.ts';
import data from './data/bootstrap.json' with { type: 'json' };
import { valueOf } from '../value-of.ts';

function bootstrapped(units: number, draws: number, statistic: (sample: readonly number[]) => number) {
  const values = new Float64Array(draws);
  resample(units, draws, randomFrom(20), (sample, draw) => (values[draw] = statistic(Array.from(sample))));
  return values;
}

describe('the law school data', () => {
  // Efron & Tibshirani 1993, An Introduction to the Bootstrap, ch. 3, 6: data seen in a package; .776, .132 and .760 are
  // citations from memory, recomputed.
  const lsat = data.law15.map((row) => row[0] ?? 0);
  const gpa = data.law15.map((row) => row[1] ?? 0);
  const draws = bootstrapped(15, 20_000, (sample) =>
    sampleCorrelation(
      sample.map((at) => lsat[at] ?? 0),
      sample.map((at) => gpa[at] ?? 0),
    ),
  );

  test('have the printed correlation', () => {
    expect(sampleCorrelation(lsat, gpa)).toBeCloseTo(0.776374, 6);
  });

  test('have the printed bootstrap standard error', () => {
    expect(Math.abs(valueOf(spreadOf(draws)).standardError - 0.132)).toBeLessThan(0.003);
  });

  test('have the percentile intervals of a large bootstrap', () => {
    const wide = valueOf(spreadOf(draws, 0.95));
    const narrow = valueOf(spreadOf(draws, 0.9));
    expect(Math.abs(wide.low - 0.4649)).toBeLessThan(0.015);
    expect(Math.abs(wide.high - 0.9619)).toBeLessThan(0.015);
    expect(Math.abs(narrow.low - 0.5275)).toBeLessThan(0.015);
    expect(Math.abs(narrow.high - 0.9482)).toBeLessThan(0.015);
  });
});

const { treatment, control } = data.mouse;
const meanOf = (sample: readonly number[]) => sample.reduce((sum, at) => sum + (treatment[at] ?? 0), 0) / sample.length;
const medianOf = (sample: readonly number[]) => median(sample.map((at) => treatment[at] ?? 0));

describe('the mouse data', () => {
  // Efron & Tibshirani 1993, Tables 2.1 and 2.2: data seen in a package; 25.24, 14.14, 28.93, 23.36, 37.83 are citations
  // from memory, recomputed (the medians' errors by exact sums).
  test('have the printed standard errors of the mean and the median', () => {
    // 20,000 draws tell a standard error to half a percent; three of those.
    expect(valueOf(spreadOf(bootstrapped(7, 20_000, meanOf))).standardError / 23.36).toBeCloseTo(1, 1.5);
    expect(valueOf(spreadOf(bootstrapped(7, 20_000, medianOf))).standardError / 37.83).toBeCloseTo(1, 1.5);
  });

  test("have the published difference and Welch's t", () => {
    const answer = valueOf(welch(treatment, control));
    expect(answer.difference).toBeCloseTo(30.634921, 6);
    expect(answer.standardError).toBeCloseTo(28.926466, 6);
    expect(answer.t).toBeCloseTo(1.059062, 6);
    expect(answer.df).toBeCloseTo(9.645376, 6);
    expect(answer.p).toBeCloseTo(0.315372, 6);
  });

  test("have Cliff's delta 1/7", () => {
    const answer = valueOf(cliffsDelta(treatment, control));
    expect(answer.delta).toBeCloseTo(0.142857, 6);
    expect(answer.superiority).toBeCloseTo(0.571429, 6);
    expect(answer.size).toBe('negligible');
  });
});

describe("Cliff's delta", () => {
  test('has the published unbiased variance', () => {
    // Hogarty & Kromrey 1999; data seen in a package, recomputed.
    const answer = valueOf(cliffsDelta([10, 10, 20, 20, 20, 30, 30, 30, 40, 50], [10, 20, 30, 40, 40, 50]));
    expect(answer.delta).toBeCloseTo(-0.25, 12);
    expect(answer.superiority).toBeCloseTo(0.375, 12);
    expect(answer.variance).toBeCloseTo(0.0980556, 7);
    expect(answer.size).toBe('small');
  });
});

describe("Welch's difference", () => {
  test("of Student's sleep data is the printed one", () => {
    // A statistics package's own example (citation from memory), recomputed.
    const answer = valueOf(
      welch([0.7, -1.6, -0.2, -1.2, -0.1, 3.4, 3.7, 0.8, 0, 2], [1.9, 0.8, 1.1, 0.1, -0.1, 4.4, 5.5, 1.6, 4.6, 3.4]),
    );
    expect(answer.t).toBeCloseTo(-1.860813, 6);
    expect(answer.df).toBeCloseTo(17.776474, 6);
    expect(answer.p).toBeCloseTo(0.07939414, 8);
    expect(answer.low).toBeCloseTo(-3.3654832, 7);
    expect(answer.high).toBeCloseTo(0.2054832, 7);
  });

  test('from summaries is that of the engineering handbook', () => {
    // NIST e-Handbook 1.3.5.3, AUTO83B: -12.94627, 136.8750; citation from memory, recomputed from the summaries.
    const answer = valueOf(
      welchFrom({ count: 249, mean: 20.14458, sd: 6.4147 }, { count: 79, mean: 30.48101, sd: 6.10771 }),
    );
    expect(answer.t).toBeCloseTo(-12.94627, 4);
    expect(answer.df).toBeCloseTo(136.875, 3);
  });
});

test('the chance that one is above the other is the common language effect in print', () => {
  // McGraw & Wong 1992: men 69.7 (2.8), women 64.3 (2.6) inches, .92; citation from memory, recomputed .921208.
  const answer = differenceOf(
    { grade: 69.7, sd: 2.8, df: 1e7, thin: false },
    { grade: 64.3, sd: 2.6, df: 1e7, thin: false },
  );
  expect(answer.chance).toBeCloseTo(0.921208, 6);
});
