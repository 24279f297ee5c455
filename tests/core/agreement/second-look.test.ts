import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { drift, type SecondLook } from '../../../src/core/agreement/drift.ts';
import { secondLookPlan } from '../../../src/core/agreement/second-look-plan.ts';
import { randomFrom } from '../../../src/core/random.ts';
import { valueOf } from '../../value-of.ts';

const day = 86_400_000;
const now = 400 * day;
const carries = Array.from({ length: 60 }, (_, at) => ({
  carry: `c${String(at).padStart(2, '0')}`,
  markedAt: now - at * day,
}));

describe('the plan of a second look', () => {
  test('takes only what was marked fourteen days ago or earlier, each carry once', () => {
    const plan = valueOf(secondLookPlan(Object.freeze(carries), 100, now, randomFrom(3)));
    expect(plan).toHaveLength(46);
    expect(new Set(plan).size).toBe(46);
    expect([...plan].sort()[0]).toBe('c14');
  });

  test('is the same for a seed whatever order carries come in, and another for another seed', () => {
    const plan = valueOf(secondLookPlan(carries, 10, now, randomFrom(3)));
    expect(valueOf(secondLookPlan(carries.toReversed(), 10, now, randomFrom(3)))).toEqual(plan);
    expect(valueOf(secondLookPlan(carries, 10, now, randomFrom(4)))).not.toEqual(plan);
  });

  test('takes every old carry about as often', () => {
    const counts = new Map<string, number>();
    const random = randomFrom(8);
    for (let made = 0; made < 4600; made += 1) {
      for (const carry of valueOf(secondLookPlan(carries, 10, now, random))) {
        counts.set(carry, (counts.get(carry) ?? 0) + 1);
      }
    }
    expect(counts.size).toBe(46);
    // A thousand expected each; the spread of one count is 28.
    for (const count of counts.values()) expect(Math.abs(count - 1000)).toBeLessThan(130);
  });

  test('has a reason when nothing is old enough, and refuses a repeat', () => {
    expect(secondLookPlan(carries.slice(0, 14), 5, now, randomFrom(1))).toMatchObject({
      known: false,
      because: 'nothing old enough',
    });
    expect(() => secondLookPlan([...carries, ...carries.slice(0, 1)], 5, now, randomFrom(1))).toThrow('given once');
    expect(() => secondLookPlan(carries, 0, now, randomFrom(1))).toThrow(RangeError);
  });
});

/** 120 carries marked twice by an evaluator who drifts at a steady pace. */
const looks = (perMonth: number, seed: number): SecondLook[] => {
  const random = randomFrom(seed);
  return Array.from({ length: 120 }, () => {
    const daysBetween = 14 + random.below(120);
    return { first: 3, second: 3 + (perMonth * daysBetween) / 30 + 0.4 * random.normal(), daysBetween };
  });
};

describe('drift', () => {
  test('finds the slope that was drawn, within three of its standard errors', () => {
    for (const perMonth of [-0.2, 0, 0.15]) {
      const slope = valueOf(valueOf(drift(Object.freeze(looks(perMonth, 5)))).perMonth);
      expect(Math.abs(slope.value - perMonth)).toBeLessThan(3 * slope.standardError);
      expect(slope.standardError).toBeLessThan(0.05);
    }
  });

  test('turns its sign with the looks, and does not care for their order', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 1000 }), (seed) => {
        const given = looks(0.1, seed);
        const one = valueOf(drift(given));
        const turned = given.map(({ first, second, daysBetween }) => ({ first: second, second: first, daysBetween }));
        const other = valueOf(drift(turned.toReversed()));
        expect(valueOf(other.perMonth).value).toBeCloseTo(-valueOf(one.perMonth).value, 9);
        expect(valueOf(other.shift).value).toBeCloseTo(-valueOf(one.shift).value, 9);
      }),
      { numRuns: 20 },
    );
  });

  test('has reasons for too few looks, one interval of time and no spread', () => {
    const same = { first: 3, second: 3.5, daysBetween: 20 };
    expect(drift([same, same])).toMatchObject({ known: false, because: 'fewer than three looks' });
    const answer = valueOf(drift([same, same, { ...same, second: 3 }]));
    expect(answer.perMonth).toMatchObject({ known: false, because: 'one interval of time' });
    expect(answer.shift.known).toBe(true);
    expect(valueOf(drift([same, same, same])).shift).toMatchObject({ known: false, because: 'no spread' });
    expect(() => drift([{ ...same, daysBetween: -1 }])).toThrow(RangeError);
  });
});
