/** Whether an evaluator's standard moves between a first look and a second. */
import tCdf from '@stdlib/stats-base-dists-t-cdf';
import tQuantile from '@stdlib/stats-base-dists-t-quantile';
import { type Known, known, unknown } from '../known.ts';

/** One trait of one carry marked twice by the same evaluator: marks 1 to 5, days between the looks. */
export type SecondLook = { readonly first: number; readonly second: number; readonly daysBetween: number };

/** A rate or a mean in points with its standard error, t interval and two-sided p against 0. */
export type DriftEstimate = {
  readonly value: number;
  readonly standardError: number;
  readonly df: number;
  readonly low: number;
  readonly high: number;
  readonly p: number;
};

/** Why there is none. */
export type NoDrift = 'fewer than three looks' | 'one interval of time' | 'no spread';

/** `shift`: mean of second less first, points; `perMonth`: its slope over the days between looks, points in 30 days. */
export type Drift = {
  readonly looks: number;
  readonly shift: Known<DriftEstimate, NoDrift>;
  readonly perMonth: Known<DriftEstimate, NoDrift>;
};

/**
 * Mean and least-squares slope of second less first mark over the days between the looks: above 0, the evaluator has
 * become more generous. Looks count as independent; several traits of one carry are not quite. Reasons: 'fewer than three
 * looks', 'one interval of time' (no slope), 'no spread' (all differences on one line, so no error to judge by). Throws
 * RangeError on a value that is not finite or days below 0. Source: any text on simple regression; the use is our own.
 */
export function drift(looks: readonly SecondLook[], confidence = 0.95): Known<Drift, NoDrift> {
  if (!(confidence > 0 && confidence < 1)) throw new RangeError(`a confidence wants 0 to 1, got ${confidence}`);
  for (const look of looks) {
    if (
      !Number.isFinite(look.first) ||
      !Number.isFinite(look.second) ||
      !(look.daysBetween >= 0 && look.daysBetween < Infinity)
    ) {
      throw new RangeError(`a second look wants finite marks and days from 0, got ${JSON.stringify(look)}`);
    }
  }
  const n = looks.length;
  if (n < 3) return unknown('fewer than three looks', `Drift needs three carries marked twice, got ${n}.`);
  const meanDays = looks.reduce((sum, look) => sum + look.daysBetween, 0) / n;
  const meanGap = looks.reduce((sum, look) => sum + look.second - look.first, 0) / n;
  let days = 0;
  let both = 0;
  let gaps = 0;
  for (const look of looks) {
    const day = look.daysBetween - meanDays;
    const gap = look.second - look.first - meanGap;
    days += day * day;
    both += day * gap;
    gaps += gap * gap;
  }
  const shift = estimate(meanGap, Math.sqrt(gaps / (n - 1) / n), n - 1, confidence);
  if (days <= 1e-9 * (1 + meanDays * meanDays)) {
    return known({ looks: n, shift, perMonth: unknown('one interval of time', 'All second looks came equally late.') });
  }
  const slope = both / days;
  const left = Math.max(0, gaps - slope * both);
  const error = Math.sqrt(left / (n - 2) / days);
  return known({ looks: n, shift, perMonth: estimate(30 * slope, 30 * error, n - 2, confidence) });
}

function estimate(value: number, standardError: number, df: number, confidence: number): Known<DriftEstimate, NoDrift> {
  if (standardError <= 1e-12) return unknown('no spread', 'The differences leave no error to judge by.');
  const reach = tQuantile(0.5 + confidence / 2, df) * standardError;
  const p = Math.min(1, 2 * tCdf(-Math.abs(value / standardError), df));
  return known({ value, standardError, df, low: value - reach, high: value + reach, p });
}
