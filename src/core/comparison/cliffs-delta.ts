/** How often one runner's marks beat another's, whatever the marks are called. */
import normalQuantile from '@stdlib/stats-base-dists-normal-quantile';
import { type Known, known, unknown } from '../known.ts';

/** `delta` is P(first > second) - P(first < second), -1 to 1; ends of the interval likewise. */
export type CliffsDelta = {
  readonly delta: number;
  /** P(first > second) + half of P(equal), 0 to 1. */
  readonly superiority: number;
  readonly variance: number;
  readonly low: number;
  readonly high: number;
  readonly size: 'negligible' | 'small' | 'medium' | 'large';
};

/** Why there is none. */
export type NoCliffsDelta = 'fewer than two';

/**
 * Cliff's delta of two samples (any finite numbers) with its unbiased variance and an asymmetric interval of the given
 * confidence. Samples are taken as independent draws; marks of one game are not quite, so it is a description beside
 * the grades' own difference. Reason 'fewer than two' values on a side. Throws RangeError on a non-finite value.
 * Sources: Cliff 1993, Psychological Bulletin 114:494-509 (variance, citation from memory); Feng & Cliff 2004, Journal
 * of Modern Applied Statistical Methods 3:322-332 (interval, citation from memory); sizes .147, .33, .474 after Romano
 * and others 2006.
 */
export function cliffsDelta(
  first: readonly number[],
  second: readonly number[],
  confidence = 0.95,
): Known<CliffsDelta, NoCliffsDelta> {
  for (const value of [...first, ...second]) {
    if (!Number.isFinite(value)) throw new RangeError(`a sample wants finite values, got ${value}`);
  }
  if (!(confidence > 0 && confidence < 1)) throw new RangeError(`a confidence wants 0 to 1, got ${confidence}`);
  if (first.length < 2 || second.length < 2) {
    return unknown('fewer than two', `Two values on each side wanted, got ${first.length} and ${second.length}.`);
  }
  const m = first.length;
  const n = second.length;
  const byFirst = dominance(first, second);
  const bySecond = dominance(second, first);
  let sum = 0;
  let squares = 0;
  for (const row of byFirst) {
    sum += row.above - row.below;
    squares += row.above + row.below;
  }
  const delta = sum / (m * n);
  const spread = (rows: readonly Dominance[], size: number, sign: number) =>
    rows.reduce((total, row) => total + ((sign * (row.above - row.below)) / size - delta) ** 2, 0);
  const cells = squares - m * n * delta * delta;
  const unbiased =
    (n * n * spread(byFirst, n, 1) + m * m * spread(bySecond, m, -1) - cells) / (m * n * (m - 1) * (n - 1));
  // The unbiased estimate can fall below zero; Cliff's floor keeps it a variance.
  const variance = Math.max(unbiased, (1 - delta * delta) / (m * n - 1), 0);
  const z = normalQuantile(0.5 + confidence / 2, 0, 1);
  const reach = z * Math.sqrt(variance) * Math.sqrt((1 - delta * delta) ** 2 + z * z * variance);
  const bottom = 1 - delta * delta + z * z * variance;
  const low = bottom > 0 ? Math.max(-1, (delta - delta ** 3 - reach) / bottom) : delta;
  const high = bottom > 0 ? Math.min(1, (delta - delta ** 3 + reach) / bottom) : delta;
  return known({ delta, superiority: (1 + delta) / 2, variance, low, high, size: sizeOf(Math.abs(delta)) });
}

type Dominance = { readonly above: number; readonly below: number };

/** For each value, how many of the others it is above and below, by binary search in the sorted others. */
function dominance(values: readonly number[], others: readonly number[]): readonly Dominance[] {
  const sorted = Float64Array.from(others).sort();
  const count = (value: number, orEqual: boolean) => {
    let low = 0;
    let high = sorted.length;
    while (low < high) {
      const middle = (low + high) >>> 1;
      const at = sorted[middle] ?? 0;
      if (at < value || (orEqual && at === value)) low = middle + 1;
      else high = middle;
    }
    return low;
  };
  return values.map((value) => ({ above: count(value, false), below: sorted.length - count(value, true) }));
}

function sizeOf(delta: number): CliffsDelta['size'] {
  if (delta < 0.147) return 'negligible';
  if (delta < 0.33) return 'small';
  return delta < 0.474 ? 'medium' : 'large';
}
