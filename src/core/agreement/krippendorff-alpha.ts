/** Agreement of any number of evaluators with gaps. */
import { resample, type Spread, spreadOf } from '../grades/resample.ts';
import { type Known, known, unknown } from '../known.ts';
import type { Random } from '../random.ts';

/** What a difference between two values costs: all alike, by ranks between them, or by its square. */
export type AlphaMetric = 'nominal' | 'ordinal' | 'interval';

/** A row an evaluator, a column a unit; null where the evaluator gave none. */
export type Ratings = readonly (readonly (number | null)[])[];

/** `alpha` is 1 at best and 0 at chance. */
export type Alpha = {
  readonly alpha: number;
  /** Values in units that two evaluators or more gave one for, and the number of those units. */
  readonly pairable: number;
  readonly units: number;
};

/** Why there is none. */
export type NoAlpha = 'nothing paired' | 'one value';

/**
 * Krippendorff's alpha, 1 less observed over expected disagreement, from finite numbers with gaps. Reasons: 'nothing
 * paired', 'one value' only among what is paired. Throws RangeError on rows of different lengths or non-finite values.
 * Source: Krippendorff 2011, Computing Krippendorff's Alpha-Reliability.
 */
export function krippendorffAlpha(ratings: Ratings, metric: AlphaMetric): Known<Alpha, NoAlpha> {
  return alphaOf(unitsOf(ratings), metric);
}

/**
 * How alpha spreads when units are drawn again with replacement: mean, standard error and percentile interval. Draws in
 * which only one value is left count as alpha 1, full agreement. Reasons and throws as krippendorffAlpha and resample.
 */
export function alphaSpread(
  ratings: Ratings,
  metric: AlphaMetric,
  draws: number,
  random: Random,
  confidence = 0.95,
): Known<Spread, NoAlpha | 'fewer than two draws'> {
  const units = unitsOf(ratings);
  const whole = alphaOf(units, metric);
  if (!whole.known) return whole;
  const values = new Float64Array(draws);
  resample(units.length, draws, random, (sample, draw) => {
    const drawn = Array.from(sample, (at) => units[at] ?? []);
    const answer = alphaOf(drawn, metric);
    values[draw] = answer.known ? answer.value.alpha : 1;
  });
  return spreadOf(values, confidence);
}

function unitsOf(ratings: Ratings): readonly (readonly number[])[] {
  const width = ratings[0]?.length ?? 0;
  for (const row of ratings) {
    if (row.length !== width) throw new RangeError(`rows of ${width} units wanted, got ${row.length}`);
    for (const value of row) {
      if (value !== null && !Number.isFinite(value))
        throw new RangeError(`a rating wants a finite value, got ${value}`);
    }
  }
  return Array.from({ length: width }, (_, unit) => ratings.flatMap((row) => row[unit] ?? [])).filter(
    (unit) => unit.length > 1,
  );
}

function alphaOf(units: readonly (readonly number[])[], metric: AlphaMetric): Known<Alpha, NoAlpha> {
  const pairable = units.reduce((sum, unit) => sum + unit.length, 0);
  if (pairable === 0) return unknown('nothing paired', 'No unit was rated by two evaluators.');
  const values = [...new Set(units.flat())].sort((a, b) => a - b);
  if (values.length < 2) return unknown('one value', 'All ratings that can be paired are one value.');
  const place = new Map(values.map((value, at) => [value, at]));
  const coincidences = values.map(() => values.map(() => 0));
  for (const unit of units) {
    const share = 1 / (unit.length - 1);
    for (const [one, value] of unit.entries()) {
      const row = coincidences[place.get(value) ?? 0];
      for (const [other, partner] of unit.entries()) {
        const at = place.get(partner) ?? 0;
        if (one !== other && row !== undefined) row[at] = (row[at] ?? 0) + share;
      }
    }
  }
  const total = coincidences.map((row) => row.reduce((sum, one) => sum + one, 0));
  const apart = distances(values, total, metric);
  let observed = 0;
  let expected = 0;
  for (const [row, line] of apart.entries()) {
    for (const [column, one] of line.entries()) {
      observed += one * (coincidences[row]?.[column] ?? 0);
      expected += one * (total[row] ?? 0) * (total[column] ?? 0);
    }
  }
  return known({ alpha: 1 - ((pairable - 1) * observed) / expected, pairable, units: units.length });
}

function distances(values: readonly number[], total: readonly number[], metric: AlphaMetric) {
  const before: number[] = [0];
  for (const count of total) before.push((before.at(-1) ?? 0) + count);
  const widest = (values.at(-1) ?? 0) - (values[0] ?? 0);
  const squareOf: Readonly<Record<AlphaMetric, (low: number, high: number) => number>> = {
    nominal: () => 1,
    ordinal: (low, high) => {
      const between = (before[high + 1] ?? 0) - (before[low] ?? 0);
      return (between - ((total[low] ?? 0) + (total[high] ?? 0)) / 2) ** 2;
    },
    // In widths of the whole range, so that no unit of the values can overflow or vanish.
    interval: (low, high) => (((values[high] ?? 0) - (values[low] ?? 0)) / widest) ** 2,
  };
  const square = squareOf[metric];
  return values.map((_, row) =>
    values.map((__, column) => (row === column ? 0 : square(Math.min(row, column), Math.max(row, column)))),
  );
}
