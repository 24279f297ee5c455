import { existsSync, statSync } from 'node:fs';
import { basename, dirname, isAbsolute, join, resolve } from 'node:path';
import type { Film } from '../../contract/rows.ts';

/**
 * Where a film's file is: the path kept, then beside the study, then in the given folders, by name and size.
 * Null when it is in none of them.
 */
export function filmPath(film: Film, studyPath: string, folders: readonly string[]): string | null {
  const candidates = [
    isAbsolute(film.path) ? film.path : resolve(dirname(studyPath), film.path),
    join(dirname(studyPath), basename(film.path)),
    ...folders.flatMap((folder) => [resolve(folder, film.path), join(folder, basename(film.path))]),
  ];
  return (
    candidates.find((path) => existsSync(path) && statSync(path).isFile() && statSync(path).size === film.bytes) ?? null
  );
}
