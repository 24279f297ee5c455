/**
 * Runs one of the project's other scripts on the project's Node, set up first: `node scripts/run.mjs FILE.ts [arguments]`.
 * `--needs build,chromium,ffmpeg,pdftotext` before the file names what it needs beside the packages; `--tests` takes a
 * vitest configuration instead of a script. Paths in the arguments are from where the person stands.
 */
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { commandFile, project, run } from './set-up-run.mjs';
import { setUp } from './set-up.mjs';
import { runCommand } from './set-up-trouble.mjs';

const own = process.argv.slice(2);
const place = own.findIndex((arg, at) => !arg.startsWith('--') && own[at - 1] !== '--needs');
const { values } = parseArgs({
  args: own.slice(0, Math.max(place, 0)),
  options: { needs: { type: 'string', default: '' }, tests: { type: 'boolean', default: false } },
});
const [file, ...args] = own.slice(place);

await runCommand(async () => {
  if (place < 0 || file === undefined) throw new Error('run.mjs takes the file to run');
  const needs = values.needs.split(',');
  const programs = /** @type {const} */ (['chromium', 'ffmpeg', 'pdftotext']).filter((name) => needs.includes(name));
  const { node, env } = await setUp({ build: needs.includes('build'), programs });
  const cwd = values.tests ? project : (process.env['INIT_CWD'] ?? process.cwd());
  const command = values.tests
    ? [commandFile('vitest', 'vitest'), 'run', '-c', join(project, file), ...args]
    : [join(project, file), ...args];
  return (await run(node, command, { show: true, env, cwd })).code;
});
