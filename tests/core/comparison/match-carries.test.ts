import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type CarrySituation, matchCarries, matchCosts, pairCost } from '../../../src/core/comparison/match-carries.ts';
import { valueOf } from '../../value-of.ts';

const situation = fc.record({
  down: fc.option(fc.integer({ min: 1, max: 4 })),
  toGo: fc.option(fc.integer({ min: 1, max: 12 })),
  spot: fc.option(fc.integer({ min: 1, max: 99 })),
  gap: fc.option(fc.constantFrom('A', 'B', 'C')),
  box: fc.option(fc.integer({ min: 5, max: 9 })),
  direction: fc.option(fc.constantFrom('left', 'right')),
});
const side = (name: string, most: number) =>
  fc
    .array(situation, { minLength: 1, maxLength: most })
    .map((rows): CarrySituation[] => rows.map((row, at) => ({ id: `${name}${at}`, ...row })));

/** The most pairs, and then the least cost, by trying everything. */
function bestByHand(first: readonly CarrySituation[], second: readonly CarrySituation[]): readonly [number, number] {
  const [head, ...rest] = first;
  if (head === undefined) return [0, 0];
  let best = bestByHand(rest, second);
  for (const other of second) {
    const cost = pairCost(head, other);
    if (cost > matchCosts.caliper + 1e-9) continue;
    const [pairs, total] = bestByHand(
      rest,
      second.filter((one) => one !== other),
    );
    if (pairs + 1 > best[0] || (pairs + 1 === best[0] && total + cost < best[1])) best = [pairs + 1, total + cost];
  }
  return best;
}

describe('pairs of carries', () => {
  test('are as many and as cheap as trying everything finds', () => {
    fc.assert(
      fc.property(side('a', 5), side('b', 5), (first, second) => {
        const [pairs, cost] = bestByHand(first, second);
        const answer = matchCarries(Object.freeze(first), Object.freeze(second));
        expect(answer.known).toBe(pairs > 0);
        if (!answer.known) return;
        expect(answer.value.pairs).toHaveLength(pairs);
        expect(answer.value.cost).toBeCloseTo(cost, 9);
      }),
      { numRuns: 300 },
    );
  });

  test('use each carry once, keep to the caliper, and do not change with the order or the side', () => {
    fc.assert(
      fc.property(side('a', 30), side('b', 20), (first, second) => {
        const answer = matchCarries(first, second);
        if (!answer.known) return;
        const { pairs, cost } = answer.value;
        expect(new Set(pairs.map((pair) => pair.first)).size).toBe(pairs.length);
        expect(new Set(pairs.map((pair) => pair.second)).size).toBe(pairs.length);
        expect(Math.max(...pairs.map((pair) => pair.cost))).toBeLessThanOrEqual(matchCosts.caliper + 1e-9);
        expect(matchCarries(first.toReversed(), second.toReversed())).toEqual(answer);
        const turned = valueOf(matchCarries(second, first));
        expect(turned.pairs).toHaveLength(pairs.length);
        expect(turned.cost).toBeCloseTo(cost, 9);
      }),
      { numRuns: 60 },
    );
  });

  test('cost nothing in one and the same situation, and more the further apart', () => {
    const carry = { id: 'a', down: 2, toGo: 5, spot: 40, gap: 'B', box: 7, direction: 'left' };
    expect(pairCost(carry, { ...carry, id: 'b' })).toBe(0);
    expect(pairCost(carry, { ...carry, toGo: 9 })).toBe(1);
    expect(pairCost(carry, { ...carry, gap: null })).toBe(matchCosts.unknown);
  });

  test('have a reason when none is close enough or a side is empty', () => {
    const carry = { id: 'a', down: 1, toGo: 10, spot: 20, gap: 'A', box: 7, direction: 'left' };
    const far = { id: 'b', down: 4, toGo: 1, spot: 99, gap: 'C', box: 9, direction: 'right' };
    expect(matchCarries([carry], [far])).toMatchObject({ known: false, because: 'no pair' });
    expect(matchCarries([], [far])).toMatchObject({ known: false, because: 'no pair' });
    expect(() => matchCarries([carry], [far], { ...matchCosts, gap: -1 })).toThrow(RangeError);
  });
});
