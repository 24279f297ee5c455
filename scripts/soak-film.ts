/**
 * 2,000 steps and jumps over a film of each kind in a real browser; says how many showed a wrong frame.
 * `node scripts/soak-film.ts [COUNT]`. Needs ffmpeg and a browser of the Chromium family. Ends with 1 if any was wrong.
 */
import { openFilmPage } from '../tests/film/film-page.ts';
import { numbersByFfmpeg, openTestFilms } from '../tests/film/test-films.ts';
import { planWalk, walkFilm } from '../tests/film/walk-film.ts';
import { filmKinds, type FilmKind } from './make-test-film.ts';

const count = Number(process.argv[2] ?? 2000);
const frames = 600;
const budget = 90 * 320 * 180 * 1.5;
const kinds = Object.keys(filmKinds) as FilmKind[];
const films = openTestFilms();
let wrongInAll = 0;
try {
  const paths: Record<string, string> = {};
  for (const kind of kinds) paths[kind] = await films.film(kind, frames);
  const page = await openFilmPage(paths);
  for (const [place, kind] of kinds.entries()) {
    const truth = numbersByFfmpeg(paths[kind] ?? '');
    const { seen, mostBytes } = await walkFilm(page.page, kind, planWalk(truth.length, count, 7000 + place), budget);
    const wrong = seen.filter(({ asked, read }) => read !== truth[asked]);
    wrongInAll += wrong.length;
    const cache = `cache at most ${(mostBytes / budget).toFixed(2)} of its budget`;
    console.log(`${kind}: ${wrong.length} wrong of ${seen.length} steps and jumps; ${cache}`);
  }
  await page.close();
} finally {
  films.remove();
}
console.log(`${wrongInAll} wrong of ${count * kinds.length} in all`);
process.exitCode = wrongInAll === 0 ? 0 : 1;
