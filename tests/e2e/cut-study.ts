import { add } from '../../src/contract/changes.ts';
import type { Sitting } from './sitting.ts';

const id = (): string => crypto.randomUUID();

/** Seconds of a frame at 30000/1001 frames a second. */
const time = (frame: number): number => (frame * 1001) / 30_000;

/** The rows of a study made by `makeCutStudy`. */
export type CutStudy = { readonly gameId: string; readonly playId: string; readonly partId: string };

/** Makes a study with one game, one runner, one film and one play cut from it, through the window's own door. */
export async function makeCutStudy(sitting: Sitting, path: string, film: string): Promise<CutStudy> {
  // From a room without film: a film of the study before would be asked for once more, and is in the new one no more.
  await sitting.page.keyboard.press('Alt+7');
  await sitting.page.locator('.settings').waitFor();
  await sitting.call('study.create', { path, evaluatorName: 'N. Halvorsen' });
  const added = await sitting.call('film.add', { path: film, angle: 'sideline', by: null });
  const [gameId, playId, partId, runnerId, home, away] = [id(), id(), id(), id(), id(), id()];
  await sitting.call('change.make', {
    by: null,
    label: 'A game with one play',
    steps: [
      add('team', { id: home, name: 'Tannis Ford' }),
      add('team', { id: away, name: 'Marlow State' }),
      add('runner', { id: runnerId, name: 'Ilya Quent', teamId: away, jersey: 31 }),
      add('game', { id: gameId, homeTeamId: home, awayTeamId: away, season: 2025, week: 3 }),
      add('play', { id: playId, gameId, position: 1, series: 1, offenceTeamId: away }),
      add('part', { id: partId, playId, runnerId, kind: 'run' }),
      add('span', {
        id: id(),
        playId,
        filmId: added.id,
        angle: 'sideline',
        kind: 'live',
        inFrame: 10,
        inTime: time(10),
        outFrame: 90,
        outTime: time(90),
        timeScale: 1,
      }),
    ],
  });
  await sitting.page.reload();
  await sitting.page.locator('.room-now > *').first().waitFor();
  await sitting.page.keyboard.press('Alt+1');
  return { gameId, playId, partId };
}
