import type { StageGame } from '../../contract/calls.ts';
import type { Chalk, Span } from '../../contract/rows.ts';
import type { ReelFilm, ReelPart } from '../../film/reel/reel-plan.ts';
import type { ReelPlay } from '../link/reel-request.ts';

/** Speeds a play can be shown at, as filmed first. */
export const speeds = [1, 0.5, 0.25] as const;
export type ReelSpeed = (typeof speeds)[number];

/** One play of a reel being put together. */
export type ReelItem = {
  readonly playId: string;
  readonly title: string;
  readonly caption: string;
  /** The views of the play there are, and the one taken. */
  readonly spans: readonly Span[];
  readonly spanId: string;
  readonly chalk: readonly Chalk[];
  readonly speed: ReelSpeed;
  readonly left: boolean;
};

/** What is put around the plays. */
export type ReelChoices = {
  readonly head: string;
  readonly cards: boolean;
  readonly cardSeconds: number;
  readonly chalk: boolean;
};

const holds = (span: Span, at: ReelPlay['at']): boolean =>
  at !== null && span.filmId === at.filmId && span.inFrame <= at.frame && at.frame <= span.outFrame;

/** The plays asked for as items, each with the view meant; plays without film are left out. */
export function itemsOf(plays: readonly ReelPlay[], games: ReadonlyMap<string, StageGame>): ReelItem[] {
  return plays.flatMap(({ gameId, playId, spanId, at, title, caption }) => {
    const game = games.get(gameId);
    const spans = (game?.spans ?? []).filter((span) => span.playId === playId && span.kind !== 'graphic');
    const taken =
      spans.find((span) => holds(span, at)) ??
      spans.find(({ id }) => id === spanId) ??
      spans.find(({ kind }) => kind === 'live') ??
      spans[0];
    if (game === undefined || taken === undefined) return [];
    const own = new Set(spans.map(({ id }) => id));
    const chalk = game.chalk.filter((each) => own.has(each.spanId));
    return [{ playId, title, caption, spans, spanId: taken.id, chalk, speed: 1, left: false }];
  });
}

/** The items with one moved up (-1) or down (1); the ends stay where they are. */
export function movedItem(items: readonly ReelItem[], index: number, by: 1 | -1): ReelItem[] {
  const [here, there] = [items[index], items[index + by]];
  if (here === undefined || there === undefined) return [...items];
  return items.map((item, at) => (at === index ? there : at === index + by ? here : item));
}

/** A part of the reel, and the chalk that lies on it. */
export type DrawnPart = { readonly part: ReelPart; readonly chalk: readonly Chalk[] };

/** The parts of the reel: its own card, then each play after its card. Films are given by their id; one not given throws. */
export function reelParts(
  items: readonly ReelItem[],
  films: ReadonlyMap<string, ReelFilm>,
  { head, cards, cardSeconds, chalk }: ReelChoices,
): DrawnPart[] {
  const card = (lines: readonly string[]): DrawnPart => ({
    part: { kind: 'card', lines: lines.filter((line) => line !== ''), seconds: cardSeconds },
    chalk: [],
  });
  const shown = items.filter(({ left }) => !left);
  const plays = shown.flatMap((item): DrawnPart[] => {
    const span = item.spans.find(({ id }) => id === item.spanId);
    if (span === undefined) return [];
    const film = films.get(span.filmId);
    if (film === undefined) throw new Error(`The film ${span.filmId} of a reel was not read.`);
    const drawn = chalk ? item.chalk.filter(({ spanId }) => spanId === span.id) : [];
    const part: ReelPart = {
      kind: 'span',
      film,
      from: span.inFrame,
      to: Math.min(span.outFrame, film.table.times.length - 1),
      speed: item.speed,
      drawn: drawn.length > 0,
    };
    return [...(cards ? [card([item.title, item.caption])] : []), { part, chalk: drawn }];
  });
  const count = shown.length === 1 ? 'one play' : `${shown.length} plays`;
  return head === '' ? plays : [card([head, count]), ...plays];
}

/** A reel's name as a file's, without what file systems refuse. */
export const fileNameOf = (name: string): string =>
  `${
    name
      .replaceAll(/[^\p{L}\p{N} ._-]+/gu, ' ')
      .replaceAll(/\s+/g, ' ')
      .trim()
      .slice(0, 80) || 'reel'
  }.mp4`;
