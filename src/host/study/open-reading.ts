import { copyFileSync, existsSync, mkdtempSync, readFileSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, join } from 'node:path';
import SQLite, { type Database } from 'better-sqlite3';

/** A study opened for reading; `close` also takes away what reading needed. */
export type Reading = { readonly database: Database; close(): void };

const mostBytesInMemory = 1024 ** 3;
// Bytes 18 and 19 of an SQLite file: 2 while it is kept with a write-ahead log, 1 without (its file format, section 1.3).
const [writeVersionAt, readVersionAt] = [18, 19];

const stamp = (path: string): string => {
  const { size, mtimeNs } = statSync(path, { bigint: true });
  return `${size} ${mtimeNs}`;
};

/** The whole file in memory, so that reading leaves no files beside it; null while somebody writes, or it is huge. */
function inMemory(path: string): Database | null {
  const before = stamp(path);
  if (existsSync(`${path}-wal`) || statSync(path).size > mostBytesInMemory) return null;
  const bytes = readFileSync(path);
  if (existsSync(`${path}-wal`) || stamp(path) !== before) return null;
  bytes[writeVersionAt] = 1;
  bytes[readVersionAt] = 1;
  return new SQLite(bytes);
}

function onDisk(path: string): Database | null {
  try {
    const database = new SQLite(path, { readonly: true, fileMustExist: true, timeout: 2000 });
    database.pragma('schema_version');
    return database;
  } catch {
    // The log of a study in a folder that can't be written can't be shared; as a copy it can be read.
    return null;
  }
}

/** A copy with its log in a folder of its own, that may be written. */
function asCopy(path: string): Reading {
  const folder = mkdtempSync(join(tmpdir(), 'creasebook-reading-'));
  const remove = (): void => rmSync(folder, { recursive: true, force: true });
  try {
    const copy = join(folder, basename(path));
    copyFileSync(path, copy);
    if (existsSync(`${path}-wal`)) copyFileSync(`${path}-wal`, `${copy}-wal`);
    const database = new SQLite(copy, { timeout: 2000 });
    return {
      database,
      close() {
        database.close();
        remove();
      },
    };
  } catch (cause) {
    remove();
    throw cause;
  }
}

/**
 * Opens a study file for reading only and leaves it, and its folder, as they are. `prepare` may bring an older study up
 * to date; it is given a database that may be written and is not the file itself. Errors of SQLite pass through.
 */
export function openReading(
  path: string,
  { isOlder, prepare }: { isOlder: (database: Database) => boolean; prepare: (database: Database) => void },
): Reading {
  const shared = inMemory(path);
  const live = shared === null ? onDisk(path) : null;
  let reading: Reading;
  if (shared !== null) reading = { database: shared, close: () => shared.close() };
  else if (live !== null && !isOlder(live)) reading = { database: live, close: () => live.close() };
  else {
    live?.close();
    reading = asCopy(path);
  }
  const { database } = reading;
  try {
    if (!database.readonly && isOlder(database)) prepare(database);
    database.pragma('query_only = ON');
    return reading;
  } catch (cause) {
    reading.close();
    throw cause;
  }
}
