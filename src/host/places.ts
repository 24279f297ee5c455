import { createHash } from 'node:crypto';
import { accessSync, constants, copyFileSync, chmodSync, existsSync, mkdirSync, readFileSync } from 'node:fs';
import { homedir, platform, tmpdir } from 'node:os';
import { join } from 'node:path';

/** Where this program keeps its own files on this machine, by the system's custom. */
export function dataFolder(env: NodeJS.ProcessEnv): string {
  const own = env['CREASEBOOK_DATA'];
  if (own !== undefined && own !== '') return own;
  switch (platform()) {
    case 'darwin':
      return join(homedir(), 'Library', 'Application Support', 'Creasebook');
    case 'win32':
      return join(env['APPDATA'] ?? join(homedir(), 'AppData', 'Roaming'), 'Creasebook');
    default:
      return join(env['XDG_DATA_HOME'] ?? join(homedir(), '.local', 'share'), 'creasebook');
  }
}

/** The data folder if it can be written, else a temporary one. */
export function writableDataFolder(env: NodeJS.ProcessEnv): string {
  const folder = dataFolder(env);
  try {
    mkdirSync(folder, { recursive: true });
    accessSync(folder, constants.W_OK);
    return folder;
  } catch {
    const other = join(tmpdir(), 'creasebook');
    mkdirSync(other, { recursive: true });
    return other;
  }
}

/**
 * Gives the path of a copy of the demo study that may be written, made on first use.
 * Each edition of the demo (by its content) has its own copy, so work in an older one is never overwritten.
 */
export function demoCopy(demoStudy: string, folder: string): string {
  const edition = createHash('sha256').update(readFileSync(demoStudy)).digest('hex').slice(0, 8);
  const place = join(folder, `demo-${edition}`);
  const copy = join(place, 'Demo season.creasebook');
  if (!existsSync(copy)) {
    mkdirSync(place, { recursive: true });
    copyFileSync(demoStudy, copy);
    chmodSync(copy, 0o644);
  }
  return copy;
}
