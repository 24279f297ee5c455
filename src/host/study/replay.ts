/** The journal played again from its first line: what the tables must hold if nothing was written beside it. */
import { isDeepStrictEqual } from 'node:util';
import type { Database } from 'better-sqlite3';
import { operation, type Operation } from '../../contract/changes.ts';
import { rows, type TableName } from '../../contract/rows.ts';
import { rowStore } from './row-store.ts';

type Values = Readonly<Record<string, unknown>>;
export type ReplayedTables = ReadonlyMap<TableName, ReadonlyMap<string, Values>>;

/** One place where journal and tables disagree, in a sentence. */
export type Difference = { readonly table: string; readonly id: string; readonly says: string };

const operations = operation.array();
const tableNames = Object.keys(rows) as TableName[];

const short = (value: unknown): string => {
  const words = JSON.stringify(value) ?? 'nothing';
  return words.length > 60 ? `${words.slice(0, 60)}…` : words;
};

/**
 * Replays every journal entry in order of position. `broken` names entries that can't be read or that take up where no
 * earlier entry left off (a row added twice, a value that was not what the entry says was there before).
 */
export function replayJournal(database: Database): { readonly tables: ReplayedTables; readonly broken: Difference[] } {
  const tables = new Map<TableName, Map<string, Values>>(tableNames.map((table) => [table, new Map()]));
  const broken: Difference[] = [];
  const entries = database.prepare('SELECT position, operations FROM journal ORDER BY position').iterate();
  for (const found of entries) {
    const { position, operations: kept } = found as { readonly position: number; readonly operations: string };
    let done: Operation[];
    try {
      done = operations.parse(JSON.parse(kept));
    } catch {
      broken.push({ table: 'journal', id: String(position), says: `Entry ${position} of the journal can't be read.` });
      continue;
    }
    for (const { table, id, before, after } of done) {
      const own = tables.get(table);
      if (own === undefined) continue;
      const current = own.get(id);
      const agrees =
        before === null
          ? current === undefined
          : current !== undefined &&
            Object.entries(before).every(([column, was]) => isDeepStrictEqual(current[column], was));
      if (!agrees) {
        const says = `Entry ${position} of the journal changes a ${table} that no earlier entry left as it says.`;
        broken.push({ table, id, says });
      }
      if (after === null) own.delete(id);
      else own.set(id, { ...current, ...after });
    }
  }
  return { tables, broken };
}

/** Columns that a later version of the study added are missing in older entries; they take what the row's shape gives. */
function filled(table: TableName, row: Values): Values {
  const parsed = rows[table].safeParse(row);
  return parsed.success ? { ...parsed.data } : row;
}

function rowDifference(
  table: TableName,
  id: string,
  kept: Values | undefined,
  replayed: Values | undefined,
): Difference | null {
  if (replayed === undefined)
    return { table, id, says: `The ${table} ${id} stands in the study, but no change added it.` };
  const wanted = filled(table, replayed);
  if (kept === undefined)
    return { table, id, says: `The ${table} ${id} is missing; the journal has it as ${short(wanted)}.` };
  const column = Object.keys({ ...kept, ...wanted }).find((name) => !isDeepStrictEqual(kept[name], wanted[name]));
  if (column === undefined) return null;
  const says = `The ${table} ${id} has ${short(kept[column])} as ${column}; the journal says ${short(wanted[column])}.`;
  return { table, id, says };
}

/** Compares every journaled table with the replayed journal; an empty list when they are equal. */
export function journalDifferences(database: Database): Difference[] {
  const { tables, broken } = replayJournal(database);
  const store = rowStore(database);
  const differences = tableNames.flatMap((table) => {
    const kept = new Map<string, Values>(store.all(table).map((row) => [row.id, row]));
    const replayed = tables.get(table) ?? new Map<string, Values>();
    return [...new Set([...kept.keys(), ...replayed.keys()])].flatMap(
      (id) => rowDifference(table, id, kept.get(id), replayed.get(id)) ?? [],
    );
  });
  return [...broken, ...differences];
}
