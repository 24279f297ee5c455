/** How much of the spread of ratings is between what was rated: six intraclass correlations. */
import fCdf from '@stdlib/stats-base-dists-f-cdf';
import fQuantile from '@stdlib/stats-base-dists-f-quantile';
import { type Known, known, unknown } from '../known.ts';

/** Mean squares of a table of targets by judges, in squared units of the ratings. */
export type MeanSquares = {
  readonly betweenTargets: number;
  readonly withinTargets: number;
  readonly betweenJudges: number;
  readonly error: number;
  readonly targets: number;
  readonly judges: number;
};

/** One form: the coefficient (at most 1), its F with degrees of freedom and p, and its interval. */
export type IntraclassForm = {
  readonly icc: number;
  readonly f: number;
  readonly df1: number;
  readonly df2: number;
  readonly p: number;
  readonly low: number;
  readonly high: number;
};

/** Why a form, or all of them, cannot be given. */
export type NoIntraclass = 'fewer than two' | 'targets do not differ' | 'no error' | 'not defined';

type Form = Known<IntraclassForm, NoIntraclass>;

/**
 * One judge alone and the mean of all: each target by other judges (one-way), the same judges as a sample of judges
 * (agreement), and these judges only (consistency).
 */
export type Intraclass = {
  readonly meanSquares: MeanSquares;
  readonly oneWay: { readonly single: Form; readonly mean: Form };
  readonly agreement: { readonly single: Form; readonly mean: Form };
  readonly consistency: { readonly single: Form; readonly mean: Form };
};

/**
 * The six forms ICC(1,1), (2,1), (3,1) and their k forms from a complete table of finite ratings, a row a target and a
 * column a judge. The interval of a mean form is that of its single form stepped up (Spearman-Brown); for the agreement
 * form packages differ there and this is our choice. Reasons: 'fewer than two' targets or judges, 'targets do not
 * differ'; of a form 'no error' (its ratings agree exactly, so F has no bottom) or 'not defined'. Throws RangeError on a
 * ragged table or a rating that is not finite. Source: Shrout & Fleiss 1979, Psychological Bulletin 86:420-428.
 */
export function intraclass(
  ratings: readonly (readonly number[])[],
  confidence = 0.95,
): Known<Intraclass, NoIntraclass> {
  if (!(confidence > 0 && confidence < 1)) throw new RangeError(`a confidence wants 0 to 1, got ${confidence}`);
  const n = ratings.length;
  const k = ratings[0]?.length ?? 0;
  for (const row of ratings) {
    if (row.length !== k) throw new RangeError(`rows of ${k} ratings wanted, got ${row.length}`);
    for (const rating of row)
      if (!Number.isFinite(rating)) throw new RangeError(`a rating wants a finite value, got ${rating}`);
  }
  if (n < 2 || k < 2) return unknown('fewer than two', `Two targets and two judges wanted, got ${n} and ${k}.`);
  const squares = meanSquares(ratings, n, k);
  const total = squares.betweenTargets + squares.withinTargets;
  // What is left of equal numbers after rounding is not a spread.
  const rounding = 1e-13 * (total + Math.max(...ratings.flat().map((rating) => rating * rating)));
  if (squares.betweenTargets <= rounding) {
    return unknown('targets do not differ', 'All targets have the same mean rating.');
  }
  const tail = (1 - confidence) / 2;
  const oneWay = simpleForm(squares.betweenTargets, squares.withinTargets, n - 1, n * (k - 1), k, tail, rounding);
  const consistency = simpleForm(squares.betweenTargets, squares.error, n - 1, (n - 1) * (k - 1), k, tail, rounding);
  const agreement = agreementForm(squares, tail, rounding);
  return known({
    meanSquares: squares,
    oneWay: { single: oneWay, mean: steppedUp(oneWay, k) },
    agreement: { single: agreement, mean: steppedUp(agreement, k) },
    consistency: { single: consistency, mean: steppedUp(consistency, k) },
  });
}

function meanSquares(ratings: readonly (readonly number[])[], n: number, k: number): MeanSquares {
  const rows = ratings.map((row) => row.reduce((sum, one) => sum + one, 0) / k);
  const columns = Array.from({ length: k }, (_, at) => ratings.reduce((sum, row) => sum + (row[at] ?? 0), 0) / n);
  const grand = rows.reduce((sum, one) => sum + one, 0) / n;
  let within = 0;
  let error = 0;
  for (const [at, row] of ratings.entries()) {
    for (const [judge, rating] of row.entries()) {
      within += (rating - (rows[at] ?? 0)) ** 2;
      error += (rating - (rows[at] ?? 0) - (columns[judge] ?? 0) + grand) ** 2;
    }
  }
  return {
    betweenTargets: (k * rows.reduce((sum, one) => sum + (one - grand) ** 2, 0)) / (n - 1),
    withinTargets: within / (n * (k - 1)),
    betweenJudges: (n * columns.reduce((sum, one) => sum + (one - grand) ** 2, 0)) / (k - 1),
    error: error / ((n - 1) * (k - 1)),
    targets: n,
    judges: k,
  };
}

function simpleForm(
  between: number,
  error: number,
  df1: number,
  df2: number,
  k: number,
  tail: number,
  rounding: number,
): Form {
  if (error <= rounding) return unknown('no error', 'The judges agree exactly on every target.');
  const f = between / error;
  const fromF = (value: number) => (value - 1) / (value + k - 1);
  const low = fromF(f / fQuantile(1 - tail, df1, df2));
  const high = fromF(f * fQuantile(1 - tail, df2, df1));
  return known({ icc: fromF(f), f, df1, df2, p: 1 - fCdf(f, df1, df2), low, high });
}

function agreementForm(squares: MeanSquares, tail: number, rounding: number): Form {
  const { betweenTargets, betweenJudges, error, targets: n, judges: k } = squares;
  if (error <= rounding) return unknown('no error', 'The judges differ by a constant at most.');
  const df1 = n - 1;
  const df2 = (n - 1) * (k - 1);
  const icc = (betweenTargets - error) / (betweenTargets + (k - 1) * error + (k * (betweenJudges - error)) / n);
  const judgesF = betweenJudges / error;
  const level = n * (1 + (k - 1) * icc) - k * icc;
  const top = df2 * (k * icc * judgesF + level) ** 2;
  const bottom = df1 * k * k * icc * icc * judgesF * judgesF + level * level;
  if (!(bottom > 0 && top > 0)) return unknown('not defined', 'The interval has no degrees of freedom here.');
  const df = top / bottom;
  const upper = fQuantile(1 - tail, df1, df);
  const lower = fQuantile(1 - tail, df, df1);
  // Next to no degrees of freedom put the F quantile beyond what a number holds.
  if (!Number.isFinite(upper) || !Number.isFinite(lower)) {
    return unknown('not defined', 'The interval has no degrees of freedom here.');
  }
  const shared = k * betweenJudges + (k * n - k - n) * error;
  const f = betweenTargets / error;
  return known({
    icc,
    f,
    df1,
    df2,
    p: 1 - fCdf(f, df1, df2),
    low: (n * (betweenTargets - upper * error)) / (upper * shared + n * betweenTargets),
    high: (n * (lower * betweenTargets - error)) / (shared + n * lower * betweenTargets),
  });
}

/** Spearman-Brown: the reliability of the mean of k from that of one; undefined at and below -1/(k - 1). */
function steppedUp(single: Form, k: number): Form {
  if (!single.known) return single;
  const { icc, low, high } = single.value;
  const floor = -1 / (k - 1);
  const step = (value: number) => (k * value) / (1 + (k - 1) * value);
  if (Math.min(icc, low, high) <= floor + 1e-9) {
    return unknown('not defined', 'The judges disagree too much for the mean of them to have a reliability.');
  }
  return known({ ...single.value, icc: step(icc), low: step(low), high: step(high) });
}
