import { spawnSync } from 'node:child_process';
import { copyFileSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { hasFfmpeg } from '../../scripts/make-test-film.ts';
import type { FaultKind } from '../../src/contract/faults.ts';
import { readTableOf } from './file-bytes.ts';
import { openTestFilms, type TestFilms } from './test-films.ts';

const ffmpeg = hasFfmpeg();

async function refusal(path: string): Promise<{ fault: FaultKind; says: string; next: string }> {
  const table = await readTableOf(path);
  if (!('fault' in table)) throw new Error(`Wanted a refusal of ${path}, got a table.`);
  return table;
}

describe.skipIf(!ffmpeg)(`films that are not right${ffmpeg ? '' : ' (skipped: ffmpeg not installed)'}`, () => {
  let films: TestFilms;
  let whole: string;
  const bad = (name: string, bytes: Uint8Array | string): string => {
    const path = join(films.folder, name);
    writeFileSync(path, bytes);
    return path;
  };
  const make = (name: string, ...args: readonly string[]): string => {
    const path = join(films.folder, name);
    const run = spawnSync('ffmpeg', ['-loglevel', 'error', '-y', ...args, path]);
    if (run.status !== 0) throw new Error(run.stderr.toString());
    return path;
  };
  const picture = ['-f', 'lavfi', '-i', 'testsrc=d=1:s=160x96'] as const;

  beforeAll(async () => {
    films = openTestFilms();
    whole = await films.film('h264 59.94', 120);
  });
  afterAll(() => films.remove());

  it('refuses a file of no bytes', async () => {
    expect(await refusal(bad('empty.mp4', ''))).toMatchObject({
      fault: 'film-empty',
      says: expect.stringContaining('0 bytes'),
    });
  });

  it('refuses a file that is no video whatever its name ends in', async () => {
    const text = bad('text.mp4', 'First down and ten. '.repeat(50));
    expect((await refusal(text)).fault).toBe('film-not-video');
  });

  it('reads a film whatever its name ends in', async () => {
    const renamed = bad('film.txt', readFileSync(whole));
    expect(await readTableOf(renamed)).toMatchObject({ container: 'MP4' });
  });

  it('says how a film that breaks off can be kept, when its index is at the front', async () => {
    const bytes = readFileSync(whole);
    const cut = await refusal(bad('cut.mp4', bytes.subarray(0, Math.floor(bytes.length * 0.6))));
    expect(cut).toMatchObject({ fault: 'film-truncated', says: expect.stringContaining('promises 120 frames') });
    expect(cut.next).toContain('ffmpeg -i FILM -c copy');
  });

  it('says that a film cut before its index can not be kept', async () => {
    const bytes = readFileSync(await films.film('h264 29.97', 120));
    const cut = await refusal(bad('no-index.mp4', bytes.subarray(0, Math.floor(bytes.length * 0.6))));
    expect(cut).toMatchObject({ fault: 'film-truncated', says: expect.stringContaining('no index') });
  });

  it('keeps what is there of a stream that breaks off, for streams are made to', async () => {
    for (const kind of ['mpeg-ts', 'vp9 webm'] as const) {
      const bytes = readFileSync(await films.film(kind, 120));
      const table = await readTableOf(bad(`cut-${kind}`, bytes.subarray(0, Math.floor(bytes.length * 0.6))));
      if ('fault' in table) throw new Error(table.says);
      expect(table.times.length).toBeGreaterThan(20);
      expect(table.times.length).toBeLessThan(120);
    }
  });

  it('refuses sound without picture', async () => {
    const sound = make('sound.m4a', '-f', 'lavfi', '-i', 'sine=d=1');
    expect(await refusal(sound)).toMatchObject({
      fault: 'film-no-video-track',
      says: expect.stringContaining('audio'),
    });
  });

  it('names a codec it does not know and the conversion', async () => {
    const old = await refusal(make('old.mp4', ...picture, '-c:v', 'mpeg4'));
    expect(old).toMatchObject({ fault: 'film-unsupported', says: expect.stringContaining('mp4v') });
    expect(old.next).toContain('ffmpeg -i FILM -c:v libx264');
    expect((await refusal(make('old.ts', ...picture, '-c:v', 'mpeg2video'))).fault).toBe('film-unsupported');
  });

  it('names a container it does not read', async () => {
    expect((await refusal(make('old.avi', ...picture, '-c:v', 'mjpeg'))).says).toContain('AVI');
    expect((await refusal(make('old.flv', ...picture, '-c:v', 'flv1'))).says).toContain('Flash');
    expect((await refusal(make('old.wmv', ...picture, '-c:v', 'wmv2'))).says).toContain('Windows Media');
  });

  it('refuses interlaced film with the conversion, and not film that merely could be interlaced', async () => {
    const woven = await refusal(
      make('woven.mp4', ...picture, '-c:v', 'libx264', '-flags', '+ildct+ilme', '-pix_fmt', 'yuv420p'),
    );
    expect(woven.fault).toBe('film-interlaced');
    expect(woven.next).toContain('bwdif');
    const could = make(
      'could.mp4',
      ...picture,
      '-c:v',
      'libx264',
      '-x264-params',
      'fake-interlaced=1',
      '-pix_fmt',
      'yuv420p',
    );
    expect(await readTableOf(could)).toMatchObject({ container: 'MP4' });
  });

  it('refuses a film whose edit list plays its parts in another order', async () => {
    const film = readFileSync(await films.film('edit list', 120));
    const at = film.indexOf('elst');
    const entries = film.readUInt32BE(at + 8);
    expect(entries).toBe(1);
    const list = film.subarray(at - 4, at - 4 + film.readUInt32BE(at - 4));
    const longer = Buffer.concat([list, list.subarray(16)]);
    longer.writeUInt32BE(longer.length, 0);
    longer.writeUInt32BE(2, 12);
    const grown = Buffer.concat([film.subarray(0, at - 4), longer, film.subarray(at - 4 + list.length)]);
    for (const box of ['edts', 'trak', 'moov']) {
      const place = grown.indexOf(box) - 4;
      grown.writeUInt32BE(grown.readUInt32BE(place) + longer.length - list.length, place);
    }
    expect(await refusal(bad('edited.mp4', grown))).toMatchObject({
      fault: 'film-unsupported',
      says: expect.stringContaining('2 parts'),
    });
  });

  it('reads a film under a path of 200 characters with spaces and accents', async () => {
    const folder = join(films.folder, 'Été à la prairie – übung '.repeat(7).trim());
    mkdirSync(folder);
    const path = join(folder, 'première moitié.mp4');
    copyFileSync(whole, path);
    expect(path.length).toBeGreaterThan(200);
    expect(await readTableOf(path)).toMatchObject({ codec: expect.stringContaining('avc1') });
  });

  it('refuses an index that is garbage without falling over', async () => {
    const bytes = Buffer.from(readFileSync(await films.film('h264 25', 60)));
    const index = bytes.indexOf('moov');
    for (let seed = 1; seed <= 40; seed += 1) {
      const broken = Buffer.from(bytes);
      for (let hit = 0; hit < 12; hit += 1) {
        const place = index + 8 + ((Math.imul(seed * 131 + hit, 2654435761) >>> 0) % (bytes.length - index - 8));
        broken[place] = (seed * 37 + hit * 11) & 0xff;
      }
      const table = await readTableOf(bad('garbage.mp4', broken));
      if ('fault' in table) expect(table.says).toMatch(/^Wanted .*got /);
      else expect(table.times.length).toBeGreaterThan(0);
    }
  });
});
