import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { rateDifference, rateOf, smallBelow, successRate } from '../../../src/core/plays/success-rate.ts';
import { classicRule, collegeRule, ownRule, type SuccessRule } from '../../../src/core/plays/success-rules.ts';
import { isSuccess, yardsNeeded } from '../../../src/core/plays/success.ts';
import { situations } from './situations.ts';

const rules = fc.oneof(
  fc.constantFrom(classicRule, collegeRule),
  fc.tuple(fc.nat(100), fc.nat(100), fc.nat(100), fc.nat(100)).map((percents): SuccessRule => ownRule('own', percents)),
);

describe('success', () => {
  test('asks for the smallest whole yard that reaches the share, and never past the goal line', () => {
    fc.assert(
      fc.property(situations, rules, (situation, rule) => {
        const need = yardsNeeded(situation, rule);
        const share = rule.shares[situation.down - 1] ?? { part: 1, whole: 1 };
        expect(Number.isInteger(need)).toBe(true);
        expect(need).toBeGreaterThanOrEqual(0);
        expect(need).toBeLessThanOrEqual(situation.yardsToGoal);
        expect(need * share.whole).toBeGreaterThanOrEqual(share.part * situation.toGo);
        if (need > 0) expect((need - 1) * share.whole).toBeLessThan(share.part * situation.toGo);
      }),
    );
  });

  test('never turns to failure as the gain grows, and a touchdown is one', () => {
    fc.assert(
      fc.property(situations, rules, fc.integer({ min: -20, max: 98 }), (situation, rule, short) => {
        const gain = Math.min(short, situation.yardsToGoal - 1);
        if (isSuccess({ situation, gain }, rule)) expect(isSuccess({ situation, gain: gain + 1 }, rule)).toBe(true);
        expect(isSuccess({ situation, gain: situation.yardsToGoal }, rule)).toBe(true);
      }),
    );
  });

  test('reads thirds as thirds: a third of 9 is 3, of 10 is 4', () => {
    const third: SuccessRule = {
      name: 'thirds',
      shares: [{ part: 1, whole: 3 }, ...classicRule.shares.slice(1)] as never,
    };
    expect(yardsNeeded({ down: 1, toGo: 9, yardsToGoal: 50 }, third)).toBe(3);
    expect(yardsNeeded({ down: 1, toGo: 10, yardsToGoal: 50 }, third)).toBe(4);
  });

  test('refuses gains past the goal line, broken yards and rules that are no shares', () => {
    const situation = Object.freeze({ down: 1, toGo: 10, yardsToGoal: 20 } as const);
    for (const gain of [21, 0.5, NaN, Infinity, -111]) {
      expect(() => isSuccess({ situation, gain }, classicRule)).toThrow(/a gain wants whole yards up to 20/);
    }
    expect(() => ownRule('broken', [40, 60, 100, 101])).toThrow(/wants whole numbers/);
    expect(() => ownRule('broken', [40.5, 60, 100, 100])).toThrow(/wants whole numbers/);
  });
});

describe('rates of success', () => {
  test('hold the share inside the interval, which narrows with more carries', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 400 }), fc.nat(400), (n, some) => {
        const hits = some % (n + 1);
        const one = rateOf({ hits, n });
        const ten = rateOf({ hits: hits * 10, n: n * 10 });
        if (!one.known || !ten.known) throw new Error('a rate of carries must be known');
        expect(one.value.low).toBeLessThanOrEqual(one.value.rate);
        expect(one.value.high).toBeGreaterThanOrEqual(one.value.rate);
        expect(one.value.low).toBeGreaterThanOrEqual(0);
        expect(one.value.high).toBeLessThanOrEqual(1);
        expect(ten.value.high - ten.value.low).toBeLessThan(one.value.high - one.value.low);
        expect(one.value.small).toBe(n < smallBelow);
      }),
    );
  });

  test('say why there is none without carries', () => {
    expect(successRate([], classicRule)).toMatchObject({ known: false, because: 'no carries' });
    expect(rateDifference({ hits: 0, n: 0 }, { hits: 1, n: 2 })).toMatchObject({ known: false, because: 'no carries' });
  });

  test('differ by minus as much the other way round', () => {
    const counts = fc
      .tuple(fc.integer({ min: 1, max: 60 }), fc.nat(60))
      .map(([n, some]) => ({ hits: some % (n + 1), n }));
    fc.assert(
      fc.property(counts, counts, (a, b) => {
        const one = rateDifference(a, b);
        const other = rateDifference(b, a);
        if (!one.known || !other.known) throw new Error('a difference of carries must be known');
        expect(one.value.difference).toBeCloseTo(-other.value.difference, 12);
        expect(one.value.low).toBeCloseTo(-other.value.high, 12);
        expect(one.value.low).toBeLessThanOrEqual(one.value.difference);
        expect(one.value.high).toBeGreaterThanOrEqual(one.value.difference);
      }),
    );
  });
});
