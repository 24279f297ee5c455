/** The recovery of known coefficients over many draws: the share within two standard errors is what theory says, .954. */
import { expect, test } from 'vitest';
import { yardsModels } from '../../src/core/expectation/yards-model.ts';
import { recoveryMisses } from '../core/expectation/recovery-misses.ts';

test('forty fits of 200,000 carries each find the coefficients they were drawn with', { timeout: 600_000 }, () => {
  const shares = Array.from({ length: 40 }, (_, seed) => {
    const away = recoveryMisses(yardsModels.college, 200_000, 100 + seed);
    return away.filter((miss) => miss <= 2).length / away.length;
  });
  const mean = shares.reduce((sum, share) => sum + share, 0) / shares.length;
  expect(mean).toBeGreaterThan(0.94);
  expect(mean).toBeLessThan(0.965);
});
