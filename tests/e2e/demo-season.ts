import { execFileSync } from 'node:child_process';
import { copyFileSync, existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Season, SeasonPart, SeasonPlay } from '../../scripts/demo/study/season.ts';
import { add, type ChangeStep } from '../../src/contract/changes.ts';
import type { Sitting } from './sitting.ts';

export const demoFolder = join(import.meta.dirname, '../../demo');

/** The demo season as it is committed. */
export const readSeason = (): Season => JSON.parse(readFileSync(join(demoFolder, 'season.json'), 'utf8')) as Season;

/** A play as it lies on the sideline film, which is what gets cut and charted. */
export type PlayOnFilm = {
  readonly play: SeasonPlay;
  readonly part: SeasonPart;
  readonly filmId: string;
  readonly inFrame: number;
  readonly outFrame: number;
};

/** The season's plays in order, each at its live span on the sideline film; and the sideline films that are not there. */
export function playsOnFilm(season: Season): {
  readonly plays: readonly PlayOnFilm[];
  readonly gone: readonly string[];
} {
  const gone = season.films
    .filter(({ angle, file }) => angle === 'sideline' && !existsSync(join(demoFolder, file)))
    .map(({ file }) => file);
  const plays = season.plays.flatMap((play) => {
    const span = play.spans.find(({ angle, kind }) => angle === 'sideline' && kind === 'live');
    const [part] = play.parts;
    if (span === undefined || part === undefined) return [];
    return [{ play, part, filmId: span.filmId, inFrame: span.inFrame, outFrame: span.outFrame }];
  });
  return { plays, gone };
}

/** Row names in the fresh study, by the season's own. */
export type Fresh = {
  readonly games: ReadonlyMap<string, string>;
  readonly films: ReadonlyMap<string, string>;
  readonly runners: ReadonlyMap<string, string>;
};

/** Makes a study that holds the season's teams, runners, games and sideline films, and not one play. */
export async function makeUncutStudy(sitting: Sitting, path: string, season: Season): Promise<Fresh> {
  // From a room without film: a film of the study before would be asked for once more, and is in the new one no more.
  await sitting.page.keyboard.press('Alt+7');
  await sitting.page.locator('.settings').waitFor();
  await sitting.call('study.create', { path, evaluatorName: 'R. Amari' });
  const names = new Map<string, string>();
  const idOf = (name: string): string => {
    const known = names.get(name) ?? crypto.randomUUID();
    names.set(name, known);
    return known;
  };
  const steps: ChangeStep[] = [
    ...season.teams.map(({ id, name }) => add('team', { id: idOf(id), name })),
    ...season.runners.map(({ id, name, teamId, jersey }) =>
      add('runner', { id: idOf(id), name, teamId: idOf(teamId), jersey }),
    ),
    ...season.games.map(({ id, homeTeamId, awayTeamId, season: year, week }) =>
      add('game', { id: idOf(id), homeTeamId: idOf(homeTeamId), awayTeamId: idOf(awayTeamId), season: year, week }),
    ),
  ];
  await sitting.call('change.make', { by: null, label: 'Teams, runners and games', steps });
  const films = new Map<string, string>();
  for (const { id, file, angle } of season.films) {
    if (angle !== 'sideline' || !existsSync(join(demoFolder, file))) continue;
    const added = await sitting.call('film.add', { path: join(demoFolder, file), angle, by: null });
    films.set(id, added.id);
  }
  await sitting.page.reload();
  await sitting.page.locator('.room-now > *').first().waitFor();
  await sitting.page.keyboard.press('Alt+1');
  await sitting.page.locator('.stage').waitFor();
  const among = (list: readonly { readonly id: string }[]): Map<string, string> =>
    new Map(list.map(({ id }) => [id, idOf(id)]));
  return { games: among(season.games), films, runners: among(season.runners) };
}

/** A copy of the demo study on a desk; made from the season first where there is none. CREASEBOOK_DEMO names another. */
export function copyDemoStudy(folder: string): string {
  const demo = process.env['CREASEBOOK_DEMO'] ?? join(demoFolder, 'demo.creasebook');
  if (!existsSync(demo)) execFileSync(process.execPath, [join(demoFolder, '../scripts/demo/make-study.ts')]);
  const copy = join(folder, 'Demo season.creasebook');
  copyFileSync(demo, copy);
  return copy;
}
