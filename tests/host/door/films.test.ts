/** Films through the door, made by ffmpeg: added, served, moved, found again; and the ones that can't be. */
import { spawnSync } from 'node:child_process';
import {
  copyFileSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  realpathSync,
  renameSync,
  rmSync,
  statSync,
  truncateSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import { hasFfmpeg, makeTestFilm } from '../../../scripts/make-test-film.ts';
import type { Fault } from '../../../src/contract/faults.ts';
import type { Film } from '../../../src/contract/rows.ts';
import { decodeFrameTable } from '../../../src/film/table/frame-table-bytes.ts';
import { frameCount } from '../../../src/film/table/frame-table.ts';
import { valueOf } from '../../value-of.ts';
import { openSmallHost } from './small-host.ts';

describe.skipIf(!hasFfmpeg())('a film', () => {
  let made: string;
  let folder: string;
  let small: Awaited<ReturnType<typeof openSmallHost>>;
  const inFolder = (name: string): string => join(folder, name);
  const addFilm = async (path: string) => small.call('film.add', { path, angle: 'end zone', by: null });

  beforeAll(async () => {
    made = realpathSync(mkdtempSync(join(tmpdir(), 'creasebook-made-films-')));
    await makeTestFilm('h264 29.97', join(made, 'game.mp4'), 90, { width: 160, height: 90 });
    await makeTestFilm('h264 25', join(made, 'other.mp4'), 50, { width: 160, height: 90 });
    const sound = spawnSync('ffmpeg', [
      '-loglevel',
      'error',
      '-y',
      '-f',
      'lavfi',
      '-i',
      'sine=d=1',
      '-c:a',
      'aac',
      join(made, 'sound.mp4'),
    ]);
    expect(sound.status).toBe(0);
  });
  afterAll(() => rmSync(made, { recursive: true, force: true }));
  beforeEach(async () => {
    folder = realpathSync(mkdtempSync(join(tmpdir(), 'creasebook-films-test-')));
    for (const name of ['game.mp4', 'other.mp4', 'sound.mp4']) copyFileSync(join(made, name), inFolder(name));
    small = await openSmallHost(folder);
  });
  afterEach(async () => {
    await small.end();
    rmSync(folder, { recursive: true, force: true });
  });

  test('is added once, with what the file says of itself, and served whole and in parts', async () => {
    const film = (await addFilm(inFolder('game.mp4'))).value as Film;
    expect(film).toMatchObject({
      name: 'game.mp4',
      path: inFolder('game.mp4'),
      frames: 90,
      width: 160,
      height: 90,
      bytes: statSync(inFolder('game.mp4')).size,
      angle: 'end zone',
    });
    expect(film.rate).toBeCloseTo(30_000 / 1001, 9);
    expect(film.seconds).toBeCloseTo((90 * 1001) / 30_000, 3);
    expect((await addFilm(inFolder('game.mp4'))).value).toEqual(film);
    expect((await small.host.call('directory.read', {})).films).toEqual([{ ...film, missing: false }]);
    const bytes = readFileSync(inFolder('game.mp4'));
    const part = await small.send(`/film/${film.id}`, { headers: { range: 'bytes=100-199' } });
    expect([part.status, part.headers.get('content-type')]).toEqual([206, 'video/mp4']);
    expect(Buffer.from(await part.arrayBuffer()).equals(bytes.subarray(100, 200))).toBe(true);
    expect(Buffer.from(await (await small.send(`/film/${film.id}`)).arrayBuffer()).equals(bytes)).toBe(true);
    const table = valueOf(
      decodeFrameTable(new Uint8Array(await (await small.send(`/frames/${film.id}`)).arrayBuffer())),
    );
    expect(frameCount(table)).toBe(90);
    await small.call('change.undo', { by: null });
    expect((await small.host.call('directory.read', {})).films).toEqual([]);
  });

  test.each<[string, string, Fault['fault']]>([
    ['of no bytes', 'empty.mp4', 'film-empty'],
    ['that is a text by another name', 'text.mp4', 'film-not-video'],
    ['cut off in the middle', 'cut.mp4', 'film-truncated'],
    ['with sound and no picture', 'sound.mp4', 'film-no-video-track'],
    ['that is not there', 'none.mp4', 'not-found'],
  ])('%s is refused with what, wanted, got and what to do, and the study is as it was', async (_, name, kind) => {
    writeFileSync(inFolder('empty.mp4'), '');
    writeFileSync(inFolder('text.mp4'), 'down and distance\n'.repeat(500));
    copyFileSync(inFolder('game.mp4'), inFolder('cut.mp4'));
    truncateSync(inFolder('cut.mp4'), Math.floor(statSync(inFolder('cut.mp4')).size / 2));
    const before = (await small.host.call('study.info', {}))?.journalEntries;
    const { fault } = await addFilm(inFolder(name));
    expect([fault?.fault, (fault?.says.length ?? 0) > 20, fault?.next !== '']).toEqual([kind, true, true]);
    expect((await small.host.call('study.info', {}))?.journalEntries).toBe(before);
    expect((await small.host.call('directory.read', {})).films).toEqual([]);
  });

  test('that moved is missed in words, even when it was just being read, and found again where it is', async () => {
    const film = (await addFilm(inFolder('game.mp4'))).value as Film;
    expect((await small.send(`/film/${film.id}`)).status).toBe(200);
    mkdirSync(inFolder('season'));
    renameSync(inFolder('game.mp4'), inFolder('season/game.mp4'));
    const told = (await (await small.send(`/film/${film.id}`)).json()) as { fault: Fault };
    expect(told.fault.fault).toBe('film-missing');
    expect(told.fault.says).toContain(inFolder('game.mp4'));
    expect((await small.host.call('directory.read', {})).films).toMatchObject([{ missing: true }]);
    // The frames were read before and are kept: they can be had without the film.
    expect((await small.send(`/frames/${film.id}`)).status).toBe(200);

    const wrong = await small.call('film.relink', { filmId: film.id, path: inFolder('other.mp4'), by: null });
    expect(wrong.fault).toMatchObject({
      fault: 'film-changed',
      says: 'other.mp4 is not the film game.mp4: its contents differ.',
    });
    expect((await small.send(`/film/${film.id}`)).status).not.toBe(206);

    const found = await small.call('film.relink', { filmId: film.id, path: inFolder('season/game.mp4'), by: null });
    expect(found.value).toEqual({ ...film, path: inFolder('season/game.mp4') });
    expect((await small.send(`/film/${film.id}`)).status).toBe(200);
  });

  test('that moved and is added again is the same film, at its new place', async () => {
    const film = (await addFilm(inFolder('game.mp4'))).value as Film;
    renameSync(inFolder('game.mp4'), inFolder('renamed.mp4'));
    expect((await addFilm(inFolder('renamed.mp4'))).value).toEqual({ ...film, path: inFolder('renamed.mp4') });
    expect((await small.host.call('directory.read', {})).films).toHaveLength(1);
    expect((await small.send(`/film/${film.id}`)).status).toBe(200);
  });

  test('whose place another file of the same size took is not taken for it', async () => {
    const film = (await addFilm(inFolder('game.mp4'))).value as Film;
    const bytes = readFileSync(inFolder('game.mp4'));
    bytes.fill(0, bytes.length - 500);
    writeFileSync(inFolder('game.mp4'), bytes);
    const { fault } = await small.call('film.relink', { filmId: film.id, path: inFolder('game.mp4'), by: null });
    expect(fault?.fault).toBe('film-changed');
  });
});
