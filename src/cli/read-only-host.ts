import { readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import type { Directory } from '../contract/calls.ts';
import { openHost, type Host } from '../host/door.ts';
import { dataFolder } from '../host/places.ts';
import { programFolder } from '../host/shell-start.ts';

/** The program's folder, its version and where its own films are. */
export function program(): { readonly version: string; readonly filmFolders: readonly string[] } {
  const folder = programFolder(import.meta.url);
  const { version } = JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8')) as { readonly version: string };
  return { version, filmFolders: [join(folder, 'demo', 'films')] };
}

/** Opens a study for reading only, does the work with it and closes it; throws a FaultError when it can't be opened. */
export async function withStudy<Answer>(
  study: string,
  work: (host: Host, directory: Directory) => Promise<Answer>,
): Promise<Answer> {
  const { version, filmFolders } = program();
  const host = openHost({
    uiFolder: null,
    filmFolders,
    browseRoots: [],
    preferencesPath: join(dataFolder(process.env), 'preferences.json'),
    programVersion: version,
    native: {},
    log: (line) => process.stderr.write(`${line}\n`),
    readOnly: true,
  });
  try {
    await host.call('study.open', { path: resolve(study) });
    return await work(host, await host.call('directory.read', {}));
  } finally {
    await host.close();
  }
}
