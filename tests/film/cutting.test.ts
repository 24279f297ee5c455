import { spawnSync } from 'node:child_process';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { hasFfmpeg } from '../../scripts/make-test-film.ts';
import { scoreCuts } from '../../src/core/cutting/score-cuts.ts';
import { installedChromium } from './chromium.ts';
import { openFilmPage, type FilmPage } from './film-page.ts';
import type { FilmTools } from './page/main.ts';
import { openTestFilms, type TestFilms } from './test-films.ts';

const missing = [hasFfmpeg() ? '' : 'ffmpeg', installedChromium() === null ? 'a browser of the Chromium family' : ''];
const why = missing.filter((name) => name !== '').join(' and ');

/** Sources of 2 s at 30 frames a second, each with grain; joined below by cuts, a dissolve and a fade. */
const sources = [
  'testsrc2=s=320x180:r=30:d=2',
  'mandelbrot=s=320x180:r=30,trim=duration=2',
  'smptehdbars=s=320x180:r=30:d=2',
  'testsrc2=s=320x180:r=30:d=2,hue=h=120,hflip',
  'gradients=s=320x180:r=30:d=2:c0=0x204020:c1=0x80b060:x0=0:x1=320:speed=0.01',
  'life=s=320x180:r=30:mold=10:ratio=0.3,trim=duration=2',
];

function ffmpeg(args: readonly string[]): void {
  const run = spawnSync('ffmpeg', ['-loglevel', 'error', '-y', ...args]);
  if (run.status !== 0) throw new Error(run.stderr.toString());
}

describe.skipIf(why !== '')(`cutting in a real browser${why === '' ? '' : ` (skipped: ${why} not installed)`}`, () => {
  let films: TestFilms;
  let page: FilmPage;
  beforeAll(async () => {
    films = openTestFilms();
    const joined = join(films.folder, 'joined.mp4');
    const inputs = sources.flatMap((source) => [
      '-f',
      'lavfi',
      '-i',
      `${source},noise=alls=8:allf=t,format=yuv420p,setsar=1,settb=1/30`,
    ]);
    // Shots 0 1 | 2 3 are cut, 1 into 2 dissolves over half a second, 3 into 4 through black, 4 to 5 is cut.
    const graph = [
      '[0][1]concat=n=2:v=1,settb=1/30,fps=30[a]',
      '[a][2]xfade=transition=fade:duration=0.5:offset=3.5,settb=1/30,fps=30[b]',
      '[b][3]concat=n=2:v=1,settb=1/30,fps=30[c]',
      '[c][4]xfade=transition=fadeblack:duration=0.8:offset=6.7,settb=1/30,fps=30[d]',
      '[d][5]concat=n=2:v=1,settb=1/30,fps=30',
    ].join(';');
    const encode = ['-c:v', 'libx264', '-preset', 'veryfast', '-g', '60', '-bf', '2', '-pix_fmt', 'yuv420p'];
    ffmpeg([...inputs, '-filter_complex', graph, ...encode, joined]);
    const panning = join(films.folder, 'panning.mp4');
    const wide = 'testsrc2=s=1600x180:r=60:d=4,crop=320:180:x=t*260:y=0,noise=alls=8:allf=t';
    ffmpeg(['-f', 'lavfi', '-i', wide, ...encode, panning]);
    page = await openFilmPage({ joined, panning });
  }, 90_000);
  afterAll(async () => {
    await page.close();
    films.remove();
  });

  function proposals(film: string) {
    return page.page.evaluate(async (film) => {
      const { tools } = globalThis as unknown as { tools: FilmTools };
      const progress: number[] = [];
      const table = await tools.fetchTable(film);
      const found = await tools.proposeCuts({ url: `/film/${film}`, table, onProgress: (done) => progress.push(done) });
      return { ...found, progress, frames: table.times.length };
    }, film);
  }

  it('finds the cuts, the dissolve and the fade of a film with grain, and covers it with spans', async () => {
    const { transitions, spans, lost, progress, frames } = await proposals('joined');
    const truth = [
      { last: 59, first: 60 },
      { last: 104, first: 120 },
      { last: 164, first: 165 },
      { last: 200, first: 225 },
      { last: 260, first: 261 },
    ];
    expect(scoreCuts(truth, transitions, 'cut')).toMatchObject({
      truePositives: 3,
      falsePositives: 0,
      falseNegatives: 0,
    });
    expect(scoreCuts(truth, transitions, 'gradual')).toMatchObject({
      truePositives: 2,
      falsePositives: 0,
      falseNegatives: 0,
    });
    expect(spans).toHaveLength(6);
    expect(spans[0]?.first).toBe(0);
    expect(spans.at(-1)?.last).toBe(frames - 1);
    expect(lost).toBe(0);
    expect(progress).toEqual(progress.toSorted((a, b) => a - b));
    expect(progress.at(-1)).toBe(1);
  });

  it('proposes no cut in a film that only pans', async () => {
    const { transitions, spans } = await proposals('panning');
    expect(transitions).toEqual([]);
    expect(spans).toHaveLength(1);
  });

  it('stops when asked', async () => {
    const refused = await page.page.evaluate(async () => {
      const { tools } = globalThis as unknown as { tools: FilmTools };
      const stop = new AbortController();
      const table = await tools.fetchTable('joined');
      const cutting = tools.proposeCuts({
        url: '/film/joined',
        table,
        signal: stop.signal,
        onProgress: () => stop.abort(),
      });
      return cutting.then(
        () => 'done',
        (error: unknown) => String(error),
      );
    });
    expect(refused).toMatch(/abort/i);
  });
});
