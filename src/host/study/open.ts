import {
  existsSync,
  accessSync,
  constants,
  closeSync,
  copyFileSync,
  openSync,
  readSync,
  rmSync,
  statSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, dirname, join } from 'node:path';
import SQLite, { type Database } from 'better-sqlite3';
import { faultOf, FaultError } from '../../contract/faults.ts';
import { migrations, newestVersion } from './migrations/all.ts';

/** "CREA" in ASCII: SQLite's application id of a study. */
export const applicationId = 0x43524541;

/** An open study file. */
export type OpenDatabase = {
  readonly database: Database;
  readonly path: string;
  /** Why it can't be written, in words; null when it can. */
  readonly readOnlyBecause: string | null;
  close(): void;
};

function looksLikeSQLite(path: string): boolean {
  const head = Buffer.alloc(16);
  const file = openSync(path, 'r');
  try {
    const read = readSync(file, head, 0, 16, 0);
    return read === 0 || head.toString('latin1') === 'SQLite format 3\0';
  } finally {
    closeSync(file);
  }
}

/** Holds a lock that the system lets go of when the process ends, however it ends; null when another process holds it. */
function holdLock(path: string): (() => void) | null {
  const lockPath = join(dirname(path), `.${basename(path)}.lock`);
  const lock = new SQLite(lockPath, { timeout: 0 });
  try {
    lock.pragma('journal_mode = MEMORY');
    lock.exec('BEGIN EXCLUSIVE');
  } catch {
    lock.close();
    return null;
  }
  return () => {
    rmSync(lockPath, { force: true });
    lock.close();
  };
}

function writable(path: string): boolean {
  try {
    if (existsSync(path)) accessSync(path, constants.W_OK);
    accessSync(dirname(path), constants.W_OK);
    return true;
  } catch {
    return false;
  }
}

function migrate(database: Database, path: string): void {
  const from = Number(database.pragma('user_version', { simple: true }));
  if (from === newestVersion) return;
  if (from > 0) {
    database.pragma('wal_checkpoint(TRUNCATE)');
    copyFileSync(path, `${path}.before-version-${newestVersion}`);
  }
  for (const { version, sql } of migrations) {
    if (version <= from) continue;
    database.transaction(() => {
      database.exec(sql);
      database.pragma(`user_version = ${version}`);
    })();
  }
}

function notAStudy(path: string): FaultError {
  return new FaultError(
    faultOf('not-a-study', `${basename(path)} is not a Creasebook study.`, 'Choose a file that ends in .creasebook.'),
  );
}

function checkIdentity(database: Database, path: string): number {
  let id: number;
  let version: number;
  try {
    id = Number(database.pragma('application_id', { simple: true }));
    version = Number(database.pragma('user_version', { simple: true }));
  } catch (cause) {
    throw new FaultError(
      faultOf(
        'study-damaged',
        `${basename(path)} can't be read as a study: ${cause instanceof Error ? cause.message : String(cause)}.`,
        'Open a backup, or run `creasebook check` on it.',
      ),
    );
  }
  if (id !== applicationId) throw notAStudy(path);
  return version;
}

/**
 * Opens a study file, or makes one with `create`.
 * A newer study, a read-only place and a study open elsewhere come back read-only with the reason.
 * Throws a FaultError when there is no file, or it is no study, or it is damaged.
 */
export function openDatabase(path: string, { create = false, readOnly = false } = {}): OpenDatabase {
  const exists = existsSync(path);
  if (!exists && !create) {
    throw new FaultError(
      faultOf('study-missing', `There is no study at ${path}.`, 'Check the path, or make a new study there.'),
    );
  }
  if (exists && create) {
    throw new FaultError(
      faultOf('refused', `${path} is there already.`, 'Open it, or choose another name for the new study.'),
    );
  }
  if (create && !existsSync(dirname(path))) {
    throw new FaultError(
      faultOf('study-missing', `There is no folder ${dirname(path)}.`, 'Choose a folder that exists.'),
    );
  }
  if (exists && (!statSync(path).isFile() || !looksLikeSQLite(path))) throw notAStudy(path);

  let because = readOnly ? 'It was asked for to be read only.' : null;
  if (because === null && !writable(path)) {
    if (create) {
      throw new FaultError(
        faultOf('read-only', `${dirname(path)} can't be written.`, 'Choose a folder you may write to.'),
      );
    }
    because = 'The file or its folder is read-only.';
  }
  let release = because === null ? holdLock(path) : (): void => undefined;
  if (release === null) {
    because = 'It is open in another window or program.';
    release = (): void => undefined;
  }
  const letGo = release;
  let database: Database | undefined;
  try {
    database = because === null ? new SQLite(path, { timeout: 2000 }) : openReading(path);
    if (create) {
      database.pragma(`application_id = ${applicationId}`);
    } else {
      const version = checkIdentity(database, path);
      if (version > newestVersion && because === null) {
        database.close();
        because = `It was made by a newer Creasebook (study version ${version}; this program writes ${newestVersion}).`;
        database = openReading(path);
      }
    }
    if (because === null) {
      database.pragma('journal_mode = WAL');
      database.pragma('synchronous = FULL');
      migrate(database, path);
    }
    database.pragma('foreign_keys = ON');
    database.pragma('cache_size = -65536');
  } catch (cause) {
    database?.close();
    letGo();
    throw cause;
  }
  const opened = database;
  return {
    database: opened,
    path,
    readOnlyBecause: because,
    close() {
      opened.close();
      letGo();
    },
  };
}

function openReading(path: string): Database {
  try {
    const database = new SQLite(path, { readonly: true, timeout: 2000 });
    database.pragma('schema_version');
    return database;
  } catch {
    // A WAL study in a folder that can't be written can't make its side files; as a still copy it can be read.
    return new SQLite(readingCopy(path), { readonly: true });
  }
}

function readingCopy(path: string): string {
  const copy = join(tmpdir(), `creasebook-reading-${process.pid}-${basename(path)}`);
  copyFileSync(path, copy);
  if (existsSync(`${path}-wal`)) copyFileSync(`${path}-wal`, `${copy}-wal`);
  return copy;
}
