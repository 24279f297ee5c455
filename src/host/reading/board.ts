import { rankBoard } from '../../contract/board-answer.ts';
import type {
  BoardChoice,
  BoardRanked,
  BoardResults,
  BoardView,
  WatchNextView,
} from '../../contract/comparison-views.ts';
import { runInWords, situationInWords } from '../../contract/play-in-words.ts';
import type { Clearness } from '../../contract/words.ts';
import { watchNext } from '../../core/board/watch-next.ts';
import { known, type Known } from '../../core/known.ts';
import { completeness } from '../../core/plays/completeness.ts';
import type { Study } from '../study/study.ts';
import { classGrades, newestRubric } from './class-grades.ts';
import { gameLabel } from './directory.ts';
import { coveredView } from './grade-views.ts';
import { keptMarks } from './kept-marks.ts';
import { resultsOfRunners } from './runner-results.ts';

/** Enough for chances to a whole per cent, few enough for a slider to be answered in one picture. */
const draws = 2000;
const seed = 2026;

/** Everything a board is ranked from, by one evaluator's marks (null: all evaluators'). Throws a FaultError without a rubric. */
export function readBoard(study: Study, evaluatorId: string | null): BoardView {
  const rubric = newestRubric(study);
  const grades = classGrades(study, evaluatorId);
  const teams = new Map(study.rows.all('team').map(({ id, name }) => [id, name]));
  const carries = carryCounts(study);
  const markedBy = new Map<string, Set<string>>();
  for (const { runner, evaluator } of keptMarks(study, evaluatorId)) {
    const seen = markedBy.get(runner);
    if (seen === undefined) markedBy.set(runner, new Set([evaluator]));
    else seen.add(evaluator);
  }
  return {
    evaluators: study.rows.all('evaluator'),
    rubric: { id: rubric.id, number: rubric.number, name: rubric.name, body: rubric.body },
    runners: study.rows.all('runner').flatMap(({ id, name, teamId, position, classYear }) => {
      const own = grades.runners[id];
      if (own === undefined) return [];
      const { traits, mean, covariance, df, marked } = own.joint;
      return [
        {
          id,
          name,
          team: teamId === null ? null : (teams.get(teamId) ?? null),
          position,
          classYear,
          carries: carries.get(id) ?? 0,
          overall: coveredView(own.overall),
          joint: {
            traits: [...traits],
            mean: [...mean],
            covariance: covariance.map((row) => [...row]),
            df: [...df],
            marked: [...marked],
          },
          evaluators: [...(markedBy.get(id) ?? [])].toSorted(),
        },
      ];
    }),
    leniency: grades.pooled.leniency.map(({ evaluators, shift, covariance, shared }) => ({
      evaluators: [...evaluators],
      shift: [...shift],
      covariance: covariance.map((row) => [...row]),
      shared,
    })),
    draws,
    seed,
  };
}

function carryCounts(study: Study): Map<string, number> {
  const found = study.database
    .prepare(`SELECT runner_id, count(*) FROM part WHERE kind = 'run' AND counts = 1 GROUP BY runner_id`)
    .raw()
    .all() as [string, number][];
  return new Map(found);
}

/** The ranked class under one choice of weights and runners. Throws as readBoard. */
export function readRanked(study: Study, evaluatorId: string | null, choice: BoardChoice): BoardRanked {
  return rankBoard(readBoard(study, evaluatorId), choice);
}

/** Each runner's results as his sheet has them: carries that count, success, delta, games, and the log against the book. */
export function readBoardResults(study: Study): BoardResults[] {
  return resultsOfRunners(study).map(({ runnerId, carries, games, success, delta, lines }) => ({
    runnerId,
    carries,
    games,
    success,
    delta,
    completeness: completeness(lines),
  }));
}

type Unmarked = {
  readonly partId: string;
  readonly runnerId: string;
  readonly gameId: string;
  readonly clearness: Clearness | null;
};

/** How many games of unmarked carries are named. */
const mostNamed = 8;
/** How many of one runner, so that the list is not all one man. */
const mostOfOne = 2;

/**
 * The unmarked carries (no first-look mark by this evaluator; null: by anybody) whose marking is expected to change the
 * order most, those of one runner and game together. Reasons: core's. Throws a FaultError without a rubric.
 */
export function readWatchNext(study: Study, evaluatorId: string | null): Known<WatchNextView[]> {
  const unmarked = study.database
    .prepare(
      `SELECT p.id AS partId, p.runner_id AS runnerId, y.game_id AS gameId,
       (SELECT s.clearness FROM span s WHERE s.play_id = y.id ORDER BY s.kind <> 'live', s.id LIMIT 1) AS clearness
       FROM part p JOIN play y ON y.id = p.play_id
       WHERE p.kind = 'run' AND p.counts = 1 AND NOT EXISTS (SELECT 1 FROM mark m WHERE m.part_id = p.id
         AND m.look_id IS NULL AND (@evaluator IS NULL OR m.evaluator_id = @evaluator))
       ORDER BY y.game_id, y.position`,
    )
    .all({ evaluator: evaluatorId }) as Unmarked[];
  const { pooled } = classGrades(study, evaluatorId);
  const ranked = watchNext(
    unmarked.map(({ partId, runnerId, gameId, clearness }) => ({
      runner: runnerId,
      game: gameId,
      carry: partId,
      ...(clearness === null ? {} : { clearness }),
    })),
    keptMarks(study, evaluatorId),
    pooled,
    newestRubric(study).body,
  );
  if (!ranked.known) return ranked;
  const groups = new Map<string, { first: (typeof ranked.value)[number]; carries: string[] }>();
  for (const row of ranked.value) {
    const key = `${row.runner} ${row.game} ${row.swaps}`;
    const group = groups.get(key);
    if (group !== undefined) group.carries.push(row.carry);
    else groups.set(key, { first: row, carries: [row.carry] });
  }
  const order = new Map(unmarked.map(({ partId }, at) => [partId, at]));
  const teams = new Map(study.rows.all('team').map(({ id, name }) => [id, name]));
  const named = new Map<string, number>();
  const few = [...groups.values()].filter(({ first: { runner } }) => {
    const times = (named.get(runner) ?? 0) + 1;
    named.set(runner, times);
    return times <= mostOfOne;
  });
  const views = few.slice(0, mostNamed).flatMap(({ first, carries }): WatchNextView[] => {
    const [earliest] = carries.toSorted((a, b) => (order.get(a) ?? 0) - (order.get(b) ?? 0));
    const part = earliest === undefined ? undefined : study.rows.get('part', earliest);
    const play = part === undefined ? undefined : study.rows.get('play', part.playId);
    const game = play === undefined ? undefined : study.rows.get('game', play.gameId);
    if (part === undefined || play === undefined || game === undefined) return [];
    const spans = study.rows.where('span', 'playId', play.id);
    return [
      {
        runnerId: first.runner,
        gameId: game.id,
        game: gameLabel(game, (id) => teams.get(id) ?? 'unknown team'),
        carries: carries.length,
        swaps: first.swaps,
        movement: first.movement,
        playId: play.id,
        spanId: (spans.find(({ kind }) => kind === 'live') ?? spans[0])?.id ?? null,
        situation: situationInWords(play),
        run: runInWords(play, part),
      },
    ];
  });
  return known(views);
}
