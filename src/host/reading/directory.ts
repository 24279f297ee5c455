import { existsSync } from 'node:fs';
import type { Directory, StudyInfo } from '../../contract/calls.ts';
import type { Row } from '../../contract/rows.ts';
import { newestVersion } from '../study/migrations/all.ts';
import type { Study } from '../study/study.ts';
import { filmPath } from '../films/film-path.ts';
import { basename } from 'node:path';

/** What kind of study this is: its path, name and whether it can be written. */
export function readStudyInfo(study: Study): StudyInfo {
  return {
    path: study.path,
    name: basename(study.path)
      .replace(/\.creasebook$/, '')
      .slice(0, 200),
    readOnly: study.readOnlyBecause !== null,
    readOnlyBecause: study.readOnlyBecause,
    version: Number(study.database.pragma('user_version', { simple: true })) || newestVersion,
    journalEntries: study.position(),
  };
}

/** A game's name as people say it: "Harlan Ridge at Coldwater, week 6". */
export function gameLabel(game: Row<'game'>, teamName: (id: string) => string): string {
  const week = game.week === null ? '' : `, week ${game.week}`;
  const [away, home] = [game.awayTeamId, game.homeTeamId].map((id) => teamName(id).slice(0, 90));
  return `${away} at ${home}${week}`;
}

function counts(study: Study, sql: string): Map<string, number> {
  return new Map(
    study.database
      .prepare(sql)
      .raw()
      .all()
      .map((found) => {
        const [id, n] = found as [string, number];
        return [id, n];
      }),
  );
}

/** Reads who and what a study holds: teams, runners and games with their counts, films and whether each is there. */
export function readDirectory(study: Study, filmFolders: readonly string[]): Directory {
  const teams = study.rows.all('team');
  const names = new Map(teams.map((team) => [team.id, team.name]));
  const teamName = (id: string): string => names.get(id) ?? 'unknown team';
  const carries = counts(study, `SELECT runner_id, count(*) FROM part WHERE kind = 'run' GROUP BY runner_id`);
  const plays = counts(study, 'SELECT game_id, count(*) FROM play GROUP BY game_id');
  const gameCarries = counts(
    study,
    `SELECT y.game_id, count(*) FROM part p JOIN play y ON y.id = p.play_id WHERE p.kind = 'run' GROUP BY y.game_id`,
  );
  return {
    study: readStudyInfo(study),
    evaluators: study.rows.all('evaluator'),
    teams,
    runners: study.rows
      .all('runner')
      .map((runner) => ({ ...runner, carries: carries.get(runner.id) ?? 0 }))
      .toSorted((a, b) => b.carries - a.carries || a.name.localeCompare(b.name)),
    games: study.rows
      .all('game')
      .map((game) => ({
        ...game,
        label: gameLabel(game, teamName),
        plays: plays.get(game.id) ?? 0,
        carries: gameCarries.get(game.id) ?? 0,
      }))
      .toSorted(
        (a, b) => (a.season ?? 0) - (b.season ?? 0) || (a.week ?? 0) - (b.week ?? 0) || a.label.localeCompare(b.label),
      ),
    films: study.rows.all('film').map((film) => {
      const path = filmPath(film, study.path, filmFolders);
      return { ...film, missing: path === null || !existsSync(path) };
    }),
    officialLines: study.rows.all('officialLine'),
    rubricVersions: study.rows.all('rubricVersion').toSorted((a, b) => a.number - b.number),
    settings: study.rows.all('setting'),
  };
}
