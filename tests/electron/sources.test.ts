/** What the shell's sources must not hold, and what the real binary shows where there is one. */
import { execFile } from 'node:child_process';
import { existsSync, globSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { expect, test } from 'vitest';

const project = resolve(import.meta.dirname, '..', '..');
const sources = globSync('electron/**/*.ts', { cwd: project }).map((path) => ({
  path,
  text: readFileSync(join(project, path), 'utf8').replaceAll(/\/\*[\s\S]*?\*\/|\/\/.*$/gm, ''),
}));

test.each([
  'ipcMain',
  'ipcRenderer',
  'contextBridge',
  'preload',
  'executeJavaScript',
  'openExternal',
  'webview>',
  'remote',
])('the desktop shell never uses %s', (word) => {
  expect(sources.filter(({ text }) => text.includes(word)).map(({ path }) => path)).toEqual([]);
});

test('no source turns a wall of the sandbox off', () => {
  const off =
    /(?:sandbox|contextIsolation|webSecurity):\s*false|nodeIntegration\w*:\s*true|webviewTag:\s*true|no-sandbox/;
  expect(sources.filter(({ text }) => off.test(text)).map(({ path }) => path)).toEqual([]);
});

const marker = join(project, 'node_modules', 'electron', 'path.txt');
const binary = existsSync(marker)
  ? join(project, 'node_modules', 'electron', 'dist', readFileSync(marker, 'utf8').trim())
  : null;
const main = join(project, 'build', 'electron', 'main.js');

function whyNot(): string | null {
  if (binary === null || !existsSync(binary)) return "Electron's binary is not on this machine";
  const { DISPLAY: x11, WAYLAND_DISPLAY: wayland } = process.env;
  if (process.platform === 'linux' && x11 === undefined && wayland === undefined) return 'there is no display';
  if (process.getuid?.() === 0) return 'Electron does not run as root with its sandbox on';
  return existsSync(main) ? null : 'the program is not built';
}

test('the real Electron opens the window and says so', async (context) => {
  const why = whyNot();
  if (why !== null || binary === null) {
    context.skip(why ?? 'no binary');
    return;
  }
  const data = mkdtempSync(join(tmpdir(), 'creasebook-electron-'));
  try {
    const said = await new Promise<string>((done) => {
      const child = execFile(
        binary,
        [project],
        { env: { ...process.env, CREASEBOOK_DATA: data }, timeout: 25_000 },
        (_failure, out) => done(out),
      );
      child.stdout?.on('data', (chunk: string) => {
        if (chunk.includes('Creasebook ready')) child.kill('SIGTERM');
      });
    });
    expect(said).toContain('Creasebook ready: creasebook://window/');
  } finally {
    rmSync(data, { recursive: true, force: true });
  }
});
