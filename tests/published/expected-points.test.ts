/** Expected points against the surface's own vectors and against published values, for shape. */
import { sampleCorrelation } from 'simple-statistics';
import { describe, expect, test } from 'vitest';
import { expectedPoints } from '../../src/core/expectation/expected-points.ts';
import { pointsAfter } from '../../src/core/expectation/next-state.ts';
import { pointsSurface, surfacePoints } from '../../src/core/expectation/points-surface.ts';
import { situationFrom } from '../../src/core/plays/situation.ts';
import vectors from './data/expected-points-vectors.json' with { type: 'json' };

function firstAndTen(yardsToGoal: number): number {
  const answer = expectedPoints(pointsSurface, { down: 1, toGo: Math.min(10, yardsToGoal), yardsToGoal });
  if (!answer.known) throw new Error(answer.detail);
  return answer.value.points;
}

describe('the surface of expected points', () => {
  test.each(vectors.states)('agrees with its vector at down $down, $togo to go, $ytg to the goal line', (vector) => {
    const points = surfacePoints(pointsSurface, { down: vector.down, toGo: vector.togo, yardsToGoal: vector.ytg });
    expect(Math.abs(points - vector.ep)).toBeLessThanOrEqual(vectors.tolerance);
  });

  test.each(vectors.next_state)('agrees with its vector after $gain on down $down at $ytg', (vector) => {
    const situation = situationFrom({ down: vector.down, toGo: vector.togo, yardsToGoal: vector.ytg });
    if (!situation.known) throw new Error(situation.detail);
    const after = pointsAfter(pointsSurface, situation.value, vector.gain);
    const before = surfacePoints(pointsSurface, situation.value);
    expect(Math.abs(after - vector.after)).toBeLessThanOrEqual(vectors.tolerance);
    expect(Math.abs(after - before - vector.delta)).toBeLessThanOrEqual(vectors.tolerance);
  });
});

describe('expected points beside published values', () => {
  test('have the shape of the first table in print, from a lower-scoring year', () => {
    // Carter & Machol 1971, Operations Research 19:541-544, Table I: professional football of 1969, first and ten at
    // strip midpoints; values seen in the source of a public vignette. Ours are .3 to .9 higher: more is scored now.
    const yardsToGoal = [95, 85, 75, 65, 55, 45, 35, 25, 15, 5];
    const printed = [-1.245, -0.637, 0.236, 0.923, 1.538, 2.392, 3.167, 3.681, 4.572, 6.041];
    const ours = yardsToGoal.map(firstAndTen);
    expect(sampleCorrelation(ours, printed)).toBeGreaterThan(0.995);
    // The last strip is all goal-to-go, where the table mixes first and goal from the 1 to the 9.
    for (const [at, value] of printed.slice(0, 9).entries()) {
      expect((ours[at] ?? 0) - value).toBeGreaterThan(0.25);
      expect((ours[at] ?? 0) - value).toBeLessThan(0.95);
    }
  });

  test('stay within half a point of another model averaged over post-season first downs', () => {
    // Yurko, Ventura & Horowitz 2019, J. Quant. Anal. Sports 15:163-183: their model's own column in open play-by-play,
    // 2009-19, averaged over first and ten outside the last five minutes of a half (recomputed, not a printed table).
    const yardsToGoal = [99, 95, 90, 80, 75, 70, 60, 50, 40, 30, 20, 10, 5, 3, 2, 1];
    const theirs = [
      -1.095, -0.806, -0.426, 0.475, 0.935, 1.394, 2.222, 2.941, 3.53, 4.029, 4.388, 5.089, 5.672, 6.011, 6.234, 6.477,
    ];
    const misses = yardsToGoal.map((yards, at) => Math.abs(firstAndTen(yards) - (theirs[at] ?? 0)));
    expect(Math.max(...misses)).toBeLessThan(0.5);
    expect(misses.reduce((sum, miss) => sum + miss, 0) / misses.length).toBeLessThan(0.2);
  });
});
