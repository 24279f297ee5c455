/** The desktop window as npm start opens it: whether it can be had here, and running it. Plain Node 20, no packages. */
import { spawn } from 'node:child_process';
import { existsSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { project, run, saying } from './set-up-run.mjs';

const electronFolder = join(project, 'node_modules', 'electron');
const triedNote = join(project, 'node_modules', '.creasebook-electron-tried');
const retryAfterMs = 24 * 3_600_000;
/** A window that ends with trouble this soon after its start has never been of use. */
const soonMs = 15_000;

/** @returns {string | null} the path of Electron's binary, when it is there */
export function electronBinary() {
  try {
    const path = join(electronFolder, 'dist', readFileSync(join(electronFolder, 'path.txt'), 'utf8').trim());
    return existsSync(path) ? path : null;
  } catch {
    return null;
  }
}

/**
 * Why the desktop window is not for this start, whatever of Electron is there; null when nothing speaks against it.
 * @param {{ env: NodeJS.ProcessEnv, platform: NodeJS.Platform, root: boolean, args: readonly string[] }} start
 * @returns {string | null}
 */
export function whyNoDesktop({ env, platform, root, args }) {
  const named = args.find((arg) => /^--(?:port|no-open)(?:=|$)/.test(arg));
  if (named !== undefined) return `${named.split('=')[0]} asks for an address`;
  if (platform !== 'linux') return null;
  if (!env['DISPLAY'] && !env['WAYLAND_DISPLAY']) return 'there is no display';
  if (root) return 'Electron does not run as root with its sandbox on';
  return null;
}

/**
 * Electron's binary, fetched when it is not there yet; a fetch that failed is not tried again for a day.
 * @param {string} node the project's Node
 * @returns {Promise<{ binary: string } | { why: string }>}
 */
export async function haveElectron(node) {
  const present = electronBinary();
  if (present !== null) return { binary: present };
  if (existsSync(triedNote) && Date.now() - statSync(triedNote).mtimeMs < retryAfterMs) {
    return { why: `Electron's binary could not be fetched less than a day ago (delete ${triedNote} to try again)` };
  }
  const { code, output } = await saying("Fetching Electron's binary (about 110 MB, once)", () =>
    run(node, [join(electronFolder, 'install.js')], { timeoutMs: 10 * 60_000 }),
  );
  const binary = electronBinary();
  if (binary !== null) return { binary };
  try {
    writeFileSync(triedNote, output.slice(0, 4000));
  } catch {
    // In a read-only folder it is tried each time.
  }
  const [network] = /\b(?:ENOTFOUND|EAI_AGAIN|ECONNREFUSED|ETIMEDOUT|ENETUNREACH|ECONNRESET)\b/.exec(output) ?? [];
  const cause = network ?? (/fetch failed/.test(output) ? 'its server was not reached' : `code ${code}`);
  return { why: `Electron's binary could not be fetched (${cause})` };
}

/**
 * Runs the desktop window until it is closed.
 * @param {string} binary
 * @param {readonly string[]} args
 * @returns {Promise<{ code: number } | { why: string }>} the exit code, or why it never came up
 */
export function runDesktop(binary, args) {
  return new Promise((done) => {
    const began = Date.now();
    let ready = false;
    let said = '';
    const child = spawn(binary, [project, ...args], { cwd: process.cwd(), stdio: ['inherit', 'pipe', 'pipe'] });
    child.stdout.on('data', (/** @type {Buffer} */ chunk) => {
      if (chunk.includes('Creasebook ready')) ready = true;
      process.stdout.write(chunk);
    });
    child.stderr.on('data', (/** @type {Buffer} */ chunk) => {
      if (ready) process.stderr.write(chunk);
      else said = (said + chunk.toString()).slice(-4000);
    });
    const stop = forwardSignals(child);
    child.on('error', (cause) => {
      stop();
      done({ why: `Electron did not start (${cause.message})` });
    });
    child.on('close', (code, signal) => {
      stop();
      if (!ready && Date.now() - began < soonMs && (code !== 0 || signal !== null)) {
        const last = said.trim().split('\n').at(-1) ?? '';
        done({ why: `Electron did not come up (${last.slice(0, 160) || `code ${code ?? signal}`})` });
        return;
      }
      if (!ready) process.stderr.write(said);
      done({ code: code ?? 1 });
    });
  });
}

/**
 * Passes this process's ending signals on to a child. Gives what takes the forwarding off again.
 * @param {import('node:child_process').ChildProcess} child
 * @returns {() => void}
 */
export function forwardSignals(child) {
  /** @type {NodeJS.Signals[]} */
  const signals = ['SIGINT', 'SIGTERM', 'SIGHUP'];
  const forward = (/** @type {NodeJS.Signals} */ signal) => {
    child.kill(signal);
  };
  for (const signal of signals) process.on(signal, forward);
  return () => {
    for (const signal of signals) process.off(signal, forward);
  };
}
