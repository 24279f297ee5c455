import { basename } from 'node:path';
import type { Database } from 'better-sqlite3';
import { v7 as uuidv7 } from 'uuid';
import type { Change, JournalEntry, Operation } from '../../contract/changes.ts';
import { faultOf, FaultError } from '../../contract/faults.ts';
import { applyOperations, applySteps, inverse } from './change.ts';
import { openDatabase, type OpenDatabase } from './open.ts';
import { rowStore, type RowStore } from './row-store.ts';
import { storageFault } from './storage-fault.ts';

type Kind = 'change' | 'undo' | 'redo';
type JournalHead = { readonly position: number; readonly id: string; readonly label: string };

/** What a change did, and what can be taken back now. */
export type Made = {
  entry: string;
  label: string;
  operations: number;
  canUndo: boolean;
  canRedo: boolean;
  touched: string[];
};
export type UndoState = { canUndo: boolean; canRedo: boolean; undoLabel: string | null; redoLabel: string | null };

/** An open study: rows to read, changes to make, a journal of all that was done. */
export type Study = {
  readonly database: Database;
  readonly rows: RowStore;
  readonly path: string;
  readonly readOnlyBecause: string | null;
  /** Makes a change in one durable transaction; throws a FaultError and changes nothing when refused. */
  make(change: Change): Made;
  /** Takes back one's own last change that still stands; a redo takes back the taking back. */
  undo(by: string | null): Made;
  redo(by: string | null): Made;
  undoState(by: string | null): UndoState;
  /** Journal entries that touched one row, oldest first. */
  history(table: string, id: string): JournalEntry[];
  /** The journal's last position: changes whenever anything journaled did. */
  position(): number;
  close(): void;
};

/** Tables in which rows came or went, or were set where a window lists them: what it has to read again. */
function touchedBy(operations: readonly Operation[]): string[] {
  const counted = new Set(['play', 'part', 'mark', 'span', 'moment', 'step', 'chalk', 'lane', 'decision', 'holding']);
  return [
    ...new Set(
      operations
        .filter(({ table, before, after }) => !counted.has(table) || before === null || after === null)
        .map(({ table }) => table),
    ),
  ];
}

/** Opens (or with `create` makes) a study; `now` gives milliseconds since 1970 UTC. Throws a FaultError as openDatabase does. */
export function openStudy(
  path: string,
  {
    create = false,
    readOnly = false,
    now = Date.now,
  }: { create?: boolean; readOnly?: boolean; now?: () => number } = {},
): Study {
  const opened = openDatabase(path, { create, readOnly });
  try {
    return studyOf(opened, now);
  } catch (cause) {
    opened.close();
    throw tablesMissing(cause) ? damaged(path, cause) : storageFault(cause);
  }
}

// SQLite says "no such table" with its plainest code: the file claims to be a study and has no journal.
const tablesMissing = (cause: unknown): cause is Error =>
  cause instanceof Error && 'code' in cause && cause.code === 'SQLITE_ERROR';

const damaged = (path: string, cause: Error): FaultError =>
  new FaultError(
    faultOf(
      'study-damaged',
      `${basename(path)} can't be read as a study: ${cause.message}.`,
      'Open a backup, or run `creasebook check` on it to see what is left.',
    ),
  );

const head = (found: unknown): JournalHead | null => (found === undefined ? null : (found as JournalHead));

function studyOf(opened: OpenDatabase, now: () => number): Study {
  const { database } = opened;
  const store = rowStore(database);
  const lastAt = database
    .prepare('SELECT max(at) FROM (SELECT at FROM journal ORDER BY position DESC LIMIT 1)')
    .pluck();
  const insertEntry = database.prepare(
    'INSERT INTO journal (id, kind, by, at, label, undoes, operations) VALUES (?, ?, ?, ?, ?, ?, ?)',
  );
  const insertTouched = database.prepare(
    'INSERT OR IGNORE INTO journal_row (position, table_name, row_id) VALUES (?, ?, ?)',
  );
  const lastPosition = database.prepare('SELECT ifnull(max(position), 0) FROM journal').pluck();
  const operationsOf = database.prepare('SELECT operations FROM journal WHERE id = ?').pluck();
  const undoable = database.prepare(
    `SELECT position, id, label FROM journal AS j WHERE by IS ? AND kind IN ('change', 'redo')
     AND NOT EXISTS (SELECT 1 FROM journal AS u WHERE u.undoes = j.id) ORDER BY position DESC LIMIT 1`,
  );
  const redoable = database.prepare(
    `SELECT position, id, label FROM journal AS j WHERE by IS ? AND kind = 'undo'
     AND NOT EXISTS (SELECT 1 FROM journal AS u WHERE u.undoes = j.id)
     AND position > (SELECT ifnull(max(position), 0) FROM journal WHERE by IS ? AND kind = 'change') ORDER BY position DESC LIMIT 1`,
  );
  const touching = database.prepare(
    `SELECT j.id, j.position, j.by, j.at, j.label, j.undoes, j.operations FROM journal_row r JOIN journal j USING (position)
     WHERE r.table_name = ? AND r.row_id = ? ORDER BY position`,
  );

  const undoState = (by: string | null): UndoState => {
    const undo = head(undoable.get(by));
    const redo = head(redoable.get(by, by));
    return {
      canUndo: undo !== null,
      canRedo: redo !== null,
      undoLabel: undo?.label ?? null,
      redoLabel: redo?.label ?? null,
    };
  };
  const record = (
    kind: Kind,
    by: string | null,
    label: string,
    undoes: string | null,
    operations: readonly Operation[],
  ): string => {
    // The clock of the study never falls: a computer's clock set back must not reorder the journal.
    const before = lastAt.get();
    const at = Math.max(now(), typeof before === 'number' ? before : 0);
    const id = uuidv7({ msecs: at });
    const { lastInsertRowid } = insertEntry.run(id, kind, by, at, label, undoes, JSON.stringify(operations));
    for (const { table, id: rowId } of operations) insertTouched.run(lastInsertRowid, table, rowId);
    return id;
  };
  const guarded = (work: () => Omit<Made, 'canUndo' | 'canRedo'>, by: string | null): Made => {
    if (opened.readOnlyBecause !== null) {
      throw new FaultError(
        faultOf(
          'read-only',
          `This study can only be read. ${opened.readOnlyBecause}`,
          'Save a copy where you may write, and open that.',
        ),
      );
    }
    let made: Omit<Made, 'canUndo' | 'canRedo'>;
    try {
      made = database
        .transaction(() => {
          database.pragma('defer_foreign_keys = ON');
          return work();
        })
        .immediate();
    } catch (cause) {
      throw storageFault(cause);
    }
    const { canUndo, canRedo } = undoState(by);
    return { ...made, canUndo, canRedo };
  };
  const takeBack = (kind: 'undo' | 'redo', by: string | null, found: JournalHead | null): Made =>
    guarded(() => {
      if (found === null) {
        throw new FaultError(
          faultOf(
            'undo-nothing',
            `There is nothing of yours to ${kind}.`,
            'Changes by others are theirs to take back.',
          ),
        );
      }
      const operations = inverse(JSON.parse(String(operationsOf.get(found.id))) as Operation[]);
      applyOperations(store, operations);
      const entry = record(kind, by, found.label, found.id, operations);
      return { entry, label: found.label, operations: operations.length, touched: touchedBy(operations) };
    }, by);

  return {
    database,
    rows: store,
    path: opened.path,
    readOnlyBecause: opened.readOnlyBecause,
    make: ({ by, label, steps }) =>
      guarded(() => {
        const operations = applySteps(store, steps);
        const entry = operations.length === 0 ? uuidv7() : record('change', by, label, null, operations);
        return { entry, label, operations: operations.length, touched: touchedBy(operations) };
      }, by),
    undo: (by) => takeBack('undo', by, head(undoable.get(by))),
    redo: (by) => takeBack('redo', by, head(redoable.get(by, by))),
    undoState,
    history: (table, id) =>
      touching.all(table, id).map((found) => {
        const entry = found as Omit<JournalEntry, 'operations'> & { operations: string };
        const operations = (JSON.parse(entry.operations) as Operation[]).filter(
          (operation) => operation.table === table && operation.id === id,
        );
        return { ...entry, operations };
      }),
    position: () => Number(lastPosition.get()),
    close: () => opened.close(),
  };
}
