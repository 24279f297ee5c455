/** The mean of the largest of independent normals, the part of value left that chance explains. */
import { expect, test } from 'vitest';
import { largestOfEquals } from '../../src/core/lanes/largest-of-equals.ts';

test.each([
  // Exact: 1 / sqrt(pi), 3 / (2 sqrt(pi)); the rest are expected normal order statistics as tabled in Harter 1961,
  // Biometrika 48:151-165 (.56419 .84628 1.02938 1.16296 1.26721): citation from memory.
  [2, 1 / Math.sqrt(Math.PI)],
  [3, 3 / (2 * Math.sqrt(Math.PI))],
  [4, 1.02938],
  [5, 1.16296],
  [6, 1.26721],
])('of %i equal ones is the tabled order statistic', (count, mean) => {
  expect(largestOfEquals(Array.from({ length: count }, () => 1))).toBeCloseTo(mean, 5);
});

test('of two unequal ones is sqrt((a^2 + b^2) / 2 pi), also with one sure', () => {
  // Clark 1961, Operations Research 9:145-162: citation from memory.
  for (const [a, b] of [
    [1, 2],
    [0.01, 3],
    [0, 1],
    [0, 0],
  ] as const) {
    expect(largestOfEquals([a, b])).toBeCloseTo(Math.sqrt((a * a + b * b) / (2 * Math.PI)), 6);
  }
  expect(largestOfEquals([5])).toBe(0);
  expect(() => largestOfEquals([1, -1])).toThrow(RangeError);
  expect(() => largestOfEquals([1, NaN])).toThrow(RangeError);
});
