import { rmSync, statSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import SQLite from 'better-sqlite3';

const mostTries = 5;

function fileNumber(path: string): bigint | null {
  try {
    return statSync(path, { bigint: true }).ino;
  } catch {
    return null;
  }
}

/**
 * Holds the right to write a study, by a lock beside it that the system lets go of when the process ends, however it
 * ends. `path` is the study's real path, links followed. Gives the way to let go; null when another holds it.
 */
export function holdLock(path: string): (() => void) | null {
  const lockPath = join(dirname(path), `.${basename(path)}.lock`);
  for (let tries = 0; tries < mostTries; tries += 1) {
    const lock = new SQLite(lockPath, { timeout: 0 });
    const opened = fileNumber(lockPath);
    try {
      lock.pragma('journal_mode = MEMORY');
      lock.exec('BEGIN EXCLUSIVE');
    } catch {
      lock.close();
      return null;
    }
    // The last holder may have taken the file away between our opening and our locking: then ours locks nothing.
    if (opened !== null && fileNumber(lockPath) === opened) {
      return () => {
        rmSync(lockPath, { force: true });
        lock.close();
      };
    }
    lock.close();
  }
  return null;
}
