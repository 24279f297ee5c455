/** The packages of the lock file in node_modules, and the project's own Node among them. Plain Node 20, no packages. */
import { createHash } from 'node:crypto';
import { accessSync, constants, existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { project, run, saying } from './set-up-run.mjs';
import { Trouble } from './set-up-trouble.mjs';

const oldestNode = 20;
const wantedNode = 24;

/**
 * @typedef {object} LockedPackage
 * @property {string} [version]
 * @property {boolean} [optional]
 */
/** @typedef {{ packages?: Record<string, LockedPackage> }} Lock */

/**
 * True when what npm notes as installed has every package of the lock file in its version. Optional ones may be absent,
 * being for other systems.
 * @param {Lock} lock
 * @param {Lock} installed npm's own note, node_modules/.package-lock.json
 */
export function holdsAll(lock, installed) {
  return Object.entries(lock.packages ?? {}).every(([path, { version, optional }]) => {
    if (path === '') return true;
    const found = installed.packages?.[path];
    return found === undefined ? optional === true : found.version === version;
  });
}

/**
 * @param {string} path
 * @returns {Lock | null}
 */
function readLock(path) {
  try {
    return JSON.parse(readFileSync(path, 'utf8'));
  } catch {
    return null;
  }
}

/**
 * Why npm could not install, in a sentence a person can act on.
 * @param {string} output what npm printed
 * @returns {Trouble}
 */
export function installTrouble(output) {
  const code = /npm (?:error|ERR!) code (\S+)/.exec(output)?.[1] ?? '';
  if (/ENOTFOUND|EAI_AGAIN|ETIMEDOUT|ECONNREFUSED|ECONNRESET|ENETUNREACH|ERR_SOCKET_TIMEOUT/.test(code + output)) {
    return new Trouble(
      `The packages could not be fetched: the package registry was not reached (${code || 'no connection'}).`,
      'Connect this machine to the network, or check the proxy settings of npm, and run it again.',
    );
  }
  if (/ENOSPC/.test(code + output)) {
    return new Trouble('The packages could not be installed: the disk is full.', 'Free about 1.5 GB and run it again.');
  }
  if (/EACCES|EPERM|EROFS/.test(code)) {
    return new Trouble(
      `The packages could not be installed: ${join(project, 'node_modules')} can't be written (${code}).`,
      'Give yourself the right to write there, or clone the project to a folder of your own.',
    );
  }
  const words = output.trim().split('\n').slice(-12).join('\n');
  return new Trouble(`The packages could not be installed. npm said:\n${words}`, 'Run `npm ci` to see all of it.');
}

/**
 * Throws Trouble when this Node is too old to set the project up.
 * @param {string} version as in process.versions.node
 */
export function checkNode(version) {
  if (Number(version.split('.')[0]) >= oldestNode) return;
  throw new Trouble(
    `Creasebook is set up by Node ${oldestNode} or newer; this is Node ${version}.`,
    'Install a newer Node and run it again.',
  );
}

/** npm as it was called, else as it is on the PATH. @returns {{ program: string, before: string[], shell: boolean }} */
function npmProgram() {
  const { npm_execpath: file, npm_node_execpath: node } = process.env;
  // Not with the project's own Node: installing takes it away and puts it back.
  if (file !== undefined && node !== undefined && existsSync(file) && existsSync(node)) {
    return { program: node, before: [file], shell: false };
  }
  return { program: 'npm', before: [], shell: process.platform === 'win32' };
}

/** Installs the packages of the lock file when node_modules is missing or holds others. Throws Trouble. */
export async function setUpPackages() {
  checkNode(process.versions.node);
  const lockPath = join(project, 'package-lock.json');
  const modules = join(project, 'node_modules');
  const stampPath = join(modules, '.creasebook-stamp');
  const stamp = createHash('sha256').update(readFileSync(lockPath)).digest('hex');
  if (existsSync(stampPath) && readFileSync(stampPath, 'utf8') === stamp) return;

  const lock = readLock(lockPath);
  if (lock === null) throw new Trouble('package-lock.json is not JSON.', 'Take it anew from the repository.');
  const installed = readLock(join(modules, '.package-lock.json'));
  const complete = installed !== null && holdsAll(lock, installed);
  try {
    if (!complete) mkdirSync(modules, { recursive: true });
    accessSync(modules, constants.W_OK);
  } catch {
    if (complete) return;
    throw installTrouble('npm error code EACCES');
  }
  if (!complete) {
    const npm = npmProgram();
    await saying('Installing the packages (about half a minute the first time)', async () => {
      const { code, output } = await run(
        npm.program,
        [...npm.before, 'ci', '--no-audit', '--no-fund', '--loglevel=error'],
        {
          shell: npm.shell,
        },
      );
      if (code === 127) {
        throw new Trouble('npm was not found; it comes with Node.', 'Install Node with npm and run it again.');
      }
      if (code !== 0) throw installTrouble(output);
    });
  }
  writeFileSync(stampPath, stamp);
}

/**
 * The Node that runs the program: the project's own where its packages hold one for this system, else this one when it
 * is new enough. Throws Trouble when neither is.
 * @returns {Promise<string>} the path of its binary
 */
export async function projectNode() {
  const { platform, arch } = process;
  const file = platform === 'win32' ? 'node.exe' : 'node';
  const system = platform === 'win32' ? 'win' : platform;
  for (const name of [`node-${system}-${arch}`, `node-bin-${system}-${arch}`]) {
    const path = join(project, 'node_modules', name, 'bin', file);
    // Run once: a binary for another C library is there and yet does not start.
    if (existsSync(path) && (await run(path, ['--version'])).code === 0) return path;
  }
  if (Number(process.versions.node.split('.')[0]) >= wantedNode) return process.execPath;
  throw new Trouble(
    `Creasebook runs on Node ${wantedNode}. The project brings its own for Linux, macOS and Windows, but none that starts on ` +
      `this system (${platform}, ${arch}), and this one is ${process.versions.node}.`,
    `Install Node ${wantedNode} or newer and run it again.`,
  );
}
