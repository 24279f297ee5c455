/** The professional fit beside averages of other seasons' open play-by-play: a check of level and shape, not of digits. */
import { describe, expect, test } from 'vitest';
import { expectedYards } from '../../src/core/expectation/expected-yards.ts';
import { yardsModels } from '../../src/core/expectation/yards-model.ts';

function expectation(down: number, toGo: number, yardsToGoal: number) {
  const answer = expectedYards(yardsModels.professional, { down, toGo, yardsToGoal });
  if (!answer.known) throw new Error(answer.detail);
  return answer.value;
}

describe('the professional fit', () => {
  // Averages of 5,919 post-season runs 2009-2019 from open play-by-play (recomputed, not a printed table): mean, success
  // by the classic rule, n. They mix field positions and we answer at one, so half a yard is allowed beyond chance.
  test.each([
    { name: 'first and ten', down: 1, toGo: 10, ytg: 65, n: 2935, mean: 4.553, sd: 6.409, success: 0.4589 },
    { name: 'second and one', down: 2, toGo: 1, ytg: 50, n: 213, mean: 2.873, sd: 4.949, success: 0.7418 },
    { name: 'third and one', down: 3, toGo: 1, ytg: 50, n: 269, mean: 3.52, sd: 7.586, success: 0.6877 },
    { name: 'goal to go from the 1 or 2', down: 1, toGo: 1, ytg: 1, n: 216, mean: 0.528, sd: 1.065, success: 0.5694 },
  ])(
    'is within half a yard and three standard errors of the post-season average at $name',
    ({ down, toGo, ytg, n, mean, sd, success }) => {
      const got = expectation(down, toGo, ytg);
      expect(Math.abs(got.mean - mean)).toBeLessThan(3 * (sd / Math.sqrt(n)) + 0.5);
      expect(Math.abs(got.chanceOfSuccess - success)).toBeLessThan(3 * Math.sqrt((success * (1 - success)) / n));
    },
  );

  test('agrees on first and ten with a published straight line in yards to go', () => {
    // Eager & Erickson 2023, Football Analytics with Python & R, ch. 3 (chapter text read): 3.21876 + 0.13287 x to go on
    // runs of 2016-22, so 4.54746 on first and ten.
    expect(Math.abs(expectation(1, 10, 75).mean - (3.21876 + 0.13287 * 10))).toBeLessThan(0.25);
  });
});
