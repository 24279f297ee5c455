/** How alike several evaluators order the same things. */
import fCdf from '@stdlib/stats-base-dists-f-cdf';
import { type Known, known, unknown } from '../known.ts';

/** `w` is 0 (no accord) to 1 (one order); `meanSpearman` the mean rank correlation of pairs of evaluators. */
export type KendallsW = {
  readonly w: number;
  readonly meanSpearman: number;
  /** Rank sum of each thing, 1 the lowest value. */
  readonly rankSums: readonly number[];
  /** Chance of so high a W among evaluators who order at random, by the F approximation, 0 to 1. */
  readonly p: number;
};

/** Why there is none. */
export type NoKendallsW = 'fewer than two' | 'no order';

/**
 * Kendall's W from a complete table of finite values, a row an evaluator and a column a thing; ties share the mean of
 * their ranks and are corrected for. Reasons: 'fewer than two' evaluators or things, 'no order' when every evaluator ties
 * everything. Throws RangeError on a ragged table or a value that is not finite. Sources: Kendall & Babington Smith 1939,
 * Annals of Mathematical Statistics 10:275-287; Siegel 1956, Nonparametric Statistics (both from memory).
 */
export function kendallsW(values: readonly (readonly number[])[]): Known<KendallsW, NoKendallsW> {
  const m = values.length;
  const n = values[0]?.length ?? 0;
  for (const row of values) {
    if (row.length !== n) throw new RangeError(`rows of ${n} values wanted, got ${row.length}`);
    for (const value of row)
      if (!Number.isFinite(value)) throw new RangeError(`a value wants to be finite, got ${value}`);
  }
  if (m < 2 || n < 2) return unknown('fewer than two', `Two evaluators and two things wanted, got ${m} and ${n}.`);
  let ties = 0;
  const rankSums = Array.from({ length: n }, () => 0);
  for (const row of values) {
    const ranked = midranks(row);
    ties += ranked.ties;
    for (const [at, rank] of ranked.ranks.entries()) rankSums[at] = (rankSums[at] ?? 0) + rank;
  }
  const middle = (m * (n + 1)) / 2;
  const spread = rankSums.reduce((sum, one) => sum + (one - middle) ** 2, 0);
  const most = m * m * (n ** 3 - n) - m * ties;
  if (most <= 0) return unknown('no order', 'Every evaluator gave everything the same value.');
  const w = Math.min(1, (12 * spread) / most);
  const df1 = n - 1 - 2 / m;
  const p = w === 1 ? 0 : df1 > 0 ? 1 - fCdf(((m - 1) * w) / (1 - w), df1, (m - 1) * df1) : 1;
  return known({ w, meanSpearman: (m * w - 1) / (m - 1), rankSums, p: Math.min(1, Math.max(0, p)) });
}

/** Ranks from 1, ties sharing their mean rank, and Kendall's sum of t^3 - t over ties. */
function midranks(values: readonly number[]): { readonly ranks: readonly number[]; readonly ties: number } {
  const order = values.map((_, at) => at).sort((a, b) => (values[a] ?? 0) - (values[b] ?? 0));
  const ranks = values.map(() => 0);
  let ties = 0;
  for (let start = 0; start < order.length;) {
    let end = start;
    while (end < order.length && values[order[end] ?? 0] === values[order[start] ?? 0]) end += 1;
    for (const at of order.slice(start, end)) ranks[at] = (start + 1 + end) / 2;
    const size = end - start;
    ties += size ** 3 - size;
    start = end;
  }
  return { ranks, ties };
}
