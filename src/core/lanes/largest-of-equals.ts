/** What the best of several estimates seems to be worth when the things estimated are worth the same. */
import normalCdf from '@stdlib/stats-base-dists-normal-cdf';

/** Standard deviations beyond which a normal's tail is below the arithmetic's reach. */
const reach = 8;
/** Half of the nodes of Gauss-Legendre quadrature a stretch is summed over. */
const halfNodes = 16;

/**
 * The mean of the largest of independent normal errors with mean 0 and these standard deviations (each from 0), in their
 * unit, from 0: what choosing by noisy estimates among equals shows by chance alone. 0 for one or none. The order of the
 * deviations does not matter, to the last bit; another one never lowers it. Throws RangeError on a deviation that is
 * not a number from 0 to 1e100.
 * E max = integral over x > 0 of 1 - P(max <= x), less that over x < 0 of P(max <= x); for two it is
 * sqrt((a^2 + b^2) / (2 pi)), Clark 1961, Operations Research 9:145-162 (citation from memory).
 */
export function largestOfEquals(deviations: readonly number[]): number {
  for (const deviation of deviations) {
    if (!(deviation >= 0 && deviation <= 1e100)) {
      throw new RangeError(`a standard deviation wants a number from 0 to 1e100, got ${deviation}`);
    }
  }
  const sorted = [...deviations].sort((a, b) => a - b);
  if (sorted.length < 2) return 0;
  const wide = sorted.filter((deviation) => deviation > 0);
  const sure = wide.length < sorted.length;
  const allUnder = (x: number) => wide.reduce((product, deviation) => product * normalCdf(x / deviation, 0, 1), 1);
  const widest = wide.at(-1);
  let total = 0;
  let start = 0;
  for (const deviation of wide) {
    const end = deviation * reach;
    // Deviations within a half of each other share a stretch; the widest always closes the last one.
    if (end <= start || (end < start * 1.5 && deviation !== widest)) continue;
    total += integral((x) => 1 - allUnder(x) - (sure ? 0 : allUnder(-x)), start, end);
    start = end;
  }
  return Math.max(0, total);
}

/** Nodes and weights on -1 to 1, by Newton's method on the Legendre polynomial (positive half). */
const nodes = Array.from({ length: halfNodes }, (_, at) => {
  const degree = 2 * halfNodes;
  let x = Math.cos((Math.PI * (at + 0.75)) / (degree + 0.5));
  let slope = 1;
  for (let step = 0; step < 8; step += 1) {
    let before = 1;
    let value = x;
    for (let k = 2; k <= degree; k += 1) {
      const next = ((2 * k - 1) * x * value - (k - 1) * before) / k;
      before = value;
      value = next;
    }
    slope = (degree * (x * value - before)) / (x * x - 1);
    x -= value / slope;
  }
  return { x, weight: 2 / ((1 - x * x) * slope * slope) };
});

function integral(height: (x: number) => number, from: number, to: number): number {
  const middle = (from + to) / 2;
  const half = (to - from) / 2;
  let sum = 0;
  for (const { x, weight } of nodes) sum += weight * (height(middle - half * x) + height(middle + half * x));
  return sum * half;
}
