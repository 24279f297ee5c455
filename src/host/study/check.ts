/** Looks a study through without writing to it: the file, what rows point at, the rows themselves, and the journal. */
import type { Database } from 'better-sqlite3';
import { FaultError } from '../../contract/faults.ts';
import { rows, type TableName } from '../../contract/rows.ts';
import { problemsOf } from '../../contract/rules.ts';
import { filmPath } from '../films/film-path.ts';
import { openDatabase } from './open.ts';
import { journalDifferences } from './replay.ts';
import { rowStore } from './row-store.ts';
import { storageFault } from './storage-fault.ts';
import { sqlName } from './tables.ts';

/** One thing wrong with a study: where it was found, and a sentence. */
export type Finding = { readonly where: 'file' | 'ties' | 'rows' | 'journal'; readonly says: string };

/** What a check found. `sound`: nothing wrong with the study itself; films that are elsewhere don't count against it. */
export type StudyCheck = {
  readonly path: string;
  readonly sound: boolean;
  readonly version: number | null;
  readonly rows: number;
  readonly journalEntries: number;
  readonly findings: readonly Finding[];
  readonly missingFilms: readonly { readonly name: string; readonly path: string }[];
};

const mostOfAKind = 100;
const tableNames = Object.keys(rows) as TableName[];

function fileFindings(database: Database): Finding[] {
  return database
    .prepare(`PRAGMA integrity_check(${mostOfAKind})`)
    .pluck()
    .all()
    .filter((says) => says !== 'ok')
    .map((says) => ({ where: 'file', says: `SQLite says: ${String(says)}.` }));
}

function tieFindings(database: Database): Finding[] {
  return database
    .prepare('PRAGMA foreign_key_check')
    .all()
    .slice(0, mostOfAKind)
    .map((found) => {
      const { table, parent, rowid } = found as { table: string; parent: string; rowid: number | null };
      return { where: 'ties', says: `Row ${rowid ?? '?'} of ${table} points at a ${parent} that is not there.` };
    });
}

function rowFindings(database: Database): { readonly rows: number; readonly findings: Finding[] } {
  const store = rowStore(database);
  const findings: Finding[] = [];
  let count = 0;
  for (const table of tableNames) {
    for (const row of store.all(table)) {
      count += 1;
      if (findings.length >= mostOfAKind) continue;
      const parsed = rows[table].safeParse(row);
      const [issue] = parsed.error?.issues ?? [];
      const worst = parsed.success
        ? problemsOf(table, parsed.data).find(({ weight }) => weight === 'impossible')?.says
        : `${issue?.path.map(String).join('.') ?? ''}: ${issue?.message ?? 'it does not fit'}`;
      if (worst !== undefined) findings.push({ where: 'rows', says: `The ${table} ${row.id} can't be: ${worst}` });
    }
  }
  return { rows: count, findings };
}

/** A part of the check that damage can stop: what stopped it is a finding too. */
function attempt<Answer>(what: string, work: () => Answer, otherwise: Answer, findings: Finding[]): Answer {
  try {
    return work();
  } catch (cause) {
    const known = storageFault(cause);
    const says = known instanceof Error ? known.message : String(known);
    findings.push({ where: 'file', says: `${what} can't be read: ${says}` });
    return otherwise;
  }
}

/**
 * Checks a study: SQLite's own integrity check, rows that point at nothing, rows that can't be, tables against the
 * replayed journal (at most 100 findings of each), and films that are not found. Writes nothing. Throws a FaultError
 * where there is no study to check; damage is told as findings.
 */
export function checkStudy(path: string, { filmFolders }: { readonly filmFolders: readonly string[] }): StudyCheck {
  const nothing = { path, sound: false, version: null, rows: 0, journalEntries: 0, missingFilms: [] } as const;
  let opened;
  try {
    opened = openDatabase(path, { readOnly: true });
  } catch (cause) {
    if (!(cause instanceof FaultError) || cause.fault.fault !== 'study-damaged') throw cause;
    return { ...nothing, findings: [{ where: 'file', says: cause.fault.says }] };
  }
  const { database } = opened;
  try {
    const findings: Finding[] = [];
    findings.push(...attempt('The file', () => fileFindings(database), [], findings));
    findings.push(...attempt('What rows point at', () => tieFindings(database), [], findings));
    const looked = attempt('The rows', () => rowFindings(database), { rows: 0, findings: [] }, findings);
    findings.push(...looked.findings);
    const differences = attempt('The journal', () => journalDifferences(database), [], findings);
    findings.push(...differences.slice(0, mostOfAKind).map(({ says }) => ({ where: 'journal', says }) as const));
    const films = attempt('The films', () => rowStore(database).all('film'), [], findings);
    const count = (table: string): number =>
      attempt(
        `The ${table}`,
        () =>
          Number(
            database
              .prepare(`SELECT count(*) FROM ${sqlName(table)}`)
              .pluck()
              .get(),
          ),
        0,
        findings,
      );
    return {
      path,
      version: Number(database.pragma('user_version', { simple: true })),
      rows: looked.rows,
      journalEntries: count('journal'),
      missingFilms: films
        .filter((film) => filmPath(film, path, filmFolders) === null)
        .map((film) => ({ name: film.name, path: film.path })),
      findings,
      sound: findings.length === 0,
    };
  } finally {
    opened.close();
  }
}
