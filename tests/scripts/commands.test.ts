/** The commands as a person runs them: what they print, how they end, and that foreseen trouble is a sentence. */
import { spawn, type ChildProcess } from 'node:child_process';
import { cpSync, existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createServer, type AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';

const project = resolve(import.meta.dirname, '..', '..');
const loopback = join(project, 'build', 'src', 'loopback', 'main.js');
const built = existsSync(loopback) && existsSync(join(project, 'dist', 'ui', 'index.html'));

let folder: string;
const running: ChildProcess[] = [];
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'creasebook-commands-'));
});
afterEach(() => {
  for (const child of running.splice(0)) child.kill('SIGKILL');
  rmSync(folder, { recursive: true, force: true });
});

type Program = { words: () => string; code: Promise<number | null>; end: (signal: NodeJS.Signals) => void };

function program(file: string, args: readonly string[], env: NodeJS.ProcessEnv = {}): Program {
  const child = spawn(process.execPath, [file, ...args], {
    cwd: project,
    env: { ...process.env, CREASEBOOK_DATA: join(folder, 'data'), ...env },
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  running.push(child);
  let words = '';
  for (const stream of [child.stdout, child.stderr]) stream.on('data', (chunk: Buffer) => (words += chunk.toString()));
  const code = new Promise<number | null>((done) => child.on('close', done));
  return { words: () => words, code, end: (signal) => child.kill(signal) };
}

const readyLine = /^Creasebook ready: (http:\/\/127\.0\.0\.1:\d+\/\?key=\S+)$/m;

describe.skipIf(!built)('the program served to a browser (skipped where it is not built)', () => {
  test.each(['SIGINT', 'SIGTERM'] as const)(
    'says where it is as its last line, answers there, and ends cleanly on %s',
    async (signal) => {
      const served = program(loopback, ['--no-open']);
      await expect.poll(() => readyLine.test(served.words()), { timeout: 20_000 }).toBe(true);
      expect(served.words().trimEnd().split('\n').at(-1)).toMatch(readyLine);
      const [, address = ''] = readyLine.exec(served.words()) ?? [];
      const opened = await fetch(address, { redirect: 'manual' });
      const cookie = opened.headers.get('set-cookie')?.split(';')[0] ?? '';
      const page = await fetch(new URL('/', address), { headers: { cookie } });
      expect(await page.text()).toContain('<title>Creasebook</title>');
      served.end(signal);
      expect(await served.code).toBe(0);
      await expect(fetch(address)).rejects.toThrow();
    },
  );

  test('takes the port asked for, and says in a sentence when that is taken', async () => {
    const taken = createServer();
    await new Promise<void>((done) => taken.listen(0, '127.0.0.1', done));
    const { port } = taken.address() as AddressInfo;
    const refused = program(loopback, ['--no-open', '--port', `${port}`]);
    expect(await refused.code).toBe(1);
    expect(refused.words()).toMatch(new RegExp(`^Port ${port} can't be used: .*EADDRINUSE.*--port`));
    expect(refused.words()).not.toMatch(/^\s+at /m);
    await new Promise((done) => taken.close(done));
    const served = program(loopback, ['--no-open', '--port', `${port}`]);
    await expect
      .poll(() => served.words(), { timeout: 20_000 })
      .toContain(`Creasebook ready: http://127.0.0.1:${port}/`);
    served.end('SIGTERM');
    expect(await served.code).toBe(0);
  });

  test.each([
    [['--port', 'high'], '--port takes a whole number from 0 to 65535, got high.', 2],
    [['--port', '65536'], '--port takes a whole number from 0 to 65535, got 65536.', 2],
    [['--bogus'], "Unknown option '--bogus'. It takes --study FILE", 2],
    [['--study', '/nowhere/at-all.creasebook'], 'There is no study at /nowhere/at-all.creasebook.', 1],
  ])('answers %j with a sentence and an exit code', async (args, says, code) => {
    const refused = program(loopback, ['--no-open', ...args]);
    expect(await refused.code).toBe(code);
    expect(refused.words()).toContain(says);
    expect(refused.words()).not.toMatch(/^\s+at /m);
  });

  test('says that a file is no study', async () => {
    const file = join(folder, 'notes.creasebook');
    writeFileSync(file, 'These are only notes.');
    const refused = program(loopback, ['--no-open', '--study', file]);
    expect(await refused.code).toBe(1);
    expect(refused.words()).toContain('notes.creasebook is not a Creasebook study.');
  });
});

describe('a set-up without a network', () => {
  test('says so in a sentence, without a stack, with exit code 1', async () => {
    const clone = join(folder, 'clone');
    mkdirSync(clone);
    for (const name of ['package.json', 'package-lock.json', 'tsconfig.json', 'scripts']) {
      cpSync(join(project, name), join(clone, name), { recursive: true });
    }
    const start = program(join(clone, 'scripts', 'start.mjs'), ['--no-open'], {
      npm_config_registry: 'http://127.0.0.1:9/',
      npm_config_fetch_retries: '0',
      npm_config_cache: join(folder, 'cache'),
    });
    expect(await start.code).toBe(1);
    expect(start.words()).toContain(
      'The packages could not be fetched: the package registry was not reached (ECONNREFUSED).',
    );
    expect(start.words()).not.toMatch(/^\s+at /m);
  });
});

describe('the whole of what CI runs', () => {
  test('is npm test and nothing cleverer', () => {
    const lines = readFileSync(join(project, '.ci', 'run'), 'utf8')
      .trim()
      .split('\n');
    expect(lines).toEqual(['#!/usr/bin/env bash', 'set -euo pipefail', 'cd "$(dirname "$0")/.."', 'npm test']);
  });

  test('has a file for every command of package.json', () => {
    const { scripts } = JSON.parse(readFileSync(join(project, 'package.json'), 'utf8')) as {
      scripts: Record<string, string>;
    };
    const files = Object.values(scripts).flatMap((command) =>
      [...command.matchAll(/\S+\.(?:mjs|ts|json)\b/g)].map(([file]) => file),
    );
    expect(files.length).toBeGreaterThanOrEqual(Object.keys(scripts).length);
    expect(files.filter((file) => !existsSync(join(project, file)))).toEqual([]);
  });
});
