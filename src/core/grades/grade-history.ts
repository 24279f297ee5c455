/** How a runner's grades moved as games were added. */
import type { Known } from '../known.ts';
import type { Rubric } from '../rubric/rubric.ts';
import { cellTable } from './cell-table.ts';
import { gameStatistics } from './game-statistics.ts';
import type { CoveredGrade, GradeRules } from './grade.ts';
import { graderOf, type NoCoveredGrade, poolsOf, type RunnerGrades, traitKeys } from './grade-class.ts';
import type { GradeMark } from './grade-mark.ts';
import type { Pooled } from './pooled.ts';
import { runnerMoments } from './runner-moments.ts';

/** A runner's grades after a game and all games before it. */
export type HistoryPoint = {
  readonly game: string;
  readonly overall: Known<CoveredGrade, NoCoveredGrade>;
  readonly families: RunnerGrades['families'];
  readonly traits: RunnerGrades['traits'];
};

/**
 * One runner's grades after each game with a mark, in the order of `games` (ids, earliest first), read against one
 * pooled class so that only his own film moves them; the last point is his grade. An empty list for no marks. Throws
 * RangeError for a second runner's mark or a game that `games` does not name.
 */
export function gradeHistory(
  marks: readonly GradeMark[],
  games: readonly string[],
  pooled: Pooled,
  rubric: Rubric,
  options: Partial<GradeRules> = {},
): readonly HistoryPoint[] {
  const place = new Map(games.map((game, at) => [game, String(at).padStart(9, '0')]));
  const inOrder = marks.map((mark) => {
    const game = place.get(mark.game);
    if (game === undefined) throw new RangeError(`an order of all games wanted, ${mark.game} is not in it`);
    return { ...mark, game };
  });
  const table = cellTable(inOrder, traitKeys(rubric), pooled.leniency);
  if (table.runners.length > 1) throw new RangeError(`one runner's marks wanted, got ${table.runners.length} runners'`);
  const statistics = gameStatistics(table);
  const pools = poolsOf(rubric, pooled);
  const grade = graderOf(rubric, pooled, options);
  return table.games.map((code, at) => {
    const range = { from: 0, to: at + 1 };
    const { overall, families, traits } = grade(table, 0, runnerMoments(table, statistics, 0, pools, range), range);
    return { game: games[Number(code)] ?? code, overall, families, traits };
  });
}
