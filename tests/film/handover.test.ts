import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { hasFfmpeg, type FilmKind } from '../../scripts/make-test-film.ts';
import { frameOfMediaTime, seekTime } from '../../src/film/handover.ts';
import type { FrameTable } from '../../src/film/table/frame-table.ts';
import { installedChromium } from './chromium.ts';
import { openFilmPage, type FilmPage } from './film-page.ts';
import type { FilmTools } from './page/main.ts';
import { openTestFilms, testSize, type TestFilms } from './test-films.ts';

const uneven: Pick<FrameTable, 'times' | 'duration'> = {
  times: Float64Array.of(0, 0.04, 0.1, 0.1, 0.5),
  duration: 0.6,
};

describe('the time to send a video element to', () => {
  it('lies in the middle of each frame and leads back to it', () => {
    const table = uneven as FrameTable;
    expect([0, 1, 4].map((frame) => seekTime(table, frame))).toEqual([0.02, 0.07, 0.55]);
    expect([0, 1, 4].map((frame) => frameOfMediaTime(table, table.times[frame] ?? 0))).toEqual([0, 1, 4]);
    expect(() => seekTime(table, 5)).toThrow(/frames 0 to 4, got 5/);
  });
});

const missing = [hasFfmpeg() ? '' : 'ffmpeg', installedChromium() === null ? 'a browser of the Chromium family' : ''];
const why = missing.filter((name) => name !== '').join(' and ');
const kinds: readonly FilmKind[] = ['h264 29.97', 'h264 50', 'vp9 webm', 'edit list', 'variable rate'];

describe.skipIf(why !== '')(
  `handing over in a real browser${why === '' ? '' : ` (skipped: ${why} not installed)`}`,
  () => {
    let films: TestFilms;
    let page: FilmPage;
    beforeAll(async () => {
      films = openTestFilms();
      const paths: Record<string, string> = {};
      for (const kind of [...kinds, 'mpeg-ts' as const]) paths[kind] = await films.film(kind, 250);
      page = await openFilmPage(paths);
    }, 60_000);
    afterAll(async () => {
      await page.close();
      films.remove();
    });

    /** Plays from a frame for a while and pauses, noting each picture that came on top, read from its own pixels. */
    function playAndPause(film: string, from: number, ms: number) {
      return page.page.evaluate(
        async ({ film, from, ms, size }) => {
          const { tools } = globalThis as unknown as { tools: FilmTools };
          const table = await tools.fetchTable(film);
          const server = tools.openFrameServer({ budgetBytes: 32 * 2 ** 20 });
          const served = await server.openFilm({ id: film, url: `/film/${film}`, table });
          const canvas = document.createElement('canvas');
          const scratch = document.createElement('canvas');
          scratch.width = size.width;
          scratch.height = size.height;
          const video = document.createElement('video');
          video.muted = true;
          video.src = `/film/${film}`;
          document.body.append(video);
          const numberIn = (source: CanvasImageSource): number => {
            const context = scratch.getContext('2d', { willReadFrequently: true });
            context?.drawImage(source, 0, 0, size.width, size.height);
            const pixels = context?.getImageData(0, 0, size.width, size.height).data ?? new Uint8ClampedArray();
            const luma = new Uint8Array(size.width * size.height).map((_, at) => pixels[at * 4 + 1] ?? 0);
            return tools.readCode(luma, size.width, size);
          };
          const tops: { which: string; number: number }[] = [];
          const reported: number[] = [];
          const paintExact = async (frame: number): Promise<boolean> => {
            const got = await server.frame(served, frame);
            if (got.known) tools.paintFrame(canvas, got.value);
            return got.known;
          };
          await paintExact(from);
          const handover = tools.openHandover({
            video,
            table,
            paintExact,
            putOnTop: (which) => tops.push({ which, number: numberIn(which === 'video' ? video : canvas) }),
            onFrame: (frame) => reported.push(frame),
          });
          try {
            await handover.play(from, 1);
            await new Promise((resolve) => setTimeout(resolve, ms));
            const last = numberIn(video);
            const stopped = await handover.pause();
            return {
              tops,
              reported,
              last,
              stopped,
              videoAtEnd: numberIn(video),
              exactAtEnd: numberIn(canvas),
              refused: '',
            };
          } catch (error) {
            return { tops, reported, last: 0, stopped: 0, videoAtEnd: 0, exactAtEnd: 0, refused: String(error) };
          } finally {
            handover.close();
            server.close();
            video.remove();
          }
        },
        { film, from, ms, size: testSize },
      );
    }

    for (const kind of kinds) {
      it(`plays on from the exact frame and stops on the frame that was showing, in a film of the kind ${kind}`, async () => {
        const hidden = kind === 'edit list' ? 21 : 0;
        for (const from of [0, 47, 120]) {
          const seen = await playAndPause(kind, from, 400);
          expect(seen.refused).toBe('');
          const [exact, video] = seen.tops;
          expect(exact).toEqual({ which: 'exact', number: from + hidden });
          expect(video?.which).toBe('video');
          const gap = (video?.number ?? 0) - hidden - from;
          expect(gap).toBeGreaterThanOrEqual(0);
          expect(gap).toBeLessThanOrEqual(6);
          expect(seen.reported).toEqual(seen.reported.toSorted((a, b) => a - b));
          expect(seen.exactAtEnd).toBe(seen.stopped + hidden);
          expect(seen.videoAtEnd).toBe(seen.exactAtEnd);
          expect(seen.stopped).toBeGreaterThan(from);
        }
      });
    }

    it('refuses to play what the video element can not, so that the shuttle plays it', async () => {
      expect((await playAndPause('mpeg-ts', 10, 50)).refused).toMatch(/can't go to/);
    });
  },
);
