import { spawnSync } from 'node:child_process';
import { readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { hasFfmpeg } from '../../scripts/make-test-film.ts';
import { installedChromium } from './chromium.ts';
import { readTableOf } from './file-bytes.ts';
import { openFilmPage, type FilmPage } from './film-page.ts';
import type { FilmTools } from './page/main.ts';
import { openTestFilms, testSize, type TestFilms } from './test-films.ts';
import { walkFilm } from './walk-film.ts';

const missing = [hasFfmpeg() ? '' : 'ffmpeg', installedChromium() === null ? 'a browser of the Chromium family' : ''];
const why = missing.filter((name) => name !== '').join(' and ');
const pictureBytes = testSize.width * testSize.height * 1.5;

/** Spoils the packets of some frames in the middle of a film and leaves its index whole. */
async function spoil(whole: string, path: string, from: number, to: number): Promise<void> {
  const shown = spawnSync('ffprobe', ['-v', 'error', '-show_entries', 'packet=pos,size', '-of', 'csv=p=0', whole], {
    encoding: 'utf8',
  });
  const bytes = readFileSync(whole);
  const lines = shown.stdout.split('\n').filter((line) => line !== '');
  for (const line of lines.slice(from, to)) {
    const [size = 0, pos = 0] = line.split(',').map(Number);
    for (let at = pos + 4; at < pos + size; at += 1) bytes[at] = (Math.imul(at, 2654435761) >>> 24) & 0xff;
  }
  writeFileSync(path, bytes);
}

describe.skipIf(why !== '')(
  `the frame server in a real browser${why === '' ? '' : ` (skipped: ${why} not installed)`}`,
  () => {
    let films: TestFilms;
    let page: FilmPage;
    beforeAll(async () => {
      films = openTestFilms();
      const one = await films.film('h264 29.97', 200);
      const two = await films.film('h264 50', 200);
      const webm = await films.film('vp9 webm', 200);
      const spoilt = join(films.folder, 'spoilt.mp4');
      await spoil(one, spoilt, 70, 76);
      const leaving = join(films.folder, 'leaving.mp4');
      const noise = 'nullsrc=s=320x180:d=40,geq=random(1)*255:128:128';
      spawnSync('ffmpeg', [
        '-loglevel',
        'error',
        '-f',
        'lavfi',
        '-i',
        noise,
        '-c:v',
        'libx264',
        '-preset',
        'ultrafast',
        '-qp',
        '12',
        '-g',
        '25',
        leaving,
      ]);
      const hevc = join(films.folder, 'hevc.mp4');
      spawnSync('ffmpeg', [
        '-loglevel',
        'error',
        '-f',
        'lavfi',
        '-i',
        'testsrc=d=1',
        '-c:v',
        'libx265',
        '-tag:v',
        'hvc1',
        hevc,
      ]);
      page = await openFilmPage({ one, two, webm, spoilt, leaving, hevc, gone: join(films.folder, 'gone.mp4') });
    }, 90_000);
    afterAll(async () => {
      await page.close();
      films.remove();
    });

    it('steps over packets that are damaged in the middle and shows all others right', async () => {
      const plan = Array.from({ length: 200 }, (_, frame) => ({ frame, direction: 1 as const }));
      const { seen } = await walkFilm(page.page, 'spoilt', plan, 300 * pictureBytes);
      const bad = seen.filter(({ asked, read }) => read !== asked);
      expect(bad.every(({ read }) => read === 'not-decoded')).toBe(true);
      expect(bad.every(({ asked }) => asked >= 60 && asked < 90)).toBe(true);
      expect(bad.length).toBeGreaterThanOrEqual(1);
      const back = await walkFilm(
        page.page,
        'spoilt',
        plan.toReversed().map(({ frame }) => ({ frame, direction: -1 })),
        300 * pictureBytes,
      );
      expect(
        back.seen.filter(({ asked, read }) => read !== asked && (read !== 'not-decoded' || asked < 60 || asked >= 90)),
      ).toEqual([]);
    });

    it('keeps two films stepping together under one budget, and frees what a closed one held', async () => {
      const budgetBytes = 60 * pictureBytes;
      const seen = await page.page.evaluate(
        async ({ budgetBytes, size }) => {
          const { tools } = globalThis as unknown as { tools: FilmTools };
          const server = tools.openFrameServer({ budgetBytes, format: 'i420' });
          const open = (id: string) =>
            tools.fetchTable(id).then((table) => server.openFilm({ id, url: `/film/${id}`, table }));
          const both = [await open('one'), await open('webm')];
          let wrong = 0;
          let most = 0;
          for (let step = 0; step < 180; step += 1) {
            const answers = await Promise.all(both.map((film) => server.frame(film, step, { direction: 1 })));
            for (const answer of answers) {
              if (!answer.known || tools.readCode(answer.value.picture.data, size.width, size) !== step) wrong += 1;
            }
            most = Math.max(most, (await server.report()).cachedBytes);
          }
          for (const film of both) server.closeFilm(film);
          const after = await server.report();
          const closed = await server.frame(both[0] ?? { id: '', table: await tools.fetchTable('one') }, 3);
          server.close();
          return { wrong, most, after, closed };
        },
        { budgetBytes, size: testSize },
      );
      expect(seen.wrong).toBe(0);
      expect(seen.most).toBeLessThanOrEqual(budgetBytes);
      expect(seen.most).toBeGreaterThan(budgetBytes / 2);
      expect(seen.after).toMatchObject({ cachedBytes: 0, cachedFrames: 0, films: 0 });
      expect(seen.closed).toMatchObject({ known: false, because: 'closed' });
    });

    it('drops what was asked before when the same viewer asks for another frame, and answers two viewers both', async () => {
      const answers = await page.page.evaluate(async () => {
        const { tools } = globalThis as unknown as { tools: FilmTools };
        const server = tools.openFrameServer({ budgetBytes: 2 ** 24 });
        const film = await server.openFilm({ id: 'two', url: '/film/two', table: await tools.fetchTable('two') });
        const asked = await Promise.all([
          server.frame(film, 150),
          server.frame(film, 20),
          server.frame(film, 90, { viewer: 'second' }),
          server.frame(film, 10),
          server.frame(film, 4000),
        ]);
        server.close();
        return asked.map((answer) => (answer.known ? answer.value.frame : answer.because));
      });
      expect(answers).toEqual(['superseded', 'superseded', 90, 10, 'no-such-frame']);
    });

    it('answers in a cache with room for a few pictures, and says so when not even one fits', async () => {
      const tries = await page.page.evaluate(
        async ({ three, none }) => {
          const { tools } = globalThis as unknown as { tools: FilmTools };
          const found: (number | string)[][] = [];
          for (const budgetBytes of [three, none]) {
            const server = tools.openFrameServer({ budgetBytes });
            const film = await server.openFilm({ id: 'one', url: '/film/one', table: await tools.fetchTable('one') });
            const answers: (number | string)[] = [];
            for (const frame of [100, 99, 98, 40, 41, 150, 149]) {
              const got = await server.frame(film, frame, { direction: -1 });
              answers.push(got.known ? got.value.frame : got.because);
              await new Promise((resolve) => setTimeout(resolve, 60));
            }
            found.push(answers);
            server.close();
          }
          return found;
        },
        { three: 3 * pictureBytes, none: 1000 },
      );
      expect(tries[0]).toEqual([100, 99, 98, 40, 41, 150, 149]);
      expect(tries[1]?.every((answer) => answer === 'not-decoded')).toBe(true);
    });

    it('does not restart its decoder on the way through a film', async () => {
      const report = await page.page.evaluate(async () => {
        const { tools } = globalThis as unknown as { tools: FilmTools };
        const server = tools.openFrameServer({ budgetBytes: 2 ** 22 });
        const film = await server.openFilm({ id: 'one', url: '/film/one', table: await tools.fetchTable('one') });
        for (let frame = 0; frame < 200; frame += 1) await server.frame(film, frame, { direction: 1 });
        const report = await server.report();
        server.close();
        return report;
      });
      expect(report).toMatchObject({ starts: 1, decoded: 200 });
    });

    /** What opening a film, or a frame of it, was refused with. */
    function refusal(film: string, table: string) {
      return page.page.evaluate(
        async ({ film, table }) => {
          const { tools } = globalThis as unknown as { tools: FilmTools };
          const server = tools.openFrameServer({ budgetBytes: 2 ** 24 });
          try {
            await server.openFilm({ id: film, url: `/film/${film}`, table: await tools.fetchTable(table) });
            return null;
          } catch (error) {
            return (error as { fault?: { fault: string; says: string } }).fault ?? null;
          } finally {
            server.close();
          }
        },
        { film, table },
      );
    }

    it('says that a film is gone, and names a codec this machine can not decode', async () => {
      expect(await refusal('gone', 'one')).toMatchObject({
        fault: 'film-missing',
        says: expect.stringContaining('404'),
      });
      const hevc = await readTableOf(join(films.folder, 'hevc.mp4'));
      if ('fault' in hevc) throw new Error(hevc.says);
      const refused = await refusal('hevc', 'hevc');
      // A machine with a decoder for it plays it; the test machine has none.
      if (refused !== null)
        expect(refused).toMatchObject({ fault: 'film-unsupported', says: expect.stringContaining(hevc.codec) });
    });

    it('says that a film is gone when it is deleted while open, and keeps answering what it holds', async () => {
      await page.page.evaluate(async () => {
        const { tools } = globalThis as unknown as { tools: FilmTools };
        const server = tools.openFrameServer({ budgetBytes: 2 ** 24 });
        const film = await server.openFilm({
          id: 'leaving',
          url: '/film/leaving',
          table: await tools.fetchTable('leaving'),
        });
        await server.frame(film, 0);
        Object.assign(globalThis, { leaving: { server, film } });
      });
      rmSync(join(films.folder, 'leaving.mp4'));
      const { held, far } = await page.page.evaluate(async () => {
        const { server, film } = (
          globalThis as unknown as {
            leaving: {
              server: ReturnType<FilmTools['openFrameServer']>;
              film: Parameters<ReturnType<FilmTools['openFrameServer']>['frame']>[0];
            };
          }
        ).leaving;
        const held = (await server.frame(film, 0)).known;
        const far = await server.frame(film, 900).then(
          (answer) => (answer.known ? 'a frame' : answer.because),
          (error: unknown) => (error as { fault?: { fault: string } }).fault?.fault ?? String(error),
        );
        server.close();
        return { held, far };
      });
      expect(held).toBe(true);
      expect(far).toBe('film-missing');
    });
  },
);
