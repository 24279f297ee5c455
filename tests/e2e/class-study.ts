import { statSync } from 'node:fs';
import { add } from '../../src/contract/changes.ts';
import { fingerprintOf } from '../../src/film/table/fingerprint.ts';
import { frameCount } from '../../src/film/table/frame-table.ts';
import { isFilmFault, readFrameTable } from '../../src/film/table/read-frame-table.ts';
import { fileBytes } from '../../src/host/films/file-bytes.ts';
import { openStudy } from '../../src/host/study/study.ts';
import { classSteps, type ClassPlan } from '../host/study-of-class.ts';
import { uid } from '../host/small-study.ts';

/** A film of a made study: its row's id, and how many frames a second it has. */
export type FilmInStudy = { readonly id: string; readonly frames: number; readonly rate: number };

/** Makes a study of a drawn class in a file, its carries on the given films (one a runner, in turn). */
export async function makeClassStudy(
  path: string,
  plan: Omit<ClassPlan, 'films'>,
  filmPaths: readonly string[] = [],
): Promise<readonly FilmInStudy[]> {
  const films: FilmInStudy[] = [];
  const rows = [];
  for (const [at, filmPath] of filmPaths.entries()) {
    const bytes = await fileBytes(filmPath);
    const table = await readFrameTable(bytes);
    if (isFilmFault(table)) throw new Error(table.says);
    const film = { id: uid(70 + at), frames: frameCount(table), rate: table.rate.frames / table.rate.seconds };
    films.push(film);
    rows.push(
      add('film', {
        ...film,
        name: filmPath.split('/').at(-1) ?? filmPath,
        path: filmPath,
        fingerprint: await fingerprintOf(bytes),
        bytes: statSync(filmPath).size,
        width: table.displayWidth,
        height: table.displayHeight,
        seconds: table.duration,
        codec: table.codec,
      }),
    );
    await bytes.close();
  }
  const study = openStudy(path, { create: true, now: () => Date.parse('2025-12-01T12:00:00Z') });
  try {
    study.make({ by: null, label: 'A drawn class', steps: [...rows, ...classSteps({ ...plan, films })] });
  } finally {
    study.close();
  }
  return films;
}
