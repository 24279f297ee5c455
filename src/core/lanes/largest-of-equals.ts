/** What the best of several estimates seems to be worth when the things estimated are worth the same. */
import normalCdf from '@stdlib/stats-base-dists-normal-cdf';

/** Standard deviations beyond which a normal's tail is below the arithmetic's reach. */
const reach = 8;
const panels = 128;

/**
 * The mean of the largest of independent normal errors with mean 0 and these standard deviations (each from 0), in their
 * unit, from 0: what choosing by noisy estimates among equals shows by chance alone. 0 for one or none. The order of the
 * deviations does not matter, to the last bit; another one never lowers it. Throws RangeError on a negative or
 * infinite deviation.
 * E max = integral over x > 0 of 1 - P(max <= x), less that over x < 0 of P(max <= x); for two it is
 * sqrt((a^2 + b^2) / (2 pi)), Clark 1961, Operations Research 9:145-162 (citation from memory).
 */
export function largestOfEquals(deviations: readonly number[]): number {
  for (const deviation of deviations) {
    if (!(deviation >= 0 && deviation < Infinity)) {
      throw new RangeError(`a standard deviation wants a finite number from 0, got ${deviation}`);
    }
  }
  const sorted = [...deviations].sort((a, b) => a - b);
  if (sorted.length < 2) return 0;
  const wide = sorted.filter((deviation) => deviation > 0);
  const sure = wide.length < sorted.length;
  const allUnder = (x: number) => wide.reduce((product, deviation) => product * normalCdf(x / deviation, 0, 1), 1);
  let total = 0;
  let start = 0;
  for (const deviation of wide) {
    const end = deviation * reach;
    if (end <= start) continue;
    total += simpson((x) => 1 - allUnder(x) - (sure ? 0 : allUnder(-x)), start, end);
    start = end;
  }
  return Math.max(0, total);
}

function simpson(height: (x: number) => number, from: number, to: number): number {
  const step = (to - from) / (2 * panels);
  let sum = height(from) + height(to);
  for (let at = 1; at < 2 * panels; at += 1) sum += (at % 2 === 1 ? 4 : 2) * height(from + at * step);
  return (sum * step) / 3;
}
