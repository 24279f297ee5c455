import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { filmKinds, hasFfmpeg, type FilmKind } from '../../scripts/make-test-film.ts';
import { installedChromium } from './chromium.ts';
import { openFilmPage, type FilmPage } from './film-page.ts';
import { numbersByFfmpeg, openTestFilms, type TestFilms } from './test-films.ts';
import { planWalk, walkFilm } from './walk-film.ts';

const kinds = Object.keys(filmKinds) as FilmKind[];
const frames = 150;
/** 2,000 steps and jumps and a few more, spread evenly over the kinds. */
const walk = Math.ceil(2040 / kinds.length);
/** Room for 40 pictures of 4:2:0: less than two groups of pictures, so that frames are let go and decoded again. */
const budget = 40 * 320 * 180 * 1.5;

const missing = [hasFfmpeg() ? '' : 'ffmpeg', installedChromium() === null ? 'a browser of the Chromium family' : ''];
const why = missing.filter((name) => name !== '').join(' and ');

describe.skipIf(why !== '')(
  `the exact frame in a real browser${why === '' ? '' : ` (skipped: ${why} not installed)`}`,
  () => {
    let films: TestFilms;
    let page: FilmPage;
    const paths: Record<string, string> = {};

    beforeAll(async () => {
      films = openTestFilms();
      for (const kind of kinds) paths[kind] = await films.film(kind, frames);
      page = await openFilmPage(paths);
    }, 120_000);
    afterAll(async () => {
      await page.close();
      films.remove();
    });

    for (const [place, kind] of kinds.entries()) {
      it(`shows the frame asked for at every step and jump of a film of the kind ${kind}`, async () => {
        const truth = numbersByFfmpeg(paths[kind] ?? '');
        const plan = planWalk(truth.length, walk, 1000 + place);
        const { seen, mostBytes } = await walkFilm(page.page, kind, plan, budget);
        expect(seen).toHaveLength(walk);
        expect(seen.filter(({ asked, read }) => read !== truth[asked])).toEqual([]);
        expect(mostBytes).toBeLessThanOrEqual(budget);
      });
    }

    it('needs nothing the strict content policy forbids', () => {
      expect(page.complaints).toEqual([]);
    });
  },
);
