/** Sections 5 to 7 of docs/method.md against the code. */
import { describe, expect, test } from 'vitest';
import { drift } from '../../src/core/agreement/drift.ts';
import { halfMarkShares } from '../../src/core/agreement/half-marks.ts';
import { intraclass } from '../../src/core/agreement/intraclass-correlation.ts';
import { krippendorffAlpha } from '../../src/core/agreement/krippendorff-alpha.ts';
import { leniency } from '../../src/core/agreement/leniency.ts';
import { markCategories, pairTable, weightedKappa } from '../../src/core/agreement/weighted-kappa.ts';
import { placesOf, scoreDraws } from '../../src/core/board/places.ts';
import { swapPoints } from '../../src/core/board/swap-points.ts';
import { drawTraits } from '../../src/core/board/trait-draws.ts';
import { watchNext } from '../../src/core/board/watch-next.ts';
import { cliffsDelta } from '../../src/core/comparison/cliffs-delta.ts';
import { differenceOf } from '../../src/core/comparison/compare-grades.ts';
import { pairCost } from '../../src/core/comparison/match-carries.ts';
import { welch } from '../../src/core/comparison/welch.ts';
import { assumedPooled, gradeRunner } from '../../src/core/grades/grade-class.ts';
import { tReach } from '../../src/core/grades/grade.ts';
import type { GradeMark, MarkClearness } from '../../src/core/grades/grade-mark.ts';
import { normalPrior, shrunken } from '../../src/core/grades/normal-prior.ts';
import { randomFrom } from '../../src/core/random.ts';
import { defaultRubric } from '../../src/core/rubric/default-rubric.ts';
import { rankOrderCentroid } from '../../src/core/rubric/weights.ts';
import { valueOf } from '../value-of.ts';
import { asPrinted, workedBlocks, type WorkedFigures } from './worked-blocks.ts';

const mark = (game: string, carry: number, value: number, clearness: MarkClearness, trait = 'press'): GradeMark => ({
  runner: 'his',
  game,
  carry: String(carry),
  evaluator: 'one',
  trait,
  value,
  clearness,
});
const games: readonly (readonly [MarkClearness, readonly number[]])[][] = [
  [['clear', [3, 4, 3.5, 4, 3, 4, 3.5, 4]]],
  [
    ['clear', [3, 3, 3.5, 3]],
    ['partial', [3, 4]],
  ],
  [
    ['clear', [4, 4, 4.5]],
    ['obscured', [5, 3]],
  ],
];
const press = games.flatMap((game, at) =>
  game
    .flatMap(([clearness, values]) => values.map((value) => [clearness, value] as const))
    .map(([clearness, value], carry) => mark(`game ${at}`, carry, value, clearness)),
);
const three = press.flatMap((one) =>
  ['press', 'tempo', 'crease'].map((trait) => ({ ...one, trait, value: trait === 'tempo' ? 3 : one.value })),
);
const first = [3, 3, 2, 4, 3.5, 2, 3, 5, 4, 3, 2.5, 3];
const second = [3, 3.5, 2, 4, 4, 3, 3, 5, 4.5, 3, 2, 4];
const pairs = first.map((value, at) => [value, second[at] ?? 0] as const);

/** A marked trait's sd from so many marks over four games, the class assumed. */
const sdOf = (count: number, clearness: MarkClearness) =>
  valueOf(
    gradeRunner(
      Array.from({ length: count }, (_, at) => mark(`game ${at % 4}`, at, 4, clearness)),
      assumedPooled,
      defaultRubric,
    ).traits['press'],
  ).sd;

const jointOf = (mean: number, sd: number) => ({
  traits: ['overall'],
  mean: [mean],
  covariance: [[sd * sd]],
  df: [30],
  marked: [true],
});

const worked: Readonly<Record<string, () => WorkedFigures>> = {
  'grade-press': () => {
    const grade = valueOf(gradeRunner(press, assumedPooled, defaultRubric).traits['press']);
    const own = gradeRunner(press, assumedPooled, defaultRubric).joint;
    return {
      information: grade.information,
      'effective marks': grade.effective,
      grade: grade.grade,
      sd: Math.sqrt(own.covariance[0]?.[0] ?? 0),
      low: grade.low,
      high: grade.high,
      'chance of 3.4': grade.chance['professional'] ?? 0,
      'chance of 2.9': grade.chance['college'] ?? 0,
    };
  },
  'grade-obscured': () => {
    return { 'sd of twelve clear': sdOf(12, 'clear'), 'sd of forty obscured': sdOf(40, 'obscured') };
  },
  'grade-class': () => {
    const estimates = [2.4, 2.7, 2.9, 3, 3.1, 3.3, 3.8];
    const prior = valueOf(
      normalPrior(
        estimates,
        estimates.map(() => 0.05),
      ),
    );
    const best = shrunken(prior, { estimate: 3.8, variance: 0.05 });
    return {
      'class mean': prior.mean,
      'spread between runners, variance': prior.variance,
      B: best.shrink,
      'the best, grade': best.mean,
      'the best, sd': Math.sqrt(best.variance),
      'of that by Morris': prior.morris * best.shrink ** 2 * (3.8 - prior.mean) ** 2,
    };
  },
  'grade-vision': () => {
    const { families, traits } = gradeRunner(three, assumedPooled, defaultRubric);
    const vision = valueOf(families['vision']);
    return {
      press: valueOf(traits['press']).grade,
      tempo: valueOf(traits['tempo']).grade,
      crease: valueOf(traits['crease']).grade,
      vision: vision.grade,
      coverage: vision.coverage,
      sd: vision.sd,
    };
  },
  'grade-ranks': () => {
    const weights = valueOf(rankOrderCentroid(4));
    return Object.fromEntries(['first', 'second', 'third', 'fourth'].map((word, at) => [word, weights[at] ?? 0]));
  },
  'compare-grades': () => {
    const answer = differenceOf(
      { grade: 3.6, sd: 0.2, df: 30, thin: false },
      { grade: 3.3, sd: 0.15, df: 30, thin: false },
    );
    return {
      difference: answer.difference,
      sd: answer.sd,
      df: answer.df,
      low: answer.low,
      high: answer.high,
      chance: answer.chance,
    };
  },
  'compare-marks': () => {
    const delta = valueOf(cliffsDelta(second, first));
    const means = valueOf(welch(second, first));
    return {
      "Cliff's delta": delta.delta,
      low: delta.low,
      high: delta.high,
      'difference of means': means.difference,
      'its t': means.t,
      'its df': means.df,
    };
  },
  'compare-pair': () => {
    const carry = { id: 'his', down: 2, toGo: 7, spot: 34, gap: 'B', box: 7, direction: 'left' };
    return { cost: pairCost(carry, { ...carry, id: 'theirs', toGo: 9, spot: 44, box: 8, direction: 'right' }) };
  },
  'board-swap': () => {
    const swap = valueOf(
      swapPoints(
        [
          [3.8, 3.2],
          [3.4, 3.7],
          [3, 3.9],
        ],
        [0.6, 0.4],
      )[0],
    );
    return { 'weight now': swap.from, 'level at': swap.to, change: swap.change };
  },
  'board-places': () => {
    const runners = [jointOf(3.6, 0.2), jointOf(3.3, 0.15), jointOf(3.2, 0.4)].map((one, at) => ({
      id: `${at}`,
      joint: one,
    }));
    const places = placesOf(scoreDraws(drawTraits(runners, 10_000, randomFrom(1)), [1]));
    return {
      'first, best': places.chance[0] ?? 0,
      'second, best': places.chance[3] ?? 0,
      'third, best': places.chance[6] ?? 0,
      'third, last': places.chance[8] ?? 0,
    };
  },
  'board-watch': () => {
    const other = three.map((one) => ({ ...one, runner: 'other', value: 3.5 }));
    const rubric = { ...defaultRubric, families: defaultRubric.families.slice(0, 1) };
    const rows = valueOf(
      watchNext(
        [
          { runner: 'his', game: 'game 0', carry: 'new' },
          { runner: 'his', game: 'game 9', carry: 'new' },
        ],
        [...three, ...other],
        assumedPooled,
        rubric,
      ),
    );
    const of = (game: string) => rows.find((row) => row.game === game);
    return {
      'a game he has, movement': of('game 0')?.movement ?? 0,
      'a game he has, expected changes of order': of('game 0')?.swaps ?? 0,
      'a new game, movement': of('game 9')?.movement ?? 0,
      'a new game, expected changes of order': of('game 9')?.swaps ?? 0,
    };
  },
  'agree-two': () => {
    const table = pairTable(pairs, markCategories);
    const linear = valueOf(weightedKappa(table, 'linear'));
    const forms = valueOf(intraclass(pairs));
    return {
      'exact kappa': valueOf(weightedKappa(table, 'none')).kappa,
      'linear kappa': linear.kappa,
      'linear kappa, standard error': linear.standardError,
      'quadratic kappa': valueOf(weightedKappa(table, 'quadratic')).kappa,
      'alpha of intervals': valueOf(krippendorffAlpha([first, second], 'interval')).alpha,
      'agreement of one': valueOf(forms.agreement.single).icc,
      'consistency of one': valueOf(forms.consistency.single).icc,
      'consistency of one, low': valueOf(forms.consistency.single).low,
      'consistency of one, high': valueOf(forms.consistency.single).high,
    };
  },
  'agree-leniency': () => {
    const values = pairs.flatMap(([one, other], at) => [
      { item: `${at}`, evaluator: 'first', value: one },
      { item: `${at}`, evaluator: 'second', value: other },
    ]);
    const [group] = valueOf(leniency(values));
    const halves = halfMarkShares(values);
    return {
      'the first': group?.shift[0] ?? 0,
      'the second': group?.shift[1] ?? 0,
      'standard error': Math.sqrt(group?.covariance[0]?.[0] ?? 0),
      "the first's share of halves": valueOf(halves['first']).share,
      "the second's share of halves": valueOf(halves['second']).share,
    };
  },
  'agree-drift': () => {
    const looks = pairs.map(([one, other], at) => ({ first: one, second: other, daysBetween: 14 + 10 * at }));
    const answer = valueOf(drift(looks));
    const slope = valueOf(answer.perMonth);
    return {
      shift: valueOf(answer.shift).value,
      'points a month': slope.value,
      low: slope.low,
      high: slope.high,
      'reach of t': tReach(0.95)(slope.df),
    };
  },
};

describe('the worked examples of sections 5 to 7', () => {
  const blocks = workedBlocks().filter(({ section }) => section >= 5 && section <= 7);

  test('are all known to this test, and all there', () => {
    expect(blocks.map(({ id }) => id).sort()).toEqual(Object.keys(worked).sort());
  });

  test.each(blocks)('$id prints what the code gives', (block) => {
    const figures = worked[block.id]?.() ?? {};
    expect(Object.fromEntries(block.figures)).toEqual(asPrinted(block, figures));
  });
});
