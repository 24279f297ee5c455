/** Weights from rankings, and a weighted table with its order, beside published examples. */
import { describe, expect, test } from 'vitest';
import { drawWeights } from '../../src/core/board/dirichlet.ts';
import { placesOf, scoreDraws } from '../../src/core/board/places.ts';
import { swapPoints } from '../../src/core/board/swap-points.ts';
import { randomFrom } from '../../src/core/random.ts';
import { normaliseWeights, rankOrderCentroid, rankSum } from '../../src/core/rubric/weights.ts';
import data from './data/weights.json' with { type: 'json' };
import { valueOf } from '../value-of.ts';

test.each(Object.entries(data.roc))(
  'rank-order centroid weights of %s things are the published ones',
  (count, wanted) => {
    // Edwards & Barron 1994, Organizational Behavior and Human Decision Processes 60:306-325: formula and four things
    // (.52, .27, .15, .06) seen; the rest recomputed.
    const weights = valueOf(rankOrderCentroid(Number(count)));
    for (const [at, weight] of weights.entries()) expect(weight).toBeCloseTo(wanted[at] ?? NaN, 6);
  },
);

test.each(Object.entries(data.rank_sum))('rank-sum weights of %s things are the recomputed ones', (count, wanted) => {
  const weights = valueOf(rankSum(Number(count)));
  for (const [at, weight] of weights.entries()) expect(weight).toBeCloseTo(wanted[at] ?? NaN, 6);
});

test('weights drawn evenly and sorted have the rank-order centroid as their mean', () => {
  // Exact in theory (Edwards & Barron 1994); 40,000 draws here.
  const draws = 40_000;
  const drawn = drawWeights([0.25, 0.25, 0.25, 0.25], 4, draws, randomFrom(7));
  const mean = [0, 0, 0, 0];
  for (let draw = 0; draw < draws; draw += 1) {
    const sorted = [...drawn.subarray(draw * 4, draw * 4 + 4)].sort((a, b) => b - a);
    for (const [at, weight] of sorted.entries()) mean[at] = (mean[at] ?? 0) + weight / draws;
  }
  for (const [at, wanted] of valueOf(rankOrderCentroid(4)).entries()) {
    expect(Math.abs((mean[at] ?? 0) - wanted)).toBeLessThan(0.003);
  }
});

const total = (row: readonly number[], shares: readonly number[]) =>
  row.reduce((sum, score, at) => sum + score * (shares[at] ?? 0), 0);

describe('the choice of an office', () => {
  // Goodwin & Wright, Decision Analysis for Management Judgment, the office location example: all seven totals
  // recomputed, citation from memory.
  const names = Object.keys(data.goodwinWright.offices);
  const table = Object.values(data.goodwinWright.offices);
  const weights = valueOf(normaliseWeights(data.goodwinWright.weights));

  test('has the printed totals', () => {
    const wanted = Object.values(data.goodwinWright.scores);
    for (const [at, row] of table.entries()) {
      // The rank of the totals is as printed; they are given to one decimal.
      expect(total(row, weights)).toBeCloseTo(wanted[at] ?? NaN, 1);
    }
  });

  test('swaps its first place exactly where the weights say', () => {
    for (const swap of swapPoints(table, weights)) {
      if (!swap.known) continue;
      const { weight, to, first, challenger, change } = swap.value;
      expect(names[first]).toBe('A');
      const moved = (value: number) =>
        weights.map((share, at) => (at === weight ? value : (share * (1 - value)) / (1 - (weights[weight] ?? 0))));
      const level = moved(to);
      expect(total(table[first] ?? [], level)).toBeCloseTo(total(table[challenger] ?? [], level), 9);
      const beyond = moved(Math.min(1, Math.max(0, to + Math.sign(change) * 1e-6)));
      const totals = table.map((row) => total(row, beyond));
      if (to > 0 && to < 1) expect(totals.indexOf(Math.max(...totals))).toBe(challenger);
    }
  });

  test('keeps its first place under weights that are not sure', () => {
    // One draw of certain scores, read with 4,000 draws of weights: A stays first in nearly all of them.
    const draws = 4000;
    const scores = Float32Array.from(
      { length: draws * 42 },
      (_, at) => (table[Math.floor(at / 6) % 7] ?? [])[at % 6] ?? 0,
    );
    const places = placesOf(
      scoreDraws(
        { runners: names, traits: data.goodwinWright.attributes, draws, values: scores },
        drawWeights(weights, 40, draws, randomFrom(3)),
      ),
    );
    expect(places.chance[0]).toBeGreaterThan(0.9);
    expect(places.chance[5 * 7 + 6]).toBeGreaterThan(0.9);
  });
});
