/** Coverage of the intervals of success and delta over 2,000 worlds of 20 runners. */
import { expect, test } from 'vitest';
import { randomFrom } from '../../src/core/random.ts';
import { coverage } from '../core/expectation/simulated-runners.ts';

test('intervals of success and delta cover 93 to 97 percent over 2,000 worlds', { timeout: 600_000 }, () => {
  const { success, delta } = coverage(2000, randomFrom(2));
  for (const share of [success, delta]) {
    expect(share).toBeGreaterThan(0.93);
    expect(share).toBeLessThan(0.97);
  }
});
