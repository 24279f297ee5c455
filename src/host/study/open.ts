import {
  existsSync,
  accessSync,
  constants,
  closeSync,
  copyFileSync,
  openSync,
  readSync,
  realpathSync,
  rmSync,
  statSync,
} from 'node:fs';
import { basename, dirname } from 'node:path';
import SQLite, { type Database } from 'better-sqlite3';
import { faultOf, FaultError } from '../../contract/faults.ts';
import { migrations as ownMigrations, type Migration } from './migrations/all.ts';
import { openReading } from './open-reading.ts';
import { storageFault } from './storage-fault.ts';
import { holdLock } from './study-lock.ts';

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

/** How to open: make a new study, read only, and by which migrations (tests name others than the program's own). */
export type OpenHow = {
  readonly create?: boolean;
  readonly readOnly?: boolean;
  readonly migrations?: readonly Migration[];
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

function writable(path: string): boolean {
  try {
    if (existsSync(path)) accessSync(path, constants.W_OK);
    accessSync(dirname(path), constants.W_OK);
    return true;
  } catch {
    return false;
  }
}

const versionOf = (database: Database): number => Number(database.pragma('user_version', { simple: true }));
const newestOf = (migrations: readonly Migration[]): number => migrations.at(-1)?.version ?? 0;

/** Brings a database up to the newest version, each step in its own transaction. */
function migrate(database: Database, migrations: readonly Migration[]): void {
  const from = versionOf(database);
  for (const { version, sql } of migrations) {
    if (version <= from) continue;
    database.transaction(() => {
      database.exec(sql);
      database.pragma(`user_version = ${version}`);
    })();
  }
}

function backUp(database: Database, path: string, newest: number): void {
  const from = versionOf(database);
  if (from === 0 || from >= newest) return;
  database.pragma('wal_checkpoint(TRUNCATE)');
  copyFileSync(path, `${path}.before-version-${newest}`);
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
    version = versionOf(database);
  } catch (cause) {
    const fault = storageFault(cause);
    if (fault instanceof FaultError && fault.fault.fault !== 'study-damaged') throw fault;
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

function refuseBadPlace(path: string, create: boolean): void {
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
  if (create && !writable(path)) {
    throw new FaultError(
      faultOf('read-only', `${dirname(path)} can't be written.`, 'Choose a folder you may write to.'),
    );
  }
  if (exists && (!statSync(path).isFile() || !looksLikeSQLite(path))) throw notAStudy(path);
}

/** Takes a study's files away: of one that could not be made whole. */
export function removeStudyFiles(path: string): void {
  for (const ending of ['', '-wal', '-shm', '-journal']) rmSync(`${path}${ending}`, { force: true });
}

function openToRead(path: string, because: string, migrations: readonly Migration[]): OpenDatabase {
  const isOlder = (database: Database): boolean => checkIdentity(database, path) < newestOf(migrations);
  const reading = openReading(path, {
    isOlder,
    prepare: (older) => migrate(older, migrations),
  });
  reading.database.pragma('cache_size = -65536');
  return { database: reading.database, path, readOnlyBecause: because, close: () => reading.close() };
}

function openToWrite(path: string, create: boolean, migrations: readonly Migration[]): OpenDatabase {
  const real = create ? path : realpathSync(path);
  const release = holdLock(real);
  if (release === null) return openToRead(path, 'It is open in another window or program.', migrations);
  let database: Database | undefined;
  try {
    database = new SQLite(real, { timeout: 2000, fileMustExist: !create });
    if (create) database.pragma(`application_id = ${applicationId}`);
    const version = checkIdentity(database, path);
    const newest = newestOf(migrations);
    if (version > newest) {
      database.close();
      release();
      const because = `It was made by a newer Creasebook (study version ${version}; this program writes ${newest}).`;
      return openToRead(path, because, migrations);
    }
    database.pragma('journal_mode = WAL');
    database.pragma('synchronous = FULL');
    backUp(database, real, newest);
    migrate(database, migrations);
    database.pragma('foreign_keys = ON');
    database.pragma('cache_size = -65536');
  } catch (cause) {
    database?.close();
    if (create) removeStudyFiles(path);
    release();
    throw cause;
  }
  const opened = database;
  return {
    database: opened,
    path,
    readOnlyBecause: null,
    close() {
      opened.close();
      release();
    },
  };
}

/**
 * Opens a study file, or makes one with `create`.
 * A newer study, a read-only place and a study open elsewhere come back read-only with the reason; read-only, neither
 * the file nor its folder is touched, and an older study is brought up to date in memory or in a copy.
 * Throws a FaultError when there is no file, or it is no study, or it is damaged, or the disk is full; one that could
 * not be made whole is taken away again.
 */
export function openDatabase(
  path: string,
  { create = false, readOnly = false, migrations = ownMigrations }: OpenHow = {},
): OpenDatabase {
  try {
    refuseBadPlace(path, create);
    if (readOnly) return openToRead(path, 'It was asked for to be read only.', migrations);
    if (!writable(path)) return openToRead(path, 'The file or its folder is read-only.', migrations);
    return openToWrite(path, create, migrations);
  } catch (cause) {
    throw storageFault(cause);
  }
}
