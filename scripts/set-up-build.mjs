/** The built program: compiled folders in build/, the window in dist/ui. Plain Node 20, no packages. */
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { commandFile, project, run, saying } from './set-up-run.mjs';
import { Trouble } from './set-up-trouble.mjs';

const inputs = ['src', 'electron', 'tsconfig.json', 'package-lock.json', 'scripts/vite.config.ts'];
const outputs = ['build/src/loopback/main.js', 'build/electron/main.js', 'dist/ui/index.html'];

/**
 * One hash of the names and contents of files and folders below a root.
 * @param {string} root
 * @param {readonly string[]} paths relative to it, with slashes; those that are not there count as such
 * @returns {string}
 */
export function hashOf(root, paths) {
  const hash = createHash('sha256');
  /** @param {string} path */
  const add = (path) => {
    const full = join(root, path);
    let entries;
    try {
      entries = readdirSync(full, { withFileTypes: true });
    } catch {
      hash.update(
        `${path}\0${existsSync(full) ? createHash('sha256').update(readFileSync(full)).digest('hex') : 'none'}\0`,
      );
      return;
    }
    for (const name of entries.map((entry) => entry.name).sort()) add(`${path}/${name}`);
  };
  for (const path of paths) add(path);
  return hash.digest('hex');
}

/** The compiler's projects that make up the program: all that tsconfig.json names but the tests. @returns {string[]} */
function programFolders() {
  /** @type {{ references: { path: string }[] }} */
  const { references } = JSON.parse(readFileSync(join(project, 'tsconfig.json'), 'utf8'));
  return references.map(({ path }) => path).filter((path) => path !== 'tests');
}

/**
 * @param {string} what
 * @param {import('./set-up-run.mjs').Ran} ran
 */
function mustHaveWorked(what, { code, output }) {
  if (code === 0) return;
  throw new Trouble(
    `${what} failed:\n${output.trim().split('\n').slice(0, 40).join('\n')}`,
    'Mend what it names and run it again.',
  );
}

/**
 * Builds the program when its sources are not those it was last built from. Throws Trouble with the compiler's words.
 * @param {string} node the project's Node
 */
export async function setUpBuild(node) {
  const stampPath = join(project, 'build', '.creasebook-built');
  const hash = hashOf(project, inputs);
  const built = existsSync(stampPath) && readFileSync(stampPath, 'utf8') === hash;
  if (built && outputs.every((path) => existsSync(join(project, path)))) return;
  try {
    mkdirSync(join(project, 'build'), { recursive: true });
    rmSync(stampPath, { force: true });
  } catch (cause) {
    throw new Trouble(
      `The program must be built, but ${project} can't be written: ${cause instanceof Error ? cause.message : String(cause)}.`,
      'Give yourself the right to write there, or clone the project to a folder of your own.',
    );
  }
  await saying('Building the program', async () => {
    const [compiled, bundled] = await Promise.all([
      run(node, [commandFile('typescript', 'tsc'), '-b', ...programFolders()]),
      run(node, [commandFile('vite', 'vite'), 'build', '-c', 'scripts/vite.config.ts', '--logLevel', 'warn']),
    ]);
    mustHaveWorked('Compiling', compiled);
    mustHaveWorked('Building the window', bundled);
  });
  writeFileSync(stampPath, hash);
}
