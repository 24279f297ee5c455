/**
 * `npm start`: from a fresh clone to the running program. The desktop window where Electron can be had and there is a
 * display; otherwise one line says why, and the program is served to a browser window on this machine.
 * Arguments after `--` are handed on: --study FILE, --folder DIR, --port N, --no-open.
 */
import { spawn } from 'node:child_process';
import { join } from 'node:path';
import { setUp } from './set-up.mjs';
import { project } from './set-up-run.mjs';
import { runCommand } from './set-up-trouble.mjs';
import { forwardSignals, haveElectron, runDesktop, whyNoDesktop } from './start-desktop.mjs';

/**
 * @param {string} node
 * @param {NodeJS.ProcessEnv} env
 * @param {readonly string[]} args
 * @returns {Promise<number>}
 */
function runLoopback(node, env, args) {
  return new Promise((done) => {
    const child = spawn(node, [join(project, 'build', 'src', 'loopback', 'main.js'), ...args], {
      env,
      stdio: 'inherit',
    });
    const stop = forwardSignals(child);
    child.on('error', (cause) => {
      console.error(cause.message);
      done(1);
    });
    child.on('close', (code) => {
      stop();
      done(code ?? 1);
    });
  });
}

/** @param {readonly string[]} args */
async function start(args) {
  const { node, env } = await setUp({ build: true, programs: ['chromium'] });
  const root = process.getuid?.() === 0;
  let why = whyNoDesktop({ env, platform: process.platform, root, args });
  if (why === null) {
    const electron = await haveElectron(node);
    const ran = 'binary' in electron ? await runDesktop(electron.binary, args) : electron;
    if ('code' in ran) return ran.code;
    ({ why } = ran);
  }
  console.log(`No desktop window, because ${why}; a browser window is served instead.`);
  return runLoopback(node, env, args);
}

await runCommand(() => start(process.argv.slice(2)));
