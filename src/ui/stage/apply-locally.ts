import type { StageGame } from '../../contract/calls.ts';
import type { ChangeStep } from '../../contract/changes.ts';
import { rows, type TableName } from '../../contract/rows.ts';

const lists = {
  play: 'plays',
  part: 'parts',
  span: 'spans',
  moment: 'moments',
  step: 'steps',
  mark: 'marks',
  holding: 'holdings',
  decision: 'decisions',
  lane: 'lanes',
  chalk: 'chalk',
} as const satisfies Partial<Record<TableName, keyof StageGame>>;

const isListed = (table: TableName): table is keyof typeof lists => Object.hasOwn(lists, table);

/** What hangs on a removed row goes with it, as in the study. */
function without(game: StageGame, table: keyof typeof lists, id: string): StageGame {
  const keep = <Row extends { id: string }>(list: readonly Row[]): Row[] => list.filter((row) => row.id !== id);
  switch (table) {
    case 'play': {
      const parts = game.parts.filter((part) => part.playId === id).map((part) => part.id);
      const spans = game.spans.filter((span) => span.playId === id).map((span) => span.id);
      let next: StageGame = { ...game, plays: keep(game.plays) };
      for (const part of parts) next = without(next, 'part', part);
      for (const span of spans) next = without(next, 'span', span);
      return next;
    }
    case 'part':
      return {
        ...game,
        parts: keep(game.parts),
        marks: game.marks.filter((mark) => mark.partId !== id),
        moments: game.moments.filter((moment) => moment.partId !== id),
        steps: game.steps.filter((step) => step.partId !== id),
        holdings: game.holdings.filter((holding) => holding.partId !== id),
        decisions: game.decisions.filter((decision) => decision.partId !== id),
      };
    case 'span':
      return {
        ...game,
        spans: keep(game.spans),
        moments: game.moments.filter((moment) => moment.spanId !== id),
        steps: game.steps.filter((step) => step.spanId !== id),
        chalk: game.chalk.filter((chalk) => chalk.spanId !== id),
        decisions: game.decisions.filter((decision) => decision.spanId !== id),
      };
    default:
      return { ...game, [lists[table]]: keep<{ id: string }>(game[lists[table]]) };
  }
}

/** The game as it will stand once the study has made these steps; steps on other tables change nothing here. */
export function applyLocally(game: StageGame, steps: readonly ChangeStep[]): StageGame {
  let next = game;
  for (const step of steps) {
    if (!isListed(step.table)) continue;
    const list = lists[step.table];
    switch (step.do) {
      case 'add': {
        const parsed = rows[step.table].safeParse(step.row);
        if (!parsed.success) return game;
        next = { ...next, [list]: [...next[list], parsed.data] };
        if (step.table === 'play') next = { ...next, plays: next.plays.toSorted((a, b) => a.position - b.position) };
        break;
      }
      case 'set':
        next = { ...next, [list]: next[list].map((row) => (row.id === step.id ? { ...row, ...step.set } : row)) };
        break;
      case 'remove':
        next = without(next, step.table, step.id);
        break;
    }
  }
  return next;
}
