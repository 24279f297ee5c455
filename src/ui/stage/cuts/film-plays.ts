import type { Film } from '../../../contract/rows.ts';
import { call } from '../../link/call.ts';
import { newId } from '../../link/change.ts';
import { attempt, go, readDirectory, usePlace } from '../../link/place.ts';
import { changeStage, showPlay, tableOf, useStage } from '../stage-store.ts';
import { newPlaySteps } from './new-play.ts';

/** A film that is one play: one of the study's, or a file not added yet. */
export type OnePlayFilm = { readonly name: string; readonly path: string; readonly filmId: string | null };

const byName = new Intl.Collator('en', { numeric: true, sensitivity: 'base' });

/** Films in the order of their names, figures as numbers: play 2 before play 10. A path comes once. */
export function inNameOrder(films: readonly OnePlayFilm[]): OnePlayFilm[] {
  const paths = new Map<string, OnePlayFilm>();
  for (const film of films) {
    const standing = paths.get(film.path);
    if (standing === undefined || standing.filmId === null) paths.set(film.path, film);
  }
  return [...paths.values()].toSorted((a, b) => byName.compare(a.name, b.name) || byName.compare(a.path, b.path));
}

async function added({ filmId, path }: OnePlayFilm): Promise<Film | undefined> {
  const find = (id: string): Film | undefined => usePlace.getState().directory?.films.find((film) => film.id === id);
  if (filmId !== null) return find(filmId);
  const film = await call('film.add', { path, angle: 'sideline', by: usePlace.getState().evaluatorId });
  await readDirectory();
  return film;
}

/**
 * Makes each film one play over its whole length, in the order given, each as one change. `heard` is told how many are
 * done. Resolves to how many were made; the signal stops it between two films, and a film in trouble ends it.
 */
export async function makeFilmPlays(
  films: readonly OnePlayFilm[],
  runnerId: string | null,
  heard: (done: number) => void,
  signal: AbortSignal,
): Promise<number> {
  let made = 0;
  let first: string | null = null;
  for (const each of films) {
    if (signal.aborted) break;
    const film = await attempt(() => added(each));
    const table = film === undefined ? undefined : await tableOf(film.id);
    const { game } = useStage.getState();
    if (film === undefined || table === undefined || game === null) break;
    const runner = usePlace.getState().directory?.runners.find(({ id }) => id === runnerId);
    const playId = newId();
    const steps = newPlaySteps({
      playId,
      spanId: newId(),
      game,
      film,
      times: table.times,
      inFrame: 0,
      outFrame: table.times.length - 1,
      carry: runner === undefined ? null : { partId: newId(), runnerId: runner.id, teamId: runner.teamId },
    });
    if (!(await changeStage(`Cut a play: the whole of ${film.name}`, steps))) break;
    first ??= playId;
    made += 1;
    heard(made);
  }
  if (first !== null) {
    go({ playId: first });
    showPlay(first);
  }
  return made;
}
