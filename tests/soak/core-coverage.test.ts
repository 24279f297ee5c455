/** Coverage of 95 % intervals over 2,000 drawn worlds each; prints what it measured, for docs/method.md. */
import { describe, expect, test } from 'vitest';
import { newcombe } from '../../src/core/intervals/newcombe.ts';
import { wilson } from '../../src/core/intervals/wilson.ts';
import { welch } from '../../src/core/comparison/welch.ts';
import { randomFrom } from '../../src/core/random.ts';
import { type Coverage, gradeCoverage, intraclassCoverage, shareHeld } from '../core/grades/coverage.ts';
import { type World, world } from '../core/grades/drawn-class.ts';
import { valueOf } from '../value-of.ts';

const worlds = 2000;

function told(what: string, coverage: Coverage): number {
  const share = shareHeld(coverage);
  console.log(`${what}: ${(100 * share).toFixed(2)} % of ${coverage.asked}`);
  return share;
}

function inside(share: number): void {
  expect(share).toBeGreaterThanOrEqual(0.93);
  expect(share).toBeLessThanOrEqual(0.97);
}

describe('grades of twenty runners drawn from a class', () => {
  test.each([
    [2, 2],
    [3, 3],
    [5, 5],
    [10, 10],
    [2, 10],
  ])('with %d to %d games each', (fewestGames, mostGames) => {
    const drawn = { ...world, fewestGames, mostGames };
    inside(told(`grade, ${fewestGames} to ${mostGames} games`, gradeCoverage(worlds, randomFrom(101), drawn).trait));
  });

  test.each([0.2, 0.3])('who are only %f apart', (betweenRunners) => {
    inside(
      told(
        `grade, runners ${betweenRunners} apart`,
        gradeCoverage(worlds, randomFrom(102), { ...world, betweenRunners }).trait,
      ),
    );
  });

  test('overall, over six traits that lean together', () => {
    const { trait, overall } = gradeCoverage(worlds / 2, randomFrom(103), {
      ...world,
      traits: ['press', 'tempo', 'crease', 'steps', 'cut', 'risk'],
      lean: { runner: 0.5, game: 0.4, carry: 0.25 },
      shown: 0.5,
    });
    inside(told('trait of six', trait));
    inside(told('overall of six', overall));
  });
});

test('the intraclass correlations of twenty targets by four judges', () => {
  for (const [form, coverage] of Object.entries(intraclassCoverage(20_000, randomFrom(104), 20, 4))) {
    inside(told(`intraclass, ${form}`, coverage));
  }
});

describe('success and delta', () => {
  test('success of 20 to 200 carries, averaged over rates of .3 to .7', () => {
    const random = randomFrom(105);
    const coverage = { held: 0, asked: 0 };
    const difference = { held: 0, asked: 0 };
    const tries = (rate: number, n: number) => {
      let hits = 0;
      for (let at = 0; at < n; at += 1) if (random.uniform() < rate) hits += 1;
      return { hits, n };
    };
    for (let made = 0; made < 20 * worlds; made += 1) {
      const rates = [0.3 + 0.4 * random.uniform(), 0.3 + 0.4 * random.uniform()] as const;
      const first = tries(rates[0], 20 + random.below(181));
      const second = tries(rates[1], 20 + random.below(181));
      const own = valueOf(wilson(first));
      coverage.asked += 1;
      if (own.low <= rates[0] && rates[0] <= own.high) coverage.held += 1;
      const both = valueOf(newcombe(first, second));
      difference.asked += 1;
      if (both.low <= rates[0] - rates[1] && rates[0] - rates[1] <= both.high) difference.held += 1;
    }
    inside(told('success', coverage));
    inside(told('difference of success', difference));
  });

  test("difference of two runners' delta, gains as skewed as carries are", () => {
    const random = randomFrom(106);
    const coverage = { held: 0, asked: 0 };
    // A shifted gamma of sd 6.2 and skewness 2: about what a carry's gain over expected looks like.
    const deltas = (mean: number, n: number) => Array.from({ length: n }, () => mean + 6.2 * (random.gamma(1) - 1));
    for (let made = 0; made < 5 * worlds; made += 1) {
      const gap = random.normal();
      const answer = valueOf(welch(deltas(gap, 40 + random.below(160)), deltas(0, 40 + random.below(160))));
      coverage.asked += 1;
      if (answer.low <= gap && gap <= answer.high) coverage.held += 1;
    }
    inside(told('difference of delta', coverage));
  });
});

describe('where the assumptions do not hold', () => {
  const odd: readonly (readonly [string, Partial<World>])[] = [
    ['marks so wide (.8) that the ends of the scale cut them', { within: 0.8 }],
    ['a class in two groups', { law: 'two groups' }],
    ['a class with long tails', { law: 'long tails' }],
    ['a class at the top of the scale', { centre: 4.5 }],
    ['five runners', { runners: 5 }],
    ['four runners, so everything of the class assumed', { runners: 4 }],
    ['three runners of a class that is not at 3', { runners: 3, centre: 3.8 }],
    ['runners not apart at all', { betweenRunners: 0.02 }],
  ];
  test.each(odd)('%s', (what, change) => {
    const share = told(what, gradeCoverage(worlds, randomFrom(107), { ...world, ...change }).trait);
    // Not the promise of 93 to 97: a floor below which docs/method.md would have to say more than it does.
    expect(share).toBeGreaterThan(0.5);
  });
});
