import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { filmKinds, hasFfmpeg, type FilmKind } from '../../scripts/make-test-film.ts';
import { decodeFrameTable, encodeFrameTable } from '../../src/film/table/frame-table-bytes.ts';
import { framesInDecodeOrder, keyFor, type FrameTable } from '../../src/film/table/frame-table.ts';
import { readTableOf } from './file-bytes.ts';
import { openTestFilms, timesByFfprobe, type TestFilms } from './test-films.ts';

const kinds = Object.keys(filmKinds) as FilmKind[];
const ffmpeg = hasFfmpeg();

async function tableOf(path: string): Promise<FrameTable> {
  const table = await readTableOf(path);
  if ('fault' in table) throw new Error(table.says);
  return table;
}

describe.skipIf(!ffmpeg)(`frame tables beside ffprobe${ffmpeg ? '' : ' (skipped: ffmpeg not installed)'}`, () => {
  let films: TestFilms;
  beforeAll(() => {
    films = openTestFilms();
  });
  afterAll(() => films.remove());

  // The outside check: ffprobe's own times of the same frames, printed to a millionth of a second.
  for (const kind of kinds) {
    it(`has the same frame times as ffprobe for a film of the kind ${kind}`, async () => {
      const path = await films.film(kind, 120);
      const table = await tableOf(path);
      const wanted = timesByFfprobe(path);
      expect(table.times).toHaveLength(wanted.length);
      // An edit may begin between two frames. ISO/IEC 14496-12 (8.6.6) then shows the first whole frame a little after 0, as
      // the table says; ffprobe calls that frame 0. So films with an edit list are compared from their first frame on.
      const begins = kind === 'edit list' ? (table.times[0] ?? NaN) - (wanted[0] ?? NaN) : 0;
      expect(Math.abs(begins)).toBeLessThan(1 / 60);
      const worst = wanted.reduce(
        (most, time, frame) => Math.max(most, Math.abs(time + begins - (table.times[frame] ?? NaN))),
        0,
      );
      expect(worst).toBeLessThan(2e-6);
    });
  }

  it('knows the nominal rate of constant films and says when a film is variable', async () => {
    const rates = await Promise.all(
      kinds.map(async (kind) => {
        const { rate, variableRate } = await tableOf(await films.film(kind, 120));
        return [kind, variableRate ? 'variable' : `${rate.frames}/${rate.seconds}`] as const;
      }),
    );
    const wanted = kinds.map((kind) => {
      const even = kind !== 'variable rate' && kind !== 'same times';
      return [kind, even ? filmKinds[kind].rate.replace(/^(\d+)$/, '$1/1') : 'variable'] as const;
    });
    expect(rates).toEqual(wanted);
  });

  it('turns a rotated film upright', async () => {
    const { rotation, width, height, displayWidth, displayHeight } = await tableOf(await films.film('rotated', 120));
    expect({ rotation, width, height, displayWidth, displayHeight }).toEqual({
      rotation: 270,
      width: 320,
      height: 180,
      displayWidth: 180,
      displayHeight: 320,
    });
  });

  it('begins a leading frame of an open group at the key frame before', async () => {
    const table = await tableOf(await films.film('h264 open groups', 120));
    const leading = Array.from(table.times.keys()).filter((frame) => {
      const key = keyFor(table, frame);
      return (table.decode[frame] ?? 0) > (table.keyDecode[key + 1] ?? Infinity);
    });
    expect(leading.length).toBeGreaterThan(5);
    for (const frame of leading) {
      expect(table.times[frame]).toBeLessThan(table.keyTimes[keyFor(table, frame) + 1] ?? 0);
    }
  });

  it('gives every packet of an edited film its frame or none', async () => {
    const table = await tableOf(await films.film('edit list', 120));
    const shown = framesInDecodeOrder(table);
    expect(shown.filter((frame) => frame >= 0).toSorted()).toEqual(Int32Array.from(table.times.keys()));
    expect(shown.length).toBe(table.packets);
    expect(shown.length).toBeGreaterThan(table.times.length);
  });

  it('comes back from its bytes as it was, and says what is wrong with other bytes', async () => {
    const table = await tableOf(await films.film('variable rate', 120));
    const bytes = encodeFrameTable(table);
    expect(decodeFrameTable(bytes)).toEqual({ known: true, value: table });
    const damaged = bytes.slice();
    damaged[damaged.length - 5] = (damaged[damaged.length - 5] ?? 0) ^ 1;
    expect(decodeFrameTable(damaged)).toMatchObject({ because: 'damaged-frame-table' });
    expect(decodeFrameTable(bytes.subarray(0, 100))).toMatchObject({ because: 'damaged-frame-table' });
    const newer = bytes.slice();
    newer[4] = 99;
    expect(decodeFrameTable(newer)).toMatchObject({ because: 'other-version' });
    expect(decodeFrameTable(new Uint8Array(40))).toMatchObject({ because: 'not-a-frame-table' });
  });

  it('tells of its progress and stops when asked', async () => {
    const path = await films.film('h264 59.94', 5000);
    const heard: number[] = [];
    await readTableOf(path, { onProgress: (done) => heard.push(done) });
    expect(heard.length).toBeGreaterThan(1);
    expect(heard).toEqual(heard.toSorted((a, b) => a - b));
    expect(heard.at(-1)).toBe(1);
    const stop = new AbortController();
    const reading = readTableOf(path, { signal: stop.signal, onProgress: () => stop.abort() });
    await expect(reading).rejects.toThrow(/abort/i);
  });
});
