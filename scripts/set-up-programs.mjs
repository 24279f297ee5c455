/** Programs of the system that the project uses: a Chromium-family browser; for tests also ffmpeg and pdftotext. */
import { accessSync, constants, existsSync, statSync } from 'node:fs';
import { delimiter, join } from 'node:path';
import { createInterface } from 'node:readline/promises';
import { pathToFileURL } from 'node:url';
import { project, run, saying } from './set-up-run.mjs';

/**
 * What of the machine decides where programs are and how they are come by.
 * @typedef {object} Machine
 * @property {NodeJS.ProcessEnv} env
 * @property {NodeJS.Platform} platform
 * @property {boolean} root true for the superuser
 * @property {boolean} terminal true where a person can be asked
 * @property {boolean} debian true on Debian and what derives from it
 */

/** @typedef {'chromium' | 'ffmpeg' | 'pdftotext'} Program */

/** @type {Record<Program, { names: string[], debian: string, use: string }>} */
const programs = {
  chromium: {
    names: ['chromium', 'chromium-browser', 'google-chrome', 'google-chrome-stable', 'microsoft-edge', 'brave-browser'],
    debian: 'chromium',
    use: 'to print a dossier as PDF and, without the desktop window, to show the program in a window of its own',
  },
  ffmpeg: { names: ['ffmpeg'], debian: 'ffmpeg', use: 'to make the films that some tests read' },
  pdftotext: { names: ['pdftotext'], debian: 'poppler-utils', use: 'to read printed dossiers in some tests' },
};

/** @type {Partial<Record<NodeJS.Platform, string[]>>} */
const usualBrowsers = {
  darwin: [
    '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
    '/Applications/Chromium.app/Contents/MacOS/Chromium',
    '/Applications/Microsoft Edge.app/Contents/MacOS/Microsoft Edge',
  ],
  win32: [
    String.raw`C:\Program Files\Google\Chrome\Application\chrome.exe`,
    String.raw`C:\Program Files (x86)\Microsoft\Edge\Application\msedge.exe`,
    String.raw`C:\Program Files\Microsoft\Edge\Application\msedge.exe`,
  ],
};

/** This machine. @returns {Machine} */
export function thisMachine() {
  return {
    env: process.env,
    platform: process.platform,
    root: process.getuid?.() === 0,
    terminal: process.stdin.isTTY && process.stdout.isTTY,
    debian: existsSync('/etc/debian_version'),
  };
}

/** @param {string} path */
function runs(path) {
  try {
    accessSync(path, constants.X_OK);
    return statSync(path).isFile();
  } catch {
    return false;
  }
}

/**
 * Finds a program: the browser by CHROMIUM in the environment first, then the PATH, then the usual places.
 * @param {Program} program
 * @param {Machine} machine
 * @returns {string | null} its path
 */
export function findProgram(program, { env, platform }) {
  const asked = program === 'chromium' ? env['CHROMIUM'] : undefined;
  const endings = platform === 'win32' ? ['.exe'] : [''];
  const onPath = (env['PATH'] ?? env['Path'] ?? '')
    .split(delimiter)
    .filter((folder) => folder !== '')
    .flatMap((folder) =>
      programs[program].names.flatMap((name) => endings.map((ending) => join(folder, name + ending))),
    );
  const usual = program === 'chromium' ? (usualBrowsers[platform] ?? []) : [];
  return [...(asked === undefined || asked === '' ? [] : [asked]), ...onPath, ...usual].find(runs) ?? null;
}

/** The browser that Playwright downloaded for itself, where somebody had it do so. @returns {Promise<string | null>} */
async function playwrightBrowser() {
  const entry = join(project, 'node_modules', 'playwright', 'index.mjs');
  if (!existsSync(entry)) return null;
  const { chromium } = await import(pathToFileURL(entry).href);
  const path = chromium.executablePath();
  return runs(path) ? path : null;
}

/**
 * How missing programs are come by on a machine: 'install' without asking (no one to ask, or CI), 'ask' the person at
 * the terminal, or 'explain' where this program may not or can't install.
 * @param {Machine} machine
 * @returns {'install' | 'ask' | 'explain'}
 */
export function wayToInstall({ env, root, terminal, debian }) {
  if (!debian || !root) return 'explain';
  const ci = env['CI'] !== undefined && env['CI'] !== '' && env['CI'] !== 'false';
  return ci || !terminal ? 'install' : 'ask';
}

/** @param {readonly string[]} packages */
async function installOnDebian(packages) {
  const env = { ...process.env, DEBIAN_FRONTEND: 'noninteractive' };
  const minutes = 60_000;
  return saying(`Installing ${packages.join(', ')} with apt-get`, async () => {
    const updated = await run('apt-get', ['update', '-qq'], { env, timeoutMs: 3 * minutes });
    const ran = await run('apt-get', ['install', '-y', '-qq', '--no-install-recommends', ...packages], {
      env,
      timeoutMs: 10 * minutes,
    });
    if (ran.code === 0) return true;
    const words = `${updated.code === 0 ? '' : updated.output}${ran.output}`.trim().split('\n').at(-1) ?? '';
    console.error(`  it could not be installed: ${words.slice(0, 200)}`);
    return false;
  });
}

/** @param {string} question */
async function askYes(question) {
  const asking = createInterface({ input: process.stdin, output: process.stdout });
  const answer = await asking.question(`${question} [Y/n] `);
  asking.close();
  return /^(?:|y|yes)$/i.test(answer.trim());
}

/** @param {Machine} machine @param {readonly Program[]} missing */
function explain({ platform, debian }, missing) {
  for (const program of missing) {
    const { debian: name, use } = programs[program];
    const how = debian
      ? `sudo apt-get install ${name}`
      : `install ${program === 'chromium' ? 'Chromium, Chrome or Edge' : name} for ${platform}`;
    console.error(`There is no ${program} on this machine; it is used ${use}. To have it: ${how}.`);
  }
}

/**
 * Finds programs and sees to those that are missing, as far as that may be done. Never throws for one that can't be had.
 * @param {readonly Program[]} wanted
 * @param {Machine} machine
 * @returns {Promise<Record<Program, string | null>>} paths; null for what is not there or was not wanted
 */
export async function setUpPrograms(wanted, machine = thisMachine()) {
  const isMissing = (/** @type {Program} */ program) => findProgram(program, machine) === null;
  const bundled = wanted.includes('chromium') && isMissing('chromium') ? await playwrightBrowser() : null;
  const missing = wanted.filter((program) => isMissing(program) && !(program === 'chromium' && bundled !== null));
  if (missing.length > 0) {
    const packages = missing.map((program) => programs[program].debian);
    const way = wayToInstall(machine);
    const install =
      way === 'install' || (way === 'ask' && (await askYes(`Install ${packages.join(', ')} with apt-get?`)));
    if (!install || !(await installOnDebian(packages))) explain(machine, missing);
  }
  /** @param {Program} program */
  const found = (program) => (wanted.includes(program) ? findProgram(program, machine) : null);
  return { chromium: found('chromium') ?? bundled, ffmpeg: found('ffmpeg'), pdftotext: found('pdftotext') };
}
