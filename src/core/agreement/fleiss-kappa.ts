/** Agreement of a fixed number of evaluators on categories. */
import { type Known, known, unknown } from '../known.ts';

/** `kappa` is 1 at best and 0 at chance; `observed` and `expected` are shares of agreeing pairs, 0 to 1. */
export type FleissKappa = {
  readonly kappa: number;
  readonly observed: number;
  readonly expected: number;
  /** One a category: how far evaluators agree on that category against all others. */
  readonly byCategory: readonly Known<number, 'never or always used'>[];
  /** Standard error if they agreed only by chance: for a test, not for an interval. */
  readonly standardErrorAtChance: number;
};

/** Why there is none. */
export type NoFleissKappa = 'nothing rated' | 'one category';

/**
 * Fleiss' kappa from counts: a row for each thing rated, a column for each category, each row adding up to the same
 * number of ratings (2 or more). Reasons: 'nothing rated', 'one category' ever used. Throws RangeError on ragged rows,
 * counts that are not whole or below 0, or rows of different totals.
 * Sources: Fleiss 1971, Psychological Bulletin 76:378-382; error at chance Fleiss, Nee & Landis 1979, same, 86:974-977
 * (from memory), which corrects the first paper's.
 */
export function fleissKappa(counts: readonly (readonly number[])[]): Known<FleissKappa, NoFleissKappa> {
  const first = counts[0];
  if (first === undefined) return unknown('nothing rated', 'Nothing was rated.');
  const ratings = first.reduce((sum, count) => sum + count, 0);
  for (const row of counts) {
    if (row.length !== first.length) throw new RangeError(`rows of ${first.length} counts wanted, got ${row.length}`);
    for (const count of row) {
      if (!Number.isInteger(count) || count < 0)
        throw new RangeError(`a count wants a whole number from 0, got ${count}`);
    }
    const total = row.reduce((sum, count) => sum + count, 0);
    if (total !== ratings || total < 2) {
      throw new RangeError(`every row wants the same number of ratings, 2 or more, got ${ratings} and ${total}`);
    }
  }
  const all = counts.length * ratings;
  const share = first.map((_, category) => counts.reduce((sum, row) => sum + (row[category] ?? 0), 0) / all);
  const pairsOf = ratings * (ratings - 1);
  const observed =
    counts.reduce((sum, row) => sum + row.reduce((total, count) => total + count * (count - 1), 0) / pairsOf, 0) /
    counts.length;
  const expected = share.reduce((sum, one) => sum + one * one, 0);
  const spread = share.reduce((sum, one) => sum + one * (1 - one), 0);
  if (share.filter((one) => one > 0).length < 2) {
    return unknown('one category', 'All ratings are one category: chance alone agrees fully.');
  }
  const skew = share.reduce((sum, one) => sum + one * (1 - one) * (1 - 2 * one), 0);
  return known({
    kappa: (observed - expected) / (1 - expected),
    observed,
    expected,
    byCategory: share.map((one, category) => {
      if (one === 0 || one === 1) return unknown('never or always used', 'The category is never, or always, used.');
      const apart = counts.reduce((sum, row) => sum + (row[category] ?? 0) * (ratings - (row[category] ?? 0)), 0);
      return known(1 - apart / (counts.length * pairsOf * one * (1 - one)));
    }),
    standardErrorAtChance: Math.sqrt((2 * Math.max(0, spread * spread - skew)) / (counts.length * pairsOf)) / spread,
  });
}
