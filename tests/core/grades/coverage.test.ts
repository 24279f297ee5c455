/** Short simulated coverage; the long run over 2,000 worlds is tests/soak/core-coverage.test.ts. */
import { describe, expect, test } from 'vitest';
import { randomFrom } from '../../../src/core/random.ts';
import { gradeCoverage, intraclassCoverage, shareHeld } from './coverage.ts';
import { world } from './drawn-class.ts';

describe('95 % intervals hold the truth in 93 to 97 of 100', () => {
  test('for grades of twenty runners with two to ten games each', () => {
    const { trait } = gradeCoverage(250, randomFrom(1), world);
    expect(trait.asked).toBe(5000);
    expect(shareHeld(trait)).toBeGreaterThan(0.93);
    expect(shareHeld(trait)).toBeLessThan(0.97);
  });

  test('for overall grades whose traits lean together', () => {
    const { overall } = gradeCoverage(60, randomFrom(2), {
      ...world,
      traits: ['press', 'tempo', 'crease', 'steps', 'cut', 'risk'],
      lean: { runner: 0.5, game: 0.4, carry: 0.25 },
      shown: 0.5,
    });
    expect(overall.asked).toBe(1200);
    expect(shareHeld(overall)).toBeGreaterThan(0.93);
    expect(shareHeld(overall)).toBeLessThan(0.97);
  });

  test('for three forms of the intraclass correlation', () => {
    for (const form of Object.values(intraclassCoverage(2000, randomFrom(3), 20, 4))) {
      expect(shareHeld(form)).toBeGreaterThan(0.93);
      expect(shareHeld(form)).toBeLessThan(0.97);
    }
  });
});
