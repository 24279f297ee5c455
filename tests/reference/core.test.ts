/**
 * The scoring core against numpy and scipy, from answers that scripts/reference-core.py wrote; run that script again to
 * renew them. The class posterior there is written anew from docs/method.md, not translated from this code.
 */
import { describe, expect, test } from 'vitest';
import { intraclass } from '../../src/core/agreement/intraclass-correlation.ts';
import { cliffsDelta } from '../../src/core/comparison/cliffs-delta.ts';
import { matchCarries, matchCosts } from '../../src/core/comparison/match-carries.ts';
import { welch } from '../../src/core/comparison/welch.ts';
import { chanceAtLeast, tReach } from '../../src/core/grades/grade.ts';
import { gradeClass } from '../../src/core/grades/grade-class.ts';
import type { GradeMark } from '../../src/core/grades/grade-mark.ts';
import { plainRubric } from '../core/grades/coverage.ts';
import { valueOf } from '../value-of.ts';
import reference from '../published/data/reference-core.json' with { type: 'json' };

test.each(reference.t.cdf)('the chance under t with $df degrees at $x is that of scipy', ({ df, x, cdf }) => {
  expect(chanceAtLeast(0, x, 1, df)).toBeCloseTo(cdf, 10);
});

test.each(reference.t.reach)('the reach of t with $df degrees is that of scipy', ({ df, reach }) => {
  expect(tReach(0.95)(df) / reach).toBeCloseTo(1, 9);
});

test.each(reference.welch)("Welch's difference is that of scipy, df $df", (one) => {
  const answer = valueOf(welch(one.first, one.second));
  expect(answer.t).toBeCloseTo(one.t, 9);
  expect(answer.df).toBeCloseTo(one.df, 8);
  expect(answer.p).toBeCloseTo(one.p, 9);
  expect(answer.low).toBeCloseTo(one.low, 8);
  expect(answer.high).toBeCloseTo(one.high, 8);
});

test.each(reference.cliff)('the chance of the better mark is the U of scipy: $superiority', (one) => {
  expect(valueOf(cliffsDelta(one.first, one.second)).superiority).toBeCloseTo(one.superiority, 12);
});

test.each(reference.intraclass)('the intraclass correlation is that of numpy and scipy: $consistency', (one) => {
  const answer = valueOf(intraclass(one.table));
  expect(valueOf(answer.oneWay.single).icc).toBeCloseTo(one.oneWay, 10);
  const form = valueOf(answer.consistency.single);
  expect(form.icc).toBeCloseTo(one.consistency, 10);
  expect(form.low).toBeCloseTo(one.low, 8);
  expect(form.high).toBeCloseTo(one.high, 8);
  expect(form.p).toBeCloseTo(one.p, 9);
});

const carries = (name: string, spots: readonly number[]) =>
  spots.map((spot, at) => ({ id: `${name}${at}`, down: 1, toGo: 10, spot, gap: 'A', box: 7, direction: 'left' }));

test.each(reference.assignment)('$pairs pairs of carries cost what scipy finds', (one) => {
  const answer = matchCarries(carries('a', one.first), carries('b', one.second), { ...matchCosts, caliper: 0.5 });
  expect(answer.known ? answer.value.pairs.length : 0).toBe(one.pairs);
  expect(answer.known ? answer.value.cost : 0).toBeCloseTo(one.cost, 9);
});

describe('the posterior of a class', () => {
  const { marks, grade, sd, low, chance, ...pooled } = reference.posterior;
  const clearness = ['clear', 'partial', 'obscured'] as const;
  const { runners, pooled: ours } = gradeClass(
    marks.map(([runner, game, carry, view, value]): GradeMark => ({
      runner: `runner ${runner}`,
      game: `game ${game}`,
      carry: `carry ${carry}`,
      evaluator: 'one',
      trait: 'press',
      value: value ?? 0,
      clearness: clearness[view ?? 0] ?? 'clear',
    })),
    plainRubric(['press']),
  );

  test('pools the same spreads', () => {
    expect(ours.traits['press']?.within).toBeCloseTo(pooled.within, 9);
    expect(ours.traits['press']?.betweenGames).toBeCloseTo(pooled.betweenGames, 9);
    expect(ours.traits['press']?.prior.variance).toBeCloseTo(pooled.betweenRunners, 9);
  });

  test.each(grade.map((wanted, at) => ({ at, wanted })))('gives runner $at the grade $wanted', ({ at, wanted }) => {
    const answer = valueOf(runners[`runner ${at}`]?.traits['press']);
    expect(answer.grade).toBeCloseTo(wanted, 9);
    expect(answer.sd).toBeCloseTo(sd[at] ?? NaN, 9);
    expect(answer.low).toBeCloseTo(low[at] ?? NaN, 8);
    expect(answer.chance['bar']).toBeCloseTo(chance[at] ?? NaN, 9);
  });
});
