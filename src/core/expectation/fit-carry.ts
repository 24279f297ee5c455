/** The carries a fit reads, from the rows of a user's table. */
import { type Known, known, unknown } from '../known.ts';
import { type Situation, situationFrom } from '../plays/situation.ts';

/** A carry to fit on: a possible snap, its gain in whole yards, and what else the table says (null: it does not). */
export type FitCarry = Situation & {
  readonly gain: number;
  readonly shotgun: boolean | null;
  /** Men in the box, 0 to 11. */
  readonly box: number | null;
  readonly season: string | null;
  readonly runner: string | null;
};

/**
 * Columns of the user's table, by what they hold: `down` 1-4, `to go` whole yards, `yards to goal` 1-99 (or `spot`, yards
 * from the own goal line), `gain` whole yards; and, where known, `shotgun` yes or no, `box` men in the box, `season`,
 * `runner`. Upper and lower case, spaces, underscores and hyphens in a heading do not matter; other columns are ignored.
 */
export const fitColumns = {
  needed: ['down', 'to go', 'yards to goal', 'gain'],
  optional: ['spot', 'shotgun', 'box', 'season', 'runner'],
} as const;

/** Carries read, and the rows that were not, by reason. */
export type FitTable = {
  readonly carries: readonly FitCarry[];
  readonly skipped: Readonly<Record<string, number>>;
};

type RawRow = Readonly<Record<string, string>>;

/**
 * Reads rows of a table with headings (values as text). Rows that cannot be are skipped and counted by reason (those of
 * situationFrom, 'impossible gain', 'impossible box', 'unclear shotgun'). Reasons: 'missing columns', 'no carries'.
 */
export function fitTable(rows: readonly RawRow[]): Known<FitTable, 'missing columns' | 'no carries'> {
  const [first] = rows;
  if (first === undefined) return unknown('no carries', 'The table has no rows.');
  const headings = new Map(Object.keys(first).map((heading) => [plain(heading), heading]));
  const missing = fitColumns.needed.filter(
    (name) => !headings.has(name) && !(name === 'yards to goal' && headings.has('spot')),
  );
  if (missing.length > 0) {
    const got = Object.keys(first).join(', ');
    return unknown('missing columns', `The table needs the columns ${missing.join(', ')}; it has ${got}.`);
  }
  const carries: FitCarry[] = [];
  const skipped: Record<string, number> = {};
  for (const row of rows) {
    const carry = carryOf((name) => {
      const heading = headings.get(name);
      return heading === undefined ? '' : (row[heading] ?? '').trim();
    });
    if (carry.known) carries.push(carry.value);
    else skipped[carry.because] = (skipped[carry.because] ?? 0) + 1;
  }
  if (carries.length === 0) {
    return unknown('no carries', `None of ${rows.length} rows is a carry: ${Object.keys(skipped).join(', ')}.`);
  }
  return known({ carries, skipped });
}

function plain(heading: string): string {
  return heading
    .trim()
    .toLowerCase()
    .replace(/[\s_-]+/g, ' ');
}

function carryOf(cell: (name: string) => string): Known<FitCarry> {
  const toGoal = cell('yards to goal');
  const yardsToGoal = toGoal === '' ? 100 - numberOf(cell('spot')) : numberOf(toGoal);
  const situation = situationFrom({ down: numberOf(cell('down')), toGo: numberOf(cell('to go')), yardsToGoal });
  if (!situation.known) return situation;
  const gain = numberOf(cell('gain'));
  if (!(Number.isInteger(gain) && gain <= yardsToGoal && gain >= -99)) {
    return unknown('impossible gain', `A gain is whole yards up to the goal line, got ${cell('gain')}.`);
  }
  const box = cell('box') === '' ? null : numberOf(cell('box'));
  if (box !== null && !(Number.isInteger(box) && box >= 0 && box <= 11)) {
    return unknown('impossible box', `A box holds 0 to 11 men, got ${cell('box')}.`);
  }
  const shotgun = yesNo(cell('shotgun'));
  if (shotgun === 'unclear') return unknown('unclear shotgun', `Shotgun is yes or no, got ${cell('shotgun')}.`);
  const words = (name: string) => (cell(name) === '' ? null : cell(name));
  return known({ ...situation.value, gain, shotgun, box, season: words('season'), runner: words('runner') });
}

/** A cell's number; what is no number becomes NaN, which every check after it refuses. */
function numberOf(cell: string): number {
  return cell === '' ? Number.NaN : Number(cell);
}

function yesNo(cell: string): boolean | null | 'unclear' {
  const word = cell.toLowerCase();
  if (word === '') return null;
  if (['1', 'yes', 'true', 'y'].includes(word)) return true;
  return ['0', 'no', 'false', 'n'].includes(word) ? false : 'unclear';
}
