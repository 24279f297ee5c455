/** What the set-up decides, part by part. */
import { chmodSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { delimiter, join } from 'node:path';
import { tmpdir } from 'node:os';
import fc from 'fast-check';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { hashOf } from '../../scripts/set-up-build.mjs';
import { checkNode, holdsAll, installTrouble, projectNode } from '../../scripts/set-up-packages.mjs';
import { findProgram, wayToInstall, type Machine } from '../../scripts/set-up-programs.mjs';
import { run } from '../../scripts/set-up-run.mjs';
import { Trouble } from '../../scripts/set-up-trouble.mjs';
import { whyNoDesktop } from '../../scripts/start-desktop.mjs';
import { countReport, inWords, sumOf } from '../../scripts/test-counts.mjs';

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'creasebook-set-up-'));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

const write = (path: string, text: string): void => {
  mkdirSync(join(folder, path, '..'), { recursive: true });
  writeFileSync(join(folder, path), text);
};

const machine = (env: NodeJS.ProcessEnv, more: Partial<Machine> = {}): Machine => ({
  env,
  platform: 'linux',
  root: false,
  terminal: true,
  debian: true,
  ...more,
});

const program = (path: string, mode = 0o755): string => {
  const full = join(folder, path);
  mkdirSync(join(full, '..'), { recursive: true });
  writeFileSync(full, '#!/bin/sh\n');
  chmodSync(full, mode);
  return full;
};

const report = (...files: { status: string; tests: string[] }[]) => ({
  testResults: files.map(({ status, tests }, place) => ({
    name: `${place}.test.ts`,
    status,
    assertionResults: tests.map((one) => ({ status: one })),
  })),
});

describe('the packages', () => {
  const lock = {
    packages: {
      '': { version: '0.1.0' },
      'node_modules/a': { version: '1.0.0' },
      'node_modules/for-another-system': { version: '2.0.0', optional: true },
    },
  };

  test('are all there when each has the version of the lock file', () => {
    expect(holdsAll(lock, { packages: { 'node_modules/a': { version: '1.0.0' } } })).toBe(true);
  });

  test.each([
    ['one is missing', {}],
    ['one is older', { 'node_modules/a': { version: '0.9.0' } }],
    [
      'an optional one is another',
      { 'node_modules/a': { version: '1.0.0' }, 'node_modules/for-another-system': { version: '1.0.0' } },
    ],
  ])('are not when %s', (_why, packages) => {
    expect(holdsAll(lock, { packages })).toBe(false);
  });

  test.each([
    ['npm error code ENOTFOUND', 'the package registry was not reached (ENOTFOUND)'],
    ['npm error code EAI_AGAIN', 'the package registry was not reached (EAI_AGAIN)'],
    ['npm error code ENOSPC', 'the disk is full'],
    ['npm error code EACCES', "can't be written (EACCES)"],
    ['npm error something else', 'npm said:\nnpm error something else'],
  ])('that can not be installed are told of in a sentence (%s)', (output, says) => {
    const trouble = installTrouble(output);
    expect(trouble).toBeInstanceOf(Trouble);
    expect(trouble.message).toContain(says);
    expect(trouble.next).not.toBe('');
  });
});

describe('Node', () => {
  test.each(['20.0.0', '20.20.2', '24.1.0', '26.0.0'])('%s sets the project up', (version) => {
    expect(() => checkNode(version)).not.toThrow();
  });

  test.each(['18.20.0', '16.1.0', '8.0.0'])('%s is too old, said with what is wanted and what was found', (version) => {
    expect(() => checkNode(version)).toThrow(`Creasebook is set up by Node 20 or newer; this is Node ${version}.`);
  });

  test('of the project is 24 and starts', async () => {
    const { code, output } = await run(await projectNode(), ['--version']);
    expect(code).toBe(0);
    expect(Number(/^v(\d+)\./.exec(output)?.[1])).toBeGreaterThanOrEqual(24);
  });
});

describe('the hash of the sources', () => {
  test('stays while nothing changed', () => {
    write('src/a/one.ts', '1');
    write('src/b.ts', '2');
    expect(hashOf(folder, ['src', 'none.json'])).toBe(hashOf(folder, ['src', 'none.json']));
  });

  test.each([
    ['a file says something else', () => write('src/a/one.ts', '2')],
    ['a file came', () => write('src/a/two.ts', '')],
    ['a file went', () => rmSync(join(folder, 'src/b.ts'))],
    ['a file took another name', () => (rmSync(join(folder, 'src/b.ts')), write('src/c.ts', '2'))],
    ['a file that was not there is', () => write('none.json', '{}')],
  ])('changes when %s', (_what, change) => {
    write('src/a/one.ts', '1');
    write('src/b.ts', '2');
    const before = hashOf(folder, ['src', 'none.json']);
    change();
    expect(hashOf(folder, ['src', 'none.json'])).not.toBe(before);
  });
});

describe('programs of the system', () => {
  test('are found on the PATH, the first folder first', () => {
    const first = program('one/google-chrome');
    program('two/chromium');
    const path = [join(folder, 'none'), join(folder, 'one'), join(folder, 'two')].join(delimiter);
    expect(findProgram('chromium', machine({ PATH: path }))).toBe(first);
  });

  test('are found by CHROMIUM before the PATH, and by the PATH when CHROMIUM names nothing', () => {
    const asked = program('own/browser');
    const found = program('one/chromium');
    const path = join(folder, 'one');
    expect(findProgram('chromium', machine({ PATH: path, CHROMIUM: asked }))).toBe(asked);
    expect(findProgram('chromium', machine({ PATH: path, CHROMIUM: join(folder, 'gone') }))).toBe(found);
  });

  test('are not found where a file can not be run or is a folder', () => {
    program('one/ffmpeg', 0o644);
    mkdirSync(join(folder, 'two/ffmpeg'), { recursive: true });
    expect(findProgram('ffmpeg', machine({ PATH: [join(folder, 'one'), join(folder, 'two')].join(delimiter) }))).toBe(
      null,
    );
    expect(findProgram('pdftotext', machine({}))).toBe(null);
  });

  test('are installed without asking only as root on Debian where no one can be asked or CI is set', () => {
    fc.assert(
      fc.property(
        fc.boolean(),
        fc.boolean(),
        fc.boolean(),
        fc.constantFrom(undefined, '', 'false', 'true', '1'),
        (root, terminal, debian, ci) => {
          const env = ci === undefined ? {} : { CI: ci };
          const way = wayToInstall(machine(env, { root, terminal, debian }));
          const inCi = ci === 'true' || ci === '1';
          expect(way === 'explain').toBe(!(root && debian));
          if (way === 'install') expect(inCi || !terminal).toBe(true);
          if (way === 'ask') expect(terminal && !inCi).toBe(true);
        },
      ),
    );
  });
});

describe('the desktop window', () => {
  const start = {
    env: { DISPLAY: ':0' } as NodeJS.ProcessEnv,
    platform: 'linux' as NodeJS.Platform,
    root: false,
    args: [] as string[],
  };

  test('is for a start with a display, not as root', () => {
    expect(whyNoDesktop(start)).toBe(null);
    expect(whyNoDesktop({ ...start, env: { WAYLAND_DISPLAY: 'wayland-0' } })).toBe(null);
    expect(whyNoDesktop({ ...start, env: {} })).toBe('there is no display');
    expect(whyNoDesktop({ ...start, root: true })).toBe('Electron does not run as root with its sandbox on');
    expect(whyNoDesktop({ ...start, env: {}, platform: 'darwin' })).toBe(null);
  });

  test.each([['--port', '4000'], ['--port=4000'], ['--no-open']])(
    'is not for one that asks for an address (%s)',
    (...args) => {
      expect(whyNoDesktop({ ...start, args })).toMatch(/^--(?:port|no-open) asks for an address$/);
    },
  );
});

describe('the sum of the tests', () => {
  test('counts what passed, failed and was skipped, for whatever reason', () => {
    const counts = countReport(
      report({ status: 'failed', tests: ['passed', 'failed', 'pending', 'todo', 'skipped', 'passed'] }),
      1,
    );
    expect(inWords(counts)).toBe('2 passed, 1 failed, 3 skipped');
  });

  test('counts a file that broke before its first test as a failure', () => {
    expect(countReport(report({ status: 'failed', tests: [] }, { status: 'passed', tests: ['passed'] }), 1)).toEqual({
      passed: 1,
      failed: 1,
      skipped: 0,
    });
  });

  test('counts a file whose end broke after its tests had passed as a failure', () => {
    expect(countReport(report({ status: 'failed', tests: ['passed'] }), 1).failed).toBe(1);
  });

  test('counts a run that ended badly, or told nothing, as a failure', () => {
    expect(countReport(report({ status: 'passed', tests: ['passed'] }), 1).failed).toBe(1);
    expect(countReport(null, 0).failed).toBe(1);
    expect(countReport(report({ status: 'passed', tests: ['passed'] }), 0).failed).toBe(0);
  });

  test('is the sum of its parts', () => {
    expect(sumOf([{ passed: 1, failed: 2, skipped: 3 }, { passed: 4, failed: 5, skipped: 6 }, sumOf([])])).toEqual({
      passed: 5,
      failed: 7,
      skipped: 9,
    });
  });
});
