import { type Dirent, existsSync, readdirSync, realpathSync, statSync } from 'node:fs';
import { dirname, extname, join, resolve, sep } from 'node:path';
import type { CallInput, CallOutput } from '../../contract/calls.ts';
import { faultOf, FaultError } from '../../contract/faults.ts';

const filmEndings = new Set(['.mp4', '.m4v', '.mov', '.webm', '.mkv', '.ts', '.mts', '.m2ts']);
const mostEntries = 2000;

function wanted(name: string, want: CallInput<'files.browse'>['want']): boolean {
  const ending = extname(name).toLowerCase();
  switch (want) {
    case 'film':
      return filmEndings.has(ending);
    case 'study':
      return ending === '.creasebook';
    case 'any':
      return true;
  }
}

/** True when a path, links followed, lies in one of the allowed folders. Both must exist. */
export function isWithin(path: string, roots: readonly string[]): boolean {
  const real = realpathSync(path);
  return roots.some((root) => {
    // An allowed folder may be gone (a drive that was taken out); the others still count.
    if (!existsSync(root)) return false;
    const realRoot = realpathSync(root);
    return real === realRoot || real.startsWith(realRoot.endsWith(sep) ? realRoot : realRoot + sep);
  });
}

/** Throws a FaultError unless the path exists inside the allowed folders. */
export function allowedPath(path: string, roots: readonly string[]): string {
  let inside: boolean;
  try {
    inside = isWithin(path, roots);
  } catch {
    throw new FaultError(faultOf('not-found', `There is nothing at ${path}.`, 'Choose it from the list.'));
  }
  if (!inside) {
    throw new FaultError(
      faultOf(
        'forbidden',
        `${path} is outside the folders this program was allowed.`,
        `Start it with --folder to allow another folder.`,
      ),
    );
  }
  return path;
}

/** Throws a FaultError unless the path, there or not yet, has its nearest existing folder inside the allowed ones. */
export function allowedPlace(path: string, roots: readonly string[]): string {
  let there = resolve(path);
  while (!existsSync(there) && dirname(there) !== there) there = dirname(there);
  allowedPath(there, roots);
  return path;
}

function entriesOf(folder: string): Dirent[] {
  try {
    return readdirSync(folder, { withFileTypes: true });
  } catch (cause) {
    const why =
      cause instanceof Error && 'code' in cause && cause.code === 'ENOTDIR'
        ? 'it is not a folder'
        : 'this user may not read it';
    throw new FaultError(faultOf('refused', `${folder} can't be listed: ${why}.`, 'Choose another folder.'));
  }
}

/** Lists one folder for the program's own file browser: folders first, then the files wanted, by name. */
export function browse(
  { folder, want }: CallInput<'files.browse'>,
  roots: readonly string[],
): CallOutput<'files.browse'> {
  const [firstRoot = '/'] = roots;
  const here = allowedPath(folder ?? firstRoot, roots);
  const entries = entriesOf(here)
    .filter((entry) => !entry.name.startsWith('.'))
    .flatMap((entry) => {
      const path = join(here, entry.name);
      try {
        const stats = statSync(path);
        if (stats.isDirectory()) return [{ name: entry.name, path, folder: true, bytes: 0 }];
        return stats.isFile() && wanted(entry.name, want)
          ? [{ name: entry.name, path, folder: false, bytes: stats.size }]
          : [];
      } catch {
        return [];
      }
    })
    .toSorted((a, b) => Number(b.folder) - Number(a.folder) || a.name.localeCompare(b.name, 'en', { numeric: true }));
  const parent = dirname(here);
  const upward = parent !== here && isWithin(parent, roots);
  return {
    folder: here,
    parent: upward ? parent : null,
    roots: [...roots],
    entries: entries.slice(0, mostEntries),
    truncated: entries.length > mostEntries,
  };
}
