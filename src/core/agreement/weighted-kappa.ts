/** How far two evaluators agree beyond chance, near misses counting in part. */
import normalCdf from '@stdlib/stats-base-dists-normal-cdf';
import normalQuantile from '@stdlib/stats-base-dists-normal-quantile';
import { type Known, known, unknown } from '../known.ts';

/** Square table: row the first evaluator's category, column the second's; counts from 0. */
export type AgreementTable = readonly (readonly number[])[];

/** Credit for each cell: 'none' for exact agreement only, linear or quadratic in steps apart, or a table of own (1 full). */
export type KappaWeights = 'none' | 'linear' | 'quadratic' | AgreementTable;

/** `kappa` is 1 at best and 0 at chance; `observed` and `expected` are shares of credit, 0 to 1. */
export type Kappa = {
  readonly kappa: number;
  readonly observed: number;
  readonly expected: number;
  readonly pairs: number;
  /** Asymptotic standard error for an interval, and the one under chance for a test; z and two-sided p use the latter. */
  readonly standardError: number;
  readonly standardErrorAtChance: number;
  readonly low: number;
  readonly high: number;
  readonly test: Known<{ readonly z: number; readonly p: number }, 'no spread'>;
};

/** Why there is none. */
export type NoKappa = 'no pairs' | 'one category';

/**
 * Cohen's weighted kappa of a table of counts with its asymptotic errors and interval. Reasons: 'no pairs'; 'one
 * category' when both used the same single one, so that chance alone agrees fully. Throws RangeError on a table that is
 * not square, a count below 0, or weights of another shape.
 * Sources: Cohen 1968, Psychological Bulletin 70:213-220; errors Fleiss, Cohen & Everitt 1969, same, 72:323-327.
 */
export function weightedKappa(table: AgreementTable, weights: KappaWeights, confidence = 0.95): Known<Kappa, NoKappa> {
  const size = table.length;
  checkSquare(table, size, 'a table');
  if (!(confidence > 0 && confidence < 1)) throw new RangeError(`a confidence wants 0 to 1, got ${confidence}`);
  const credit = creditTable(weights, size);
  const pairs = table.reduce((sum, row) => sum + row.reduce((total, count) => total + count, 0), 0);
  if (pairs === 0) return unknown('no pairs', 'The two evaluators marked nothing in common.');
  const share = table.map((row) => row.map((count) => count / pairs));
  const rows = share.map((row) => row.reduce((sum, one) => sum + one, 0));
  const columns = share.map((_, column) => share.reduce((sum, row) => sum + (row[column] ?? 0), 0));
  const rowCredit = credit.map((row) => row.reduce((sum, one, at) => sum + one * (columns[at] ?? 0), 0));
  const columnCredit = credit.map((_, column) =>
    credit.reduce((sum, row, at) => sum + (row[column] ?? 0) * (rows[at] ?? 0), 0),
  );
  let observed = 0;
  let expected = 0;
  for (const [row, line] of credit.entries()) {
    for (const [column, one] of line.entries()) {
      observed += one * (share[row]?.[column] ?? 0);
      expected += one * (rows[row] ?? 0) * (columns[column] ?? 0);
    }
  }
  const room = 1 - expected;
  if (Math.abs(room) < 1e-12) {
    return unknown('one category', 'Both evaluators used one and the same category: chance alone agrees fully.');
  }
  const kappa = (observed - expected) / room;
  // The published terms subtract the square of the mean; as deviations from that mean the same sums lose nothing to
  // rounding where the spread is 0, which a square root would turn into a false error.
  const ownMean = kappa - expected * (1 - kappa);
  let own = 0;
  let chance = 0;
  for (const [row, line] of credit.entries()) {
    for (const [column, one] of line.entries()) {
      const margin = (rowCredit[row] ?? 0) + (columnCredit[column] ?? 0);
      own += (share[row]?.[column] ?? 0) * (one - margin * (1 - kappa) - ownMean) ** 2;
      chance += (rows[row] ?? 0) * (columns[column] ?? 0) * (one - margin + expected) ** 2;
    }
  }
  const variance = own / (pairs * room * room);
  const varianceAtChance = chance / (pairs * room * room);
  const standardError = Math.sqrt(variance);
  const standardErrorAtChance = Math.sqrt(varianceAtChance);
  const reach = normalQuantile(0.5 + confidence / 2, 0, 1) * standardError;
  const z = kappa / standardErrorAtChance;
  return known({
    kappa,
    observed,
    expected,
    pairs,
    standardError,
    standardErrorAtChance,
    low: kappa - reach,
    high: Math.min(1, kappa + reach),
    test:
      standardErrorAtChance > 1e-12
        ? known({ z, p: 2 * normalCdf(-Math.abs(z), 0, 1) })
        : unknown('no spread', 'One evaluator used a single category: there is nothing to test.'),
  });
}

/** Turns weights of disagreement (0 on the diagonal, 0 or more elsewhere) into credit: 1 less weight over the largest. */
export function creditFromDisagreement(disagreement: AgreementTable): AgreementTable {
  checkSquare(disagreement, disagreement.length, 'weights of disagreement');
  const largest = Math.max(0, ...disagreement.flat());
  if (largest === 0) throw new RangeError('weights of disagreement want one above 0, got none');
  return disagreement.map((row) => row.map((one) => 1 - one / largest));
}

/**
 * Counts pairs of values into a square table over `categories` (each once, in their order). Throws RangeError on a value
 * that is not a category.
 */
export function pairTable(
  pairs: readonly (readonly [number, number])[],
  categories: readonly number[],
): AgreementTable {
  const place = new Map(categories.map((category, at) => [category, at]));
  const table = categories.map(() => categories.map(() => 0));
  for (const [first, second] of pairs) {
    const row = place.get(first);
    const column = place.get(second);
    const line = row === undefined ? undefined : table[row];
    if (line === undefined || column === undefined)
      throw new RangeError(`no category for the pair ${first}, ${second}`);
    line[column] = (line[column] ?? 0) + 1;
  }
  return table;
}

/** The nine marks from 1 to 5 in halves. */
export const markCategories: readonly number[] = [1, 1.5, 2, 2.5, 3, 3.5, 4, 4.5, 5];

function creditTable(weights: KappaWeights, size: number): AgreementTable {
  if (typeof weights !== 'string') {
    checkSquare(weights, size, 'weights');
    return weights;
  }
  const steps = Math.max(1, size - 1);
  const creditOf: Readonly<Record<typeof weights, (apart: number) => number>> = {
    none: (apart) => (apart === 0 ? 1 : 0),
    linear: (apart) => 1 - apart / steps,
    quadratic: (apart) => 1 - (apart / steps) ** 2,
  };
  const credit = creditOf[weights];
  const places = Array.from({ length: size }, (_, at) => at);
  return places.map((row) => places.map((column) => credit(Math.abs(row - column))));
}

function checkSquare(table: AgreementTable, size: number, what: string) {
  if (table.length !== size || size === 0) throw new RangeError(`${what} wants ${size} rows, got ${table.length}`);
  for (const row of table) {
    if (row.length !== size) throw new RangeError(`${what} wants rows of ${size}, got ${row.length}`);
    for (const one of row)
      if (!(one >= 0 && one < Infinity)) throw new RangeError(`${what} wants 0 or more, got ${one}`);
  }
}
