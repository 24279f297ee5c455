/** Starts and ends of the desktop shell, and what its menu does. */
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { bareHost, Desktop } from './desktop.ts';
import { StandInWindow } from './stand-in.ts';

let desktop: Desktop;
beforeEach(() => {
  desktop = new Desktop();
});
afterEach(() => desktop.clear());

describe('a start of the desktop window', () => {
  test('registers the scheme, privileged, before Electron is ready, and answers it after', async () => {
    await desktop.load([]);
    expect(desktop.electron.order).toEqual(['scheme', 'sandbox']);
    expect(desktop.electron.privileged).toEqual([
      {
        scheme: 'creasebook',
        privileges: { standard: true, secure: true, supportFetchAPI: true, stream: true, codeCache: true },
      },
    ]);
    desktop.electron.ready();
    await vi.waitFor(() => expect(desktop.electron.handlers.has('creasebook')).toBe(true), 10_000);
    expect(desktop.electron.order).toEqual(['scheme', 'sandbox', 'ready', 'handle']);
  });

  test('opens the study named, loads the scheme and says where it is', async () => {
    const study = await desktop.makeStudy('Season.creasebook');
    await desktop.start(['--study', study]);
    expect(desktop.window.loaded).toBe('creasebook://window/');
    expect(desktop.said.at(-1)).toBe('Creasebook ready: creasebook://window/');
    expect(await desktop.call('study.info', {})).toMatchObject({ ok: true, value: { path: study, readOnly: false } });
    expect(desktop.electron.errors).toEqual([]);
  });

  test('opens a study that came bare on the command line, as the system gives an opened file', async () => {
    const study = await desktop.makeStudy('Opened.creasebook');
    await desktop.start(['--some-switch-of-chromium', study]);
    expect(await desktop.call('study.info', {})).toMatchObject({ value: { path: study } });
  });

  test('opens the file macOS named before the program was ready', async () => {
    const study = await desktop.makeStudy('Finder.creasebook');
    await desktop.load([]);
    desktop.electron.app.emit('open-file', { preventDefault: () => undefined }, study);
    desktop.electron.ready();
    await vi.waitFor(() => expect(desktop.electron.handlers.has('creasebook')).toBe(true), 10_000);
    expect(await desktop.call('study.info', {})).toMatchObject({ value: { path: study } });
  });

  test('says in a sentence that a study is missing and opens the window all the same', async () => {
    await desktop.start(['--study', join(desktop.folder, 'gone.creasebook')]);
    expect(desktop.electron.errors).toEqual([
      {
        title: `There is no study at ${join(desktop.folder, 'gone.creasebook')}.`,
        words: 'Check the path, or make a new study there.',
      },
    ]);
    expect(desktop.window.loaded).toBe('creasebook://window/');
  });

  test('by flag loads the loopback address, where the same door answers the holder of the key', async () => {
    await desktop.start(['--loopback']);
    const address = desktop.window.loaded ?? '';
    expect(address).toMatch(/^http:\/\/127\.0\.0\.1:\d+\/\?key=/);
    const opened = await fetch(address, { redirect: 'manual' });
    const cookie = opened.headers.get('set-cookie')?.split(';')[0] ?? '';
    const info = await fetch(new URL('/call/study.info', address), { method: 'POST', body: '{}', headers: { cookie } });
    expect(await info.json()).toMatchObject({ ok: true });
    await desktop.quit();
    await expect(fetch(address)).rejects.toThrow();
  });

  test('of a second one hands its study to the first and ends', async () => {
    const study = await desktop.makeStudy('Second.creasebook');
    await desktop.load([], { first: false });
    expect(desktop.electron.order).toEqual(['scheme', 'sandbox', 'quit']);
    expect(StandInWindow.all).toEqual([]);
    await desktop.start([]);
    desktop.electron.app.emit(
      'second-instance',
      {},
      ['/electron', '/program', '--study', 'Second.creasebook'],
      desktop.folder,
    );
    await vi.waitFor(
      async () => expect(await desktop.call('study.info', {})).toMatchObject({ value: { path: study } }),
      10_000,
    );
    expect(desktop.window.calls).toEqual(expect.arrayContaining(['restore', 'focus']));
  });

  test('puts quitting off until the study is closed', async () => {
    const study = await desktop.makeStudy('Quit.creasebook');
    await desktop.start(['--study', study]);
    await desktop.quit();
    expect(desktop.electron.order.slice(-3)).toEqual(['quit', 'quit put off', 'quit']);
    const again = bareHost(desktop.folder);
    expect((await again.call('study.open', { path: study })).readOnly).toBe(false);
    await again.close();
  });

  test('remembers where the window was, unless no screen shows that place any more', async () => {
    await desktop.start([]);
    desktop.window.emit('close');
    const kept = join(desktop.folder, 'data', 'window.json');
    expect(JSON.parse(readFileSync(kept, 'utf8'))).toEqual({ x: 40, y: 50, width: 1200, height: 800 });
    await desktop.quit();
    for (const [place, expected] of [
      [
        { x: 40, y: 50, width: 1200, height: 800 },
        { x: 40, width: 1200 },
      ],
      [
        { x: 5000, y: 50, width: 1200, height: 800 },
        { width: 1440, height: 900 },
      ],
    ]) {
      mkdirSync(join(desktop.folder, 'data'), { recursive: true });
      writeFileSync(kept, JSON.stringify(place));
      await desktop.start([]);
      expect(desktop.window.options).toMatchObject(expected ?? {});
      await desktop.quit();
    }
  });
});

describe('what only a desktop can do', () => {
  test('opens the study chosen in the system dialog from the menu', async () => {
    const study = await desktop.makeStudy('Menu.creasebook');
    await desktop.start([], { picks: [study] });
    const open = desktop.electron.menu.items
      .flatMap(({ submenu = [] }) => submenu)
      .find(({ label }) => label === '&Open study…');
    open?.click?.();
    await vi.waitFor(
      async () => expect(await desktop.call('study.info', {})).toMatchObject({ value: { path: study } }),
      10_000,
    );
  });

  test('says in a sentence that the file chosen is no study', async () => {
    const film = join(desktop.folder, 'film.mp4');
    writeFileSync(film, 'not a study at all');
    await desktop.start([], { picks: [film] });
    const open = desktop.electron.menu.items
      .flatMap(({ submenu = [] }) => submenu)
      .find(({ label }) => label === '&Open study…');
    open?.click?.();
    await vi.waitFor(() => expect(desktop.electron.errors).toHaveLength(1), 10_000);
    expect(desktop.electron.errors[0]?.title).toBe('film.mp4 is not a Creasebook study.');
  });
});
