/** Agreement measures beside worked examples in print, to the printed digits. */
import { describe, expect, test } from 'vitest';
import { fleissKappa } from '../../src/core/agreement/fleiss-kappa.ts';
import { intraclass } from '../../src/core/agreement/intraclass-correlation.ts';
import { kendallsW } from '../../src/core/agreement/kendalls-w.ts';
import { krippendorffAlpha } from '../../src/core/agreement/krippendorff-alpha.ts';
import { leniency } from '../../src/core/agreement/leniency.ts';
import { creditFromDisagreement, pairTable, weightedKappa } from '../../src/core/agreement/weighted-kappa.ts';
import data from './data/agreement.json' with { type: 'json' };
import { valueOf } from '../value-of.ts';

function close(got: readonly number[], wanted: readonly number[]) {
  for (const [at, one] of got.entries()) expect(one).toBeCloseTo(wanted[at] ?? NaN, 6);
}

describe('weighted kappa', () => {
  // Cohen 1968, Psychological Bulletin 70:213-220. Digits .492, .348, .353 seen in a statistics package's manual that
  // quotes the paper; recomputed.
  const { props, n, disagreement_weights, nonsymmetric_weights } = data.cohen1968;
  const counts = props.map((row) => row.map((share) => Math.round(share * n)));

  test('gives the unweighted and the weighted kappa of the first paper', () => {
    expect(valueOf(weightedKappa(counts, 'none')).kappa).toBeCloseTo(0.491525, 6);
    expect(valueOf(weightedKappa(counts, creditFromDisagreement(disagreement_weights))).kappa).toBeCloseTo(0.347826, 6);
  });

  test('reads weights row by row: turned over they give another answer', () => {
    expect(valueOf(weightedKappa(counts, creditFromDisagreement(nonsymmetric_weights))).kappa).toBeCloseTo(0.353383, 6);
    const turned = nonsymmetric_weights.map((_, row) => nonsymmetric_weights.map((line) => line[row] ?? 0));
    expect(valueOf(weightedKappa(counts, creditFromDisagreement(turned))).kappa).toBeCloseTo(0.420561, 6);
  });

  test('gives the variances of Fleiss, Cohen & Everitt', () => {
    // Fleiss, Cohen & Everitt 1969, Psychological Bulletin 72:323-327. Table and weights seen in a package's manual; the
    // printed .429, .002885, .003082, .507, .003248, .004269 are a citation from memory, recomputed.
    const { table, agreement_weights } = data.fce1969;
    const plain = valueOf(weightedKappa(table, 'none'));
    expect(plain.kappa).toBeCloseTo(0.428571, 6);
    expect(plain.standardError ** 2).toBeCloseTo(0.0028849, 7);
    expect(plain.standardErrorAtChance ** 2).toBeCloseTo(0.0030816, 7);
    const weighted = valueOf(weightedKappa(table, agreement_weights));
    expect(weighted.kappa).toBeCloseTo(0.50707, 6);
    expect(weighted.standardError ** 2).toBeCloseTo(0.0032483, 7);
    expect(weighted.standardErrorAtChance ** 2).toBeCloseTo(0.0042688, 7);
    // Recomputed only.
    expect(valueOf(weightedKappa(table, 'linear')).kappa).toBeCloseTo(0.492308, 6);
    expect(valueOf(weightedKappa(table, 'quadratic')).kappa).toBeCloseTo(0.566667, 6);
  });

  test('gives the errors, interval and z of a printed three by three table', () => {
    // A statistics package's printout quoted in another package's tests (seen); recomputed.
    const { table } = data.sas3x3;
    const plain = valueOf(weightedKappa(table, 'none'));
    expect(plain.kappa).toBeCloseTo(0.4842, 4);
    expect(plain.standardError).toBeCloseTo(0.138, 4);
    expect(plain.low).toBeCloseTo(0.2137, 4);
    expect(plain.high).toBeCloseTo(0.7547, 4);
    expect(plain.standardErrorAtChance).toBeCloseTo(0.1484, 4);
    expect(valueOf(plain.test).z).toBeCloseTo(3.2626, 4);
    const linear = valueOf(weightedKappa(table, 'linear'));
    expect(linear.kappa).toBeCloseTo(0.4701, 4);
    expect(linear.standardError).toBeCloseTo(0.1457, 4);
    expect(linear.low).toBeCloseTo(0.1845, 4);
    expect(linear.high).toBeCloseTo(0.7558, 4);
    expect(linear.standardErrorAtChance).toBeCloseTo(0.1426, 4);
    expect(valueOf(linear.test).z).toBeCloseTo(3.2971, 4);
  });

  test('gives the same from pairs as from their table', () => {
    const pairs: [number, number][] = data.sas3x3.table.flatMap((row, first) =>
      row.flatMap((count, second) => Array.from({ length: count }, (): [number, number] => [first, second])),
    );
    expect(pairTable(pairs, [0, 1, 2])).toEqual(data.sas3x3.table);
  });
});

describe("Fleiss' kappa", () => {
  // Fleiss 1971, Psychological Bulletin 76:378-382: 30 patients, 6 raters. Data seen in two packages; the printed .430 is
  // a citation from memory, recomputed.
  const answer = valueOf(fleissKappa(data.fleiss1971.counts));

  test('gives the printed kappa, agreement and chance', () => {
    expect(answer.observed).toBeCloseTo(0.555556, 6);
    expect(answer.expected).toBeCloseTo(0.219938, 6);
    expect(answer.kappa).toBeCloseTo(0.430245, 6);
  });

  test('gives the kappa of each category', () => {
    expect(answer.byCategory.map((one) => Math.round(valueOf(one) * 1000) / 1000)).toEqual(
      data.fleiss1971.kappa_by_category,
    );
  });
});

describe("Krippendorff's alpha", () => {
  // Krippendorff 2011, Computing Krippendorff's Alpha-Reliability. Data seen in a package's manual; printed .743, .815,
  // .849 are a citation from memory, recomputed twice.
  test.each([
    ['nominal', 0.743421],
    ['ordinal', 0.815388],
    ['interval', 0.849107],
  ] as const)('of four observers with gaps, %s, is %f', (metric, expected) => {
    const answer = valueOf(krippendorffAlpha(data.krippendorff2011.observers_by_unit, metric));
    expect(answer.alpha).toBeCloseTo(expected, 6);
    expect(answer.pairable).toBe(40);
  });
});

describe('the six intraclass correlations', () => {
  // Shrout & Fleiss 1979, Psychological Bulletin 86:420-428, Tables 2 to 4. Data seen in a package's manual; the printed
  // .17 .29 .71 .44 .62 .91 are a citation from memory, recomputed with two packages.
  const answer = valueOf(intraclass(data.shroutFleiss1979.targets_by_judge));

  test('come from the printed mean squares', () => {
    expect(answer.meanSquares.betweenTargets).toBeCloseTo(11.241667, 6);
    expect(answer.meanSquares.withinTargets).toBeCloseTo(6.263889, 6);
    expect(answer.meanSquares.betweenJudges).toBeCloseTo(32.486111, 6);
    expect(answer.meanSquares.error).toBeCloseTo(1.019444, 6);
  });

  test('are the printed ones', () => {
    const { oneWay, agreement, consistency } = answer;
    const forms = [oneWay.single, agreement.single, consistency.single, oneWay.mean, agreement.mean, consistency.mean];
    const wanted = [0.165742, 0.289764, 0.714841, 0.442797, 0.620051, 0.909316];
    for (const [at, form] of forms.entries()) expect(valueOf(form).icc).toBeCloseTo(wanted[at] ?? NaN, 6);
  });

  test('carry F and intervals', () => {
    expect(valueOf(answer.oneWay.single).f).toBeCloseTo(1.794678, 6);
    expect(valueOf(answer.consistency.single).f).toBeCloseTo(11.027248, 6);
    const ends = (form: typeof answer.oneWay.single) => [valueOf(form).low, valueOf(form).high];
    close(ends(answer.oneWay.single), data.shroutFleiss1979.ci95.ICC11);
    close(ends(answer.agreement.single), data.shroutFleiss1979.ci95.ICC21);
    close(ends(answer.consistency.single), data.shroutFleiss1979.ci95.ICC31);
  });

  test('leave judge effects that add up to nothing, and consistency unmoved when they are taken out', () => {
    // Recomputed; the table is the printed one.
    const table = data.shroutFleiss1979.targets_by_judge;
    const values = table.flatMap((row, item) =>
      row.map((value, judge) => ({ item: `target ${item}`, evaluator: `judge ${judge}`, value })),
    );
    const [group] = valueOf(leniency(values));
    const shift = group?.shift ?? [];
    for (const [at, wanted] of data.shroutFleiss1979.judge_effects.entries()) expect(shift[at]).toBeCloseTo(wanted, 6);
    const centred = table.map((row) => row.map((value, judge) => value - (shift[judge] ?? 0)));
    const after = valueOf(intraclass(centred));
    expect(valueOf(after.consistency.single).icc).toBeCloseTo(0.714841, 6);
    expect(valueOf(after.agreement.single).icc).toBeCloseTo(0.75051, 6);
  });
});

describe("Kendall's W", () => {
  test('of three executives and six applicants is the printed .16', () => {
    // Siegel 1956, Nonparametric Statistics, a citation from memory; recomputed.
    const answer = valueOf(kendallsW(data.siegel1956W.ranks));
    expect(answer.rankSums).toEqual(data.siegel1956W.Rj);
    expect(answer.w).toBeCloseTo(0.161905, 6);
    expect(answer.meanSpearman).toBeCloseTo(-0.257143, 6);
  });
});
