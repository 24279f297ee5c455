import type { StageGame } from './calls.ts';
import { rows, type Part, type Play, type Span } from './rows.ts';

/** Where a carry is stopped for one evaluator: nothing after this frame of this span is told. */
export type Seal = {
  readonly playId: string;
  readonly spanId: string;
  readonly frame: number;
  readonly evaluatorId: string;
};

/** What is told of the sealed play: what stands before the ball is snapped. A column that is not named is withheld. */
const toldOfPlay = [
  ...(['id', 'gameId', 'position', 'series', 'quarter', 'clockSeconds', 'offenceTeamId', 'scoreFor'] as const),
  ...(['scoreAgainst', 'down', 'toGo', 'spot', 'hash', 'backs', 'tightEnds', 'formation', 'motion'] as const),
  ...(['backAlignment', 'backDepth', 'concept', 'scheme', 'direction', 'designedGap', 'giveIsChoice'] as const),
  ...(['pullers', 'leadBlockers', 'front', 'box', 'safetiesDeep', 'pressure'] as const),
] satisfies readonly (keyof Play)[];
const toldOfPart = ['id', 'playId', 'runnerId', 'kind', 'comeBack'] as const satisfies readonly (keyof Part)[];
/** A later play's down, spot or score gives the gain away, so only that there is one is told. */
const toldOfLaterPlay = ['id', 'gameId', 'position', 'offenceTeamId'] as const satisfies readonly (keyof Play)[];

const only = (row: Readonly<Record<string, unknown>>, columns: readonly string[]): Record<string, unknown> =>
  Object.fromEntries(columns.map((column) => [column, row[column]]));

/** Whether a sealed carry's column of a play or part is withheld. */
export const isWithheld = (table: 'play' | 'part', column: string): boolean =>
  !(table === 'play' ? toldOfPlay : toldOfPart).some((told) => told === column);

/**
 * A game as it may be told while one carry is sealed: of its play what stands before the snap; its span ending at the
 * frame (of `outTime` the time given, film seconds), none of its other spans; no later moment, step, mark or chalk,
 * nothing of other evaluators; and of the plays after it only that they are there.
 */
export function sealedGame(game: StageGame, seal: Seal, outTime: number): StageGame {
  const at = game.plays.findIndex(({ id }) => id === seal.playId);
  if (at < 0) return game;
  const later = new Set(game.plays.slice(at + 1).map(({ id }) => id));
  const sealed = (part: Part | undefined): boolean => part?.playId === seal.playId;
  const partOf = new Map(game.parts.map((part) => [part.id, part]));
  const told = (partId: string, evaluatorId: string): boolean => {
    const part = partOf.get(partId);
    if (part !== undefined && later.has(part.playId)) return false;
    return !sealed(part) || evaluatorId === seal.evaluatorId;
  };
  const spans = game.spans.flatMap((span): Span[] => {
    if (span.id === seal.spanId) return [{ ...span, outFrame: seal.frame, outTime }];
    return span.playId === seal.playId ? [] : [span];
  });
  const laterSpans = new Set(spans.filter(({ playId }) => playId !== null && later.has(playId)).map(({ id }) => id));
  const kept = new Set(spans.map(({ id }) => id));
  const onFilm = (spanId: string, frame: number): boolean =>
    kept.has(spanId) && !laterSpans.has(spanId) && (spanId !== seal.spanId || frame <= seal.frame);
  const decisions = game.decisions.filter(({ partId, evaluatorId }) => told(partId, evaluatorId));
  const decided = new Set(decisions.map(({ id }) => id));
  return {
    game: game.game,
    plays: game.plays.map((play) => {
      if (play.id === seal.playId) return rows.play.parse(only(play, toldOfPlay));
      return later.has(play.id) ? rows.play.parse(only(play, toldOfLaterPlay)) : play;
    }),
    parts: game.parts.map((part) =>
      sealed(part) || later.has(part.playId) ? rows.part.parse(only(part, toldOfPart)) : part,
    ),
    spans,
    moments: game.moments.filter(({ spanId, frame }) => onFilm(spanId, frame)),
    steps: game.steps.filter(({ spanId, frame }) => onFilm(spanId, frame)),
    marks: game.marks.filter(
      ({ partId, evaluatorId, spanId, frame }) =>
        told(partId, evaluatorId) &&
        (!sealed(partOf.get(partId)) || (spanId === seal.spanId && frame !== null && frame <= seal.frame)),
    ),
    holdings: game.holdings.filter(({ partId, evaluatorId }) => told(partId, evaluatorId)),
    decisions,
    lanes: game.lanes.filter(({ decisionId }) => decided.has(decisionId)),
    chalk: game.chalk
      .filter(
        ({ spanId, fromFrame, evaluatorId }) =>
          onFilm(spanId, fromFrame) && (spanId !== seal.spanId || evaluatorId === seal.evaluatorId),
      )
      .map((each) => (each.spanId === seal.spanId ? { ...each, toFrame: Math.min(each.toFrame, seal.frame) } : each)),
  };
}
