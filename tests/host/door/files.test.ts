/** Files through the door: only those in the folders that were allowed, whatever path a call, a link or a study names. */
import { execFileSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, realpathSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, relative } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { add, set } from '../../../src/contract/changes.ts';
import type { Film } from '../../../src/contract/rows.ts';
import { uid } from '../small-study.ts';
import { openSmallHost } from './small-host.ts';

let base: string;
let allowed: string;
let small: Awaited<ReturnType<typeof openSmallHost>>;
const secret = 'not for the window';

beforeAll(async () => {
  base = realpathSync(mkdtempSync(join(tmpdir(), 'creasebook-files-test-')));
  allowed = join(base, 'allowed');
  for (const folder of ['allowed/week 3', 'allowed/.hidden', 'allowed-too', 'outside'])
    mkdirSync(join(base, folder), { recursive: true });
  writeFileSync(join(base, 'outside', 'secret.mp4'), secret);
  writeFileSync(join(base, 'allowed-too', 'secret.mp4'), secret);
  for (const name of ['game 10.mp4', 'game 9.MP4', 'notes.txt', 'x.creasebook', '.hidden.mp4'])
    writeFileSync(join(allowed, name), name);
  symlinkSync(join(base, 'outside'), join(allowed, 'way out'));
  symlinkSync(join(base, 'outside', 'secret.mp4'), join(allowed, 'link.mp4'));
  symlinkSync(join(base, 'nowhere'), join(allowed, 'broken'));
  small = await openSmallHost(allowed, { browseRoots: [allowed, join(base, 'a drive that was taken out')] });
});
afterAll(async () => {
  await small.end();
  rmSync(base, { recursive: true, force: true });
});

const browse = (folder: string | null, want = 'film') => small.call('files.browse', { folder, want });
const outside = (): string[] => [
  join(base, 'outside'),
  `${allowed}/../outside`,
  `${allowed}/week 3/../../outside`,
  join(allowed, 'way out'),
  `${allowed}-too`,
  base,
  '/',
  '/etc',
  '/proc/self/fd',
  relative(process.cwd(), join(base, 'outside')),
];

describe('the file browser', () => {
  test('lists folders first, then what was wanted, by name and number, and nothing hidden', async () => {
    const { value } = await browse(null);
    const { entries, parent, folder } = value as {
      folder: string;
      parent: string | null;
      entries: { name: string; folder: boolean }[];
    };
    expect([folder, parent]).toEqual([allowed, null]);
    expect(entries.map(({ name }) => name)).toEqual(['way out', 'week 3', 'game 9.MP4', 'game 10.mp4', 'link.mp4']);
    const studies = (await browse(null, 'study')).value as { entries: { name: string }[] };
    expect(studies.entries.map(({ name }) => name)).toContain('x.creasebook');
  });

  test('goes up as far as the allowed folder and no further', async () => {
    expect(((await browse(join(allowed, 'week 3'))).value as { parent: string }).parent).toBe(allowed);
  });

  test('refuses every way out', async () => {
    for (const folder of outside()) {
      const { status, fault } = await browse(folder, 'any');
      expect([folder, status, fault?.fault]).toEqual([folder, 403, 'forbidden']);
      expect(JSON.stringify(fault)).not.toContain('secret');
    }
  });

  test('has nothing at a path that is encoded, cut by a null or gone', async () => {
    for (const folder of [
      `${allowed}%2f..%2foutside`,
      `${allowed}/week%203`,
      `${allowed}\0/../outside`,
      join(allowed, 'broken'),
      join(allowed, 'none'),
    ]) {
      const { status, fault } = await browse(folder, 'any');
      expect([folder, status, fault?.fault]).toEqual([folder, 404, 'not-found']);
    }
  });

  test('says that a file is no folder', async () => {
    const { status, fault } = await browse(join(allowed, 'notes.txt'));
    expect([status, fault?.fault]).toEqual([200, 'refused']);
    expect(fault?.says).toContain('it is not a folder');
  });
});

describe('a film', () => {
  test('is not added from outside, by path or by link', async () => {
    for (const path of [...outside().map((folder) => join(folder, 'secret.mp4')), join(allowed, 'link.mp4')]) {
      const { fault } = await small.call('film.add', { path, angle: 'sideline', by: null });
      expect([path, ['forbidden', 'not-found'].includes(fault?.fault ?? '')]).toEqual([path, true]);
    }
  });

  test('of a study that names another file of this machine is not served', async () => {
    const film: Film = {
      id: uid(1),
      name: 'x.mp4',
      path: join(base, 'outside', 'secret.mp4'),
      fingerprint: 'f1-whatever',
      bytes: secret.length,
      frames: 1,
      width: 1,
      height: 1,
      seconds: 1,
      rate: 1,
      codec: 'avc1',
      angle: 'sideline',
    };
    await small.host.call('change.make', { by: null, label: 'x', steps: [add('film', film)] });
    for (const path of [film.path, '../outside/secret.mp4', join(allowed, 'link.mp4'), 'link.mp4']) {
      await small.host.call('change.make', { by: null, label: 'x', steps: [set('film', film.id, { path })] });
      for (const address of [`/film/${film.id}`, `/frames/${film.id}`]) {
        const answer = await small.send(address);
        expect([path, address, answer.status]).toEqual([path, address, 403]);
        expect(await answer.text()).not.toContain(secret);
      }
    }
  });

  test.skipIf(process.platform === 'win32')('that is a pipe, a device or a folder is refused at once', async () => {
    execFileSync('mkfifo', [join(allowed, 'pipe.mp4')]);
    symlinkSync('/dev/zero', join(allowed, 'zero.mp4'));
    for (const [name, kind] of [
      ['pipe.mp4', 'film-not-video'],
      ['week 3', 'film-not-video'],
      ['zero.mp4', 'forbidden'],
    ] as const) {
      const { fault } = await small.call('film.add', { path: join(allowed, name), angle: 'sideline', by: null });
      expect([name, fault?.fault]).toEqual([name, kind]);
    }
    rmSync(join(allowed, 'pipe.mp4'));
  });
});

describe('a study', () => {
  test('is neither opened nor made outside, by a page; a shell may open what its user names', async () => {
    for (const folder of [...outside(), join(allowed, 'way out')]) {
      const path = `${folder}/new.creasebook`;
      for (const [name, input] of [
        ['study.open', { path }],
        ['study.create', { path, evaluatorName: 'Dana Quill' }],
      ] as const) {
        const { status, fault } = await small.call(name, input);
        expect([path, name, status, fault?.fault]).toEqual([path, name, 403, 'forbidden']);
      }
    }
    await expect(small.host.call('study.open', { path: join(base, 'outside', 'new.creasebook') })).rejects.toThrow(
      'There is no study',
    );
  });

  test('that is not there is told so inside the allowed folders', async () => {
    const { status, fault } = await small.call('study.open', { path: join(allowed, 'week 3', 'none.creasebook') });
    expect([status, fault?.fault]).toEqual([200, 'study-missing']);
  });
});
