import { existsSync } from 'node:fs';
import { resolve } from 'node:path';
import { parseArgs } from 'node:util';

/** What a start of the desktop window was asked. */
export type DesktopArguments = {
  readonly study: string | null;
  readonly folders: readonly string[];
  /** True when the window is to load the loopback address instead of the scheme. */
  readonly loopback: boolean;
};

/**
 * Reads a command line of the desktop program. Switches meant for Chromium pass by unread; a study may also come bare,
 * as the system gives a file that was opened with this program. `cwd` is where relative paths start.
 */
export function desktopArguments(args: readonly string[], cwd: string): DesktopArguments {
  const { values, positionals } = parseArgs({
    args: [...args],
    strict: false,
    allowPositionals: true,
    options: { study: { type: 'string' }, folder: { type: 'string', multiple: true }, loopback: { type: 'boolean' } },
  });
  const bare = positionals.find((path) => path.endsWith('.creasebook') && existsSync(resolve(cwd, path)));
  const named = typeof values.study === 'string' ? values.study : bare;
  const folders = (values.folder ?? []).filter((folder) => typeof folder === 'string');
  return {
    study: named === undefined ? null : resolve(cwd, named),
    folders: folders.map((folder) => resolve(cwd, folder)),
    loopback: values.loopback === true,
  };
}
