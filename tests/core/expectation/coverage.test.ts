import { expect, test } from 'vitest';
import { randomFrom } from '../../../src/core/random.ts';
import { coverage } from './simulated-runners.ts';

test('intervals of success and delta hold the true value of 93 to 97 runners in a hundred, averaged over a class', () => {
  const { success, delta } = coverage(400, randomFrom(1));
  expect(success).toBeGreaterThan(0.93);
  expect(success).toBeLessThan(0.97);
  expect(delta).toBeGreaterThan(0.93);
  expect(delta).toBeLessThan(0.97);
});

test('they hold it less often when games differ around the runner, as docs/method.md says', () => {
  const { success, delta } = coverage(400, randomFrom(1), 0.2);
  expect(success).toBeGreaterThan(0.93);
  expect(success).toBeLessThan(0.952);
  expect(delta).toBeGreaterThan(0.89);
  expect(delta).toBeLessThan(0.93);
});
