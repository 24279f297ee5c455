/** The logged carries of a runner as every reader needs them: rows, words and figures by the study's own choices. */
import { runInWords, situationInWords } from '../../contract/play-in-words.ts';
import type { Game, Mark, Part, Play, Row, Span, TableName } from '../../contract/rows.ts';
import { studySettings, type StudySettings } from '../../contract/study-settings.ts';
import type { CarryView } from '../../contract/views.ts';
import { carryJudge, type CarryFigures, type CarryFiguresFault } from '../../core/expectation/carry-figures.ts';
import { yardstickOf } from '../../core/expectation/yardstick.ts';
import type { Known } from '../../core/known.ts';
import { isDecided } from '../../core/plays/decided-game.ts';
import { fromSql, selectList, sqlName } from '../study/tables.ts';
import type { Study } from '../study/study.ts';

/** One carry with everything that hangs on it; `number` counts a runner's carries in game order, from 1. */
export type LoggedCarry = {
  readonly number: number;
  readonly play: Play;
  readonly part: Part;
  readonly game: Game;
  readonly spans: readonly Span[];
  readonly marks: readonly Mark[];
  readonly figures: Known<CarryFigures, CarryFiguresFault>;
  readonly decided: boolean;
};

/** The study's choices, read from its settings. */
export const settingsOf = (study: Study): StudySettings => studySettings(study.rows.all('setting'));

/** Reads a runner's carries in game order with their marks by one evaluator (null: by all) at first look. */
export function readCarries(study: Study, runnerId: string, evaluatorId: string | null): LoggedCarry[] {
  const settings = settingsOf(study);
  const judge = carryJudge(yardstickOf(settings));
  const through = <Name extends TableName>(table: Name, join: string, order: string): Row<Name>[] =>
    study.database
      .prepare(
        `SELECT ${selectList(table, 't')} FROM ${sqlName(table)} t ${join} WHERE p.runner_id = ? AND p.kind = 'run' ORDER BY ${order}`,
      )
      .all(runnerId)
      .map((stored) => fromSql(table, stored as Record<string, unknown>));
  const games = new Map(study.rows.all('game').map((game) => [game.id, game]));
  const plays = new Map(
    through('play', 'JOIN part p ON p.play_id = t.id', 't.position').map((play) => [play.id, play]),
  );
  const parts = study.rows.where('part', 'runnerId', runnerId).filter(({ kind }) => kind === 'run');
  const spans = groupBy(
    through('span', 'JOIN part p ON p.play_id = t.play_id', 't.kind, t.angle DESC, t.in_frame'),
    ({ playId }) => playId ?? '',
  );
  const marks = groupBy(
    through('mark', 'JOIN part p ON p.id = t.part_id', 't.marked_at, t.id').filter(
      (mark) => mark.lookId === null && (evaluatorId === null || mark.evaluatorId === evaluatorId),
    ),
    ({ partId }) => partId,
  );
  const order = (game: Game): string =>
    `${String(game.season ?? 0).padStart(5, '0')} ${String(game.week ?? 0).padStart(3, '0')} ${game.date ?? ''} ${game.id}`;
  return parts
    .flatMap((part) => {
      const play = plays.get(part.playId);
      const game = play === undefined ? undefined : games.get(play.gameId);
      if (play === undefined || game === undefined) return [];
      const decided = isDecided(play, { lines: settings.decidedLines });
      return [
        {
          number: 0,
          play,
          part,
          game,
          spans: spans.get(play.id) ?? [],
          marks: marks.get(part.id) ?? [],
          figures: judge({ ...play, gain: part.gain }),
          decided: decided.known && decided.value,
        },
      ];
    })
    .toSorted((a, b) => order(a.game).localeCompare(order(b.game)) || a.play.position - b.play.position)
    .map((carry, index) => ({ ...carry, number: index + 1 }));
}

function groupBy<Item>(items: readonly Item[], keyOf: (item: Item) => string): Map<string, Item[]> {
  const groups = new Map<string, Item[]>();
  for (const item of items) {
    const group = groups.get(keyOf(item));
    if (group === undefined) groups.set(keyOf(item), [item]);
    else group.push(item);
  }
  return groups;
}

/** A carry as the sheet and the page list it. Where two evaluators marked a trait, the later mark is listed. */
export function carryView({ number, play, part, spans, marks, figures, decided }: LoggedCarry): CarryView {
  const { expected, residual, success } = figures.known
    ? figures.value
    : { expected: null, residual: null, success: null };
  return {
    number,
    partId: part.id,
    playId: play.id,
    gameId: play.gameId,
    spanId: spans.find(({ kind }) => kind === 'live')?.id ?? spans[0]?.id ?? null,
    situation: situationInWords(play),
    run: runInWords(play, part),
    gain: part.gain,
    expected: expected?.mean ?? null,
    delta: residual?.delta ?? null,
    success,
    counts: part.counts,
    decided,
    marks: Object.fromEntries(
      marks.map((mark) => [
        mark.trait,
        { state: mark.state, value: mark.value, clearness: mark.clearness, spanId: mark.spanId, frame: mark.frame },
      ]),
    ),
    note: part.note,
  };
}
