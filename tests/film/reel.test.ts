import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { hasFfmpeg } from '../../scripts/make-test-film.ts';
import { copyableFrom, reelFrames, type ReelSpan } from '../../src/film/reel/reel-plan.ts';
import type { FrameTable } from '../../src/film/table/frame-table.ts';
import { installedChromium } from './chromium.ts';
import { openFilmPage, type FilmPage } from './film-page.ts';
import type { FilmTools } from './page/main.ts';
import { numbersByFfmpeg, openTestFilms, timesByFfprobe, type TestFilms } from './test-films.ts';

const table = {
  times: Float64Array.of(0, 0.1, 0.3, 0.4, 0.5, 0.6),
  duration: 0.7,
  decode: Uint32Array.of(0, 2, 1, 3, 5, 4),
  keyDecode: Uint32Array.of(0, 3),
} as Partial<FrameTable> as FrameTable;
const span = (from: number, to: number, speed = 1, drawn = false): ReelSpan => ({
  kind: 'span',
  film: { id: 'a', url: '/a', table },
  from,
  to,
  speed,
  drawn,
});

describe('planning a reel', () => {
  it('keeps the film’s own uneven times and stretches them in slow motion', () => {
    const frames = reelFrames(span(1, 3, 0.5));
    expect(frames.map(({ frame }) => frame)).toEqual([1, 2, 3]);
    expect(frames.map(({ start }) => start)).toEqual([0, expect.closeTo(0.4, 9), expect.closeTo(0.6, 9)]);
    expect(frames.map(({ length }) => length)).toEqual([
      expect.closeTo(0.4, 9),
      expect.closeTo(0.2, 9),
      expect.closeTo(0.2, 9),
    ]);
    expect(() => reelFrames(span(2, 6))).toThrow(/frames 0 to 5, got 2 to 6/);
    expect(() => reelFrames(span(0, 1, 0))).toThrow(/above 0/);
  });

  it('copies packets only from a key frame to where they end together, with nothing drawn', () => {
    expect(copyableFrom(span(0, 2))).toBe(0);
    expect(copyableFrom(span(3, 5))).toBe(1);
    expect(copyableFrom(span(0, 5))).toBe(0);
    expect(copyableFrom(span(1, 2))).toBeNull();
    expect(copyableFrom(span(0, 1))).toBeNull();
    expect(copyableFrom(span(3, 4))).toBeNull();
    expect(copyableFrom(span(0, 2, 1, true))).toBeNull();
  });
});

const missing = [hasFfmpeg() ? '' : 'ffmpeg', installedChromium() === null ? 'a browser of the Chromium family' : ''];
const why = missing.filter((name) => name !== '').join(' and ');

describe.skipIf(why !== '')(
  `reels made in a real browser${why === '' ? '' : ` (skipped: ${why} not installed)`}`,
  () => {
    let films: TestFilms;
    let page: FilmPage;
    beforeAll(async () => {
      films = openTestFilms();
      page = await openFilmPage({ one: await films.film('h264 29.97', 150), two: await films.film('vp9 webm', 150) });
    }, 60_000);
    afterAll(async () => {
      await page.close();
      films.remove();
    });

    type Wanted =
      | {
          readonly kind: 'span';
          readonly film: string;
          readonly from: number;
          readonly to: number;
          readonly speed: number;
          readonly drawn: boolean;
        }
      | { readonly kind: 'card'; readonly lines: readonly string[]; readonly seconds: number };

    /** Makes a reel in the page and writes it to a file. */
    async function reel(name: string, parts: readonly Wanted[]) {
      const made = await page.page.evaluate(async (parts) => {
        const { tools } = globalThis as unknown as { tools: FilmTools };
        const progress: number[] = [];
        const full = await Promise.all(
          parts.map(async (part) =>
            part.kind === 'card'
              ? part
              : {
                  ...part,
                  film: { id: part.film, url: `/film/${part.film}`, table: await tools.fetchTable(part.film) },
                },
          ),
        );
        const made = await tools.makeReel({
          parts: full,
          width: 320,
          height: 180,
          draw: (context, { place }) => {
            context.fillStyle = '#fff';
            context.fillRect(place.left + 4, place.top + 4, 40, 20);
          },
          onProgress: (done) => progress.push(done),
        });
        const { bytes, ...rest } = made;
        let text = '';
        for (const byte of bytes) text += String.fromCharCode(byte);
        return { ...rest, base64: btoa(text), progress };
      }, parts);
      const path = join(films.folder, name);
      writeFileSync(path, Buffer.from(made.base64, 'base64'));
      return { ...made, path };
    }

    it('shows the chosen frames of two films and a card, in order, at their speeds', async () => {
      const made = await reel('reel.mp4', [
        { kind: 'card', lines: ['Carry 12', 'Third and two'], seconds: 1 },
        { kind: 'span', film: 'one', from: 20, to: 50, speed: 1, drawn: false },
        { kind: 'span', film: 'two', from: 90, to: 100, speed: 0.5, drawn: true },
      ]);
      expect(made.how).toBe('encoded');
      expect(made.lost).toBe(0);
      expect(made.progress.at(-1)).toBe(1);
      const numbers = numbersByFfmpeg(made.path);
      const wanted = [
        ...Array.from({ length: 31 }, (_, at) => 20 + at),
        ...Array.from({ length: 11 }, (_, at) => 90 + at),
      ];
      expect(numbers.slice(1)).toEqual(wanted);
      const times = timesByFfprobe(made.path);
      const frame = 1001 / 30000;
      expect(times[1]).toBeCloseTo(1, 2);
      expect((times[31] ?? 0) - (times[1] ?? 0)).toBeCloseTo(30 * frame, 2);
      expect((times[42] ?? 0) - (times[32] ?? 0)).toBeCloseTo(20 * frame, 2);
      expect(made.seconds).toBeCloseTo(1 + 31 * frame + 22 * frame, 2);
    });

    it('copies the film’s own packets where the cuts allow it', async () => {
      const made = await reel('copied.mp4', [
        { kind: 'span', film: 'one', from: 90, to: 119, speed: 1, drawn: false },
        { kind: 'span', film: 'one', from: 30, to: 59, speed: 0.5, drawn: false },
      ]);
      expect(made.how).toBe('copied');
      const wanted = [
        ...Array.from({ length: 30 }, (_, at) => 90 + at),
        ...Array.from({ length: 30 }, (_, at) => 30 + at),
      ];
      expect(numbersByFfmpeg(made.path)).toEqual(wanted);
    });

    it('stops when asked', async () => {
      const refused = await page.page.evaluate(async () => {
        const { tools } = globalThis as unknown as { tools: FilmTools };
        const stop = new AbortController();
        const film = { id: 'one', url: '/film/one', table: await tools.fetchTable('one') };
        return tools
          .makeReel({
            parts: [{ kind: 'span', film, from: 1, to: 140, speed: 1, drawn: false }],
            width: 320,
            height: 180,
            signal: stop.signal,
            onProgress: () => stop.abort(),
          })
          .then(
            () => 'made',
            (error: unknown) => String(error),
          );
      });
      expect(refused).toMatch(/abort/i);
    });
  },
);
