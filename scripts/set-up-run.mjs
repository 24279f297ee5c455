/** Starting other programs from the project's scripts. Plain Node 20, no packages. */
import { spawn } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';

/** The project's folder. */
export const project = resolve(fileURLToPath(new URL('..', import.meta.url)));

/**
 * @typedef {object} Ran
 * @property {number} code the exit code; 127 when there is no such program, 124 when it took too long
 * @property {string} output what it printed, both streams as they came, the last megabyte
 */

/**
 * Runs a program to its end. Never rejects: trouble is in the code and the output.
 * @param {string} program
 * @param {readonly string[]} args
 * @param {{ show?: boolean, env?: NodeJS.ProcessEnv, timeoutMs?: number, cwd?: string, shell?: boolean }} [options]
 *   `show` prints what it prints, as it comes
 * @returns {Promise<Ran>}
 */
export function run(
  program,
  args,
  { show = false, env = process.env, timeoutMs = 0, cwd = project, shell = false } = {},
) {
  return new Promise((done) => {
    let output = '';
    let late = false;
    const child = spawn(program, args, { cwd, env, shell, stdio: show ? 'inherit' : ['ignore', 'pipe', 'pipe'] });
    /** @param {Buffer} chunk */
    const hear = (chunk) => (output = (output + chunk.toString()).slice(-1_000_000));
    child.stdout?.on('data', hear);
    child.stderr?.on('data', hear);
    const timer =
      timeoutMs === 0
        ? null
        : setTimeout(() => {
            late = true;
            child.kill('SIGKILL');
          }, timeoutMs);
    /** @param {number} code */
    const end = (code) => {
      if (timer !== null) clearTimeout(timer);
      done({ code: late ? 124 : code, output });
    };
    child.on('error', (cause) => {
      output += cause.message;
      end(127);
    });
    child.on('close', (code) => end(code ?? 1));
  });
}

/**
 * The file behind a package's command, to be run with the project's Node (so that no shell is between, on any system).
 * @param {string} packageName
 * @param {string} command
 * @returns {string}
 */
export function commandFile(packageName, command) {
  const folder = join(project, 'node_modules', packageName);
  /** @type {{ bin?: string | Record<string, string> }} */
  const { bin } = JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8'));
  const file = typeof bin === 'string' ? bin : bin?.[command];
  if (file === undefined) throw new Error(`the package ${packageName} has no command ${command}`);
  return join(folder, file);
}

/**
 * Says on stderr (stdout is for answers) what is being done, does it, and says how long it took.
 * @template Value
 * @param {string} what
 * @param {() => Promise<Value>} work
 * @returns {Promise<Value>}
 */
export async function saying(what, work) {
  const began = performance.now();
  console.error(`${what} ...`);
  const value = await work();
  console.error(`  done in ${((performance.now() - began) / 1000).toFixed(1)} s`);
  return value;
}
