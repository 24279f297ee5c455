import type { StageGame } from '../../contract/calls.ts';
import { faultOf, FaultError } from '../../contract/faults.ts';
import type { Row, TableName } from '../../contract/rows.ts';
import { fromSql, selectList, sqlName } from '../study/tables.ts';
import type { Study } from '../study/study.ts';

/** Reads all of one game: its plays in order with everything that hangs on them. Throws a FaultError for no such game. */
export function readStageGame(study: Study, gameId: string): StageGame {
  const game = study.rows.get('game', gameId);
  if (game === undefined) {
    throw new FaultError(
      faultOf('not-found', `There is no game ${gameId} in this study.`, 'Choose a game from the list.'),
    );
  }
  const through = <Name extends TableName>(table: Name, join: string, order: string): Row<Name>[] =>
    study.database
      .prepare(
        `SELECT ${selectList(table, 't')} FROM ${sqlName(table)} t ${join} WHERE y.game_id = ? ORDER BY ${order}`,
      )
      .all(gameId)
      .map((stored) => fromSql(table, stored as Record<string, unknown>));
  const viaPart = 'JOIN part p ON p.id = t.part_id JOIN play y ON y.id = p.play_id';
  const viaSpan = 'JOIN span s ON s.id = t.span_id JOIN play y ON y.id = s.play_id';
  return {
    game,
    plays: study.rows.where('play', 'gameId', gameId).toSorted((a, b) => a.position - b.position),
    parts: through('part', 'JOIN play y ON y.id = t.play_id', 'y.position, t.id'),
    spans: through('span', 'JOIN play y ON y.id = t.play_id', 'y.position, t.in_frame, t.id'),
    moments: through('moment', viaSpan, 't.frame, t.id'),
    steps: through('step', viaSpan, 't.frame, t.id'),
    marks: through('mark', viaPart, 't.marked_at, t.id'),
    holdings: through('holding', viaPart, 't.id'),
    decisions: through('decision', viaPart, 't.id'),
    lanes: through(
      'lane',
      'JOIN decision d ON d.id = t.decision_id JOIN part p ON p.id = d.part_id JOIN play y ON y.id = p.play_id',
      't.position, t.id',
    ),
    chalk: through('chalk', viaSpan, 't.from_frame, t.id'),
  };
}
