/** Success and the line's share against published examples. */
import { describe, expect, test } from 'vitest';
import { lineShare } from '../../src/core/plays/credit.ts';
import { situationFrom } from '../../src/core/plays/situation.ts';
import { classicRule, collegeRule, ownRule, type SuccessRule } from '../../src/core/plays/success-rules.ts';
import { isSuccess, yardsNeeded } from '../../src/core/plays/success.ts';
import { successRate } from '../../src/core/plays/success-rate.ts';

function carry(down: number, toGo: number, gain: number, yardsToGoal = 60) {
  const situation = situationFrom({ down, toGo, yardsToGoal });
  if (!situation.known) throw new Error(situation.detail);
  return { situation: situation.value, gain };
}

describe('success', () => {
  const vectors: readonly (readonly [SuccessRule, number, number, number, boolean])[] = [
    // College rule: a published glossary of college team ratings, as quoted in secondary text.
    [collegeRule, 1, 10, 5, true],
    [collegeRule, 1, 10, 4, false],
    [collegeRule, 2, 5, 4, true],
    [collegeRule, 2, 5, 3, false],
    [collegeRule, 2, 4, 3, true],
    [collegeRule, 3, 3, 3, true],
    [collegeRule, 3, 3, 2, false],
    // Classic rule: Carroll, Palmer & Thorn 1988, The Hidden Game of Football, via a reader of the book; exactly .6.
    [classicRule, 2, 5, 3, true],
    [classicRule, 1, 10, 4, true],
    [classicRule, 1, 10, 3, false],
  ];
  test.each(vectors)('by rule %o: down %i, %i to go, gain %i is %s', (rule, down, toGo, gain, wanted) => {
    expect(isSuccess(carry(down, toGo, gain), rule)).toBe(wanted);
  });

  test('needs no more than the goal line: first and goal at the 5 asks for 2 by the classic rule', () => {
    // Worked in a published article of 2012 (secondary text).
    const situation = situationFrom({ down: 1, toGo: 5, yardsToGoal: 5 });
    if (!situation.known) throw new Error(situation.detail);
    expect(yardsNeeded(situation.value, classicRule)).toBe(2);
  });

  test('gives five of eight on a published drive marked by 50, 70 and 100 percent', () => {
    // A drive of 2024-01-01 printed play by play with its successes; the page then says "six ... 75 %" against its own
    // table, so the table is what is checked.
    const drive = [
      [1, 10, 8, true],
      [2, 2, 4, true],
      [1, 10, 2, false],
      [2, 8, 11, true],
      [1, 10, 20, true],
      [1, 10, 0, false],
      [2, 10, 0, false],
      [3, 10, 38, true],
    ] as const;
    const carries = drive.map(([down, toGo, gain]) => carry(down, toGo, gain));
    expect(carries.map((one) => isSuccess(one, collegeRule))).toEqual(drive.map(([, , , success]) => success));
    const rate = successRate(carries, collegeRule);
    expect(rate.known && [rate.value.hits, rate.value.n, rate.value.rate]).toEqual([5, 8, 0.625]);
  });

  test('is the same by an own rule with the classic percents, for every gain', () => {
    const own = ownRule('ours', [40, 60, 100, 100]);
    for (const down of [1, 2, 3, 4]) {
      for (let toGo = 1; toGo <= 40; toGo += 1) {
        for (let gain = -5; gain <= 45; gain += 1) {
          const one = carry(down, toGo, gain);
          expect(isSuccess(one, own)).toBe(isSuccess(one, classicRule));
        }
      }
    }
  });
});

describe("the line's share", () => {
  // Loss 120 %, 0-4 100 %, 5-10 50 %, 11 and beyond 0, marginal: seen in two published articles.
  test.each([
    [-3, -3.6],
    [-1, -1.2],
    [0, 0],
    [2, 2],
    [4, 4],
    [5, 4.5],
    [7, 5.5],
    [10, 7],
    [11, 7],
    [25, 7],
  ])('of a gain of %i is %d', (gain, share) => {
    expect(lineShare(gain)).toBeCloseTo(share, 12);
  });
});
