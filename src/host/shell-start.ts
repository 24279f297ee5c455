import { existsSync, mkdirSync, readFileSync } from 'node:fs';
import { homedir } from 'node:os';
import { dirname, join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { StudyInfo } from '../contract/calls.ts';
import { FaultError, type Fault } from '../contract/faults.ts';
import { openHost, type Host } from './door.ts';
import type { Native } from './native.ts';
import { demoCopy, writableDataFolder } from './places.ts';

/** What a shell was asked at its start. */
export type ShellStart = {
  /** The program's own folder: package.json, dist/ui and demo/ are in it. */
  readonly program: string;
  /** The study the person named; null for the demo study, where there is one. */
  readonly study: string | null;
  /** More folders the person allows the file browser to show. */
  readonly folders: readonly string[];
  readonly env: NodeJS.ProcessEnv;
  readonly native: Native;
  readonly log: (line: string) => void;
};

/** A host as a shell starts it: `opened` is the study that is open, or why the one wanted is not, or null for none. */
export type StartedShell = {
  readonly host: Host;
  /** Where this program keeps its own files on this machine. */
  readonly data: string;
  readonly opened: StudyInfo | Fault | null;
};

/** The program's own folder, from the address of one of its modules, built or not. Throws when there is none above it. */
export function programFolder(moduleUrl: string): string {
  for (let folder = dirname(fileURLToPath(moduleUrl)); ; folder = dirname(folder)) {
    if (existsSync(join(folder, 'package.json'))) return folder;
    if (dirname(folder) === folder) throw new Error(`no package.json above ${moduleUrl}`);
  }
}

/** Opens the host and the first study, the same way for every shell. Trouble with the study comes back as a fault. */
export async function startShell({ program, study, folders, env, native, log }: ShellStart): Promise<StartedShell> {
  const data = writableDataFolder(env);
  mkdirSync(data, { recursive: true });
  const demo = join(program, 'demo', 'demo.creasebook');
  const first = study === null ? (existsSync(demo) ? demoCopy(demo, data) : null) : resolve(study);
  const { version } = JSON.parse(readFileSync(join(program, 'package.json'), 'utf8')) as { readonly version: string };
  const host = openHost({
    uiFolder: join(program, 'dist', 'ui'),
    filmFolders: [join(program, 'demo', 'films')],
    browseRoots: [
      homedir(),
      program,
      data,
      ...(first === null ? [] : [dirname(first)]),
      ...folders.map((folder) => resolve(folder)),
    ].filter((folder) => existsSync(folder)),
    preferencesPath: join(data, 'preferences.json'),
    programVersion: version,
    native,
    log,
  });
  if (first === null) return { host, data, opened: null };
  try {
    return { host, data, opened: await host.call('study.open', { path: first }) };
  } catch (cause) {
    if (cause instanceof FaultError) return { host, data, opened: cause.fault };
    await host.close();
    throw cause;
  }
}
