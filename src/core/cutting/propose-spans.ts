import { median } from 'simple-statistics';
import { lookDistance, type Shot } from './shot.ts';
import type { Transition } from './transition.ts';

/** What a shot is proposed to be. The evaluator accepts, moves or drops it. */
export type SpanProposal = {
  /** Its first and last whole frame. */
  readonly first: number;
  readonly last: number;
  readonly kind: 'play' | 'graphic' | 'replay';
  /** Why it is called a graphic or a replay; for a play how it begins. */
  readonly because: string;
  /** Which of two alternating views it is, where a film alternates; null where it does not. */
  readonly view: 'first' | 'second' | null;
  /** The play it belongs to, counted from 0: both views of a play share one, a replay takes the play before it. */
  readonly play: number | null;
  /** How sure, 0 to 1; a rank, not a probability. */
  readonly confidence: number;
};

/** Seconds a card may stand, and how little it moves. */
const longestCard = 12;
const cardPace = 0.0025;
/** How far a card looks from the film's usual shots. */
const cardApart = 0.12;
/** Share of repeated frames from which a shot counts as slowed down, where the film's usual shot has few. */
const slowedDown = 0.3;
/** Two views are told apart when they differ this much more than shots of one view do, in this many changes. */
const viewsApart = 1.5;
const alternating = 0.7;
/** What two shots of one view in a row cost, in distances of the views. */
const sameAgain = 0.4;
const fewestForViews = 6;

function isCard(shot: Shot, usual: Float32Array, perSecond: number): boolean {
  const seconds = (shot.last - shot.first + 1) / perSecond;
  return shot.pace < cardPace && seconds <= longestCard && lookDistance(shot.look, usual) > cardApart;
}

/** The middle look of the shots that move: what the film usually shows. */
function usualLook(shots: readonly Shot[]): Float32Array {
  const moving = shots.filter(({ pace }) => pace >= cardPace);
  const from = moving.length > 0 ? moving : shots;
  const length = from[0]?.look.length ?? 0;
  return Float32Array.from({ length }, (_, at) => median(from.map(({ look }) => look[at] ?? 0)));
}

/**
 * Which of two centres each shot belongs to (true: the second): the nearer one, except that a shot of uncertain look
 * is taken for the view that alternates. The cheapest sequence, found forwards.
 */
function sidesBy(shots: readonly Shot[], [one, other]: readonly [Float32Array, Float32Array]): boolean[] {
  const apart = Math.max(1e-6, lookDistance(one, other));
  let best: { readonly cost: number; readonly sides: readonly boolean[] }[] = [];
  for (const { look } of shots) {
    const costs = [lookDistance(look, one) / apart, lookDistance(look, other) / apart];
    best = [false, true].map((side) => {
      const cost = costs[side ? 1 : 0] ?? 0;
      const ways = best.map((way) => ({ ...way, cost: way.cost + (way.sides.at(-1) === side ? sameAgain : 0) }));
      const from = ways.toSorted((a, b) => a.cost - b.cost)[0] ?? { cost: 0, sides: [] };
      return { cost: from.cost + cost, sides: [...from.sides, side] };
    });
  }
  return [...(best.toSorted((a, b) => a.cost - b.cost)[0]?.sides ?? [])];
}

/** Splits shots into two views by their looks, or null when the film does not alternate between two. */
function twoViews(shots: readonly Shot[]): readonly ('first' | 'second')[] | null {
  const [one] = shots;
  if (one === undefined || shots.length < fewestForViews) return null;
  let centres: [Float32Array, Float32Array] = [one.look, farthest(shots, one.look)];
  let side: boolean[] = [];
  for (let round = 0; round < 8; round += 1) {
    side = sidesBy(shots, centres);
    if (side.every((is) => is === side[0])) return null;
    centres = [false, true].map((is) => meanLook(shots.filter((_, at) => side[at] === is))) as [
      Float32Array,
      Float32Array,
    ];
  }
  const within =
    shots.reduce((sum, { look }, at) => sum + lookDistance(look, centres[side[at] === true ? 1 : 0]), 0) / shots.length;
  const changes = side.filter((is, at) => at > 0 && is !== side[at - 1]).length / (side.length - 1);
  if (lookDistance(centres[0], centres[1]) < viewsApart * within || changes < alternating) return null;
  return side.map((is) => (is === side[0] ? 'first' : 'second'));
}

function farthest(shots: readonly Shot[], from: Float32Array): Float32Array {
  return shots.reduce((most, { look }) => (lookDistance(look, from) > lookDistance(most, from) ? look : most), from);
}

function meanLook(shots: readonly Shot[]): Float32Array {
  const length = shots[0]?.look.length ?? 0;
  return Float32Array.from(
    { length },
    (_, at) => shots.reduce((sum, { look }) => sum + (look[at] ?? 0), 0) / shots.length,
  );
}

function isSoft(change: Transition | null): boolean {
  return change !== null && change.kind !== 'cut';
}

/** Why a shot is taken for a replay, or null. */
function replayReason(
  shot: Shot,
  before: Shot | undefined,
  after: Shot | undefined,
  usualRepeats: number,
  cards: ReadonlySet<Shot>,
): string | null {
  if (shot.repeated >= slowedDown && usualRepeats < slowedDown / 3) return 'slowed down: pictures repeat';
  if (before !== undefined && after !== undefined && cards.has(before) && cards.has(after)) {
    if (lookDistance(before.look, after.look) < cardApart / 3) return 'between two like graphics';
  }
  return isSoft(shot.before) && isSoft(shot.after) ? 'between two soft changes' : null;
}

/**
 * What each shot of a film is proposed to be: a play, a graphic (a still card unlike the film's usual shots), or a
 * replay (slowed down, between like graphics, or between soft changes while most changes are cuts). Where a film
 * alternates between two views, say wide and tight, both views of a play get its number. `perSecond` is the film's
 * rate, above 0. Common practice, no source.
 */
export function proposeSpans(shots: readonly Shot[], perSecond: number): SpanProposal[] {
  if (shots.length === 0) return [];
  const usual = usualLook(shots);
  const cards = new Set(shots.filter((shot) => shots.length > 2 && isCard(shot, usual, perSecond)));
  const usualRepeats = median(shots.map(({ repeated }) => repeated));
  const cuts = shots.filter(({ before }) => before?.kind === 'cut').length;
  const softIsRare = cuts > (shots.length - 1) / 2;
  const reasons = new Map(
    shots.map((shot, at) => {
      const reason = cards.has(shot) ? null : replayReason(shot, shots[at - 1], shots[at + 1], usualRepeats, cards);
      return [shot, reason === 'between two soft changes' && !softIsRare ? null : reason] as const;
    }),
  );
  const plays = shots.filter((shot) => !cards.has(shot) && (reasons.get(shot) ?? null) === null);
  const views = twoViews(plays);
  let play = -1;
  return shots.map((shot) => {
    const base = { first: shot.first, last: shot.last, confidence: shot.before?.confidence ?? 1 };
    if (cards.has(shot)) {
      return { ...base, kind: 'graphic', because: 'a still picture unlike the film', view: null, play: null } as const;
    }
    const reason = reasons.get(shot) ?? null;
    if (reason !== null) {
      return { ...base, kind: 'replay', because: reason, view: null, play: play < 0 ? null : play } as const;
    }
    const at = plays.indexOf(shot);
    const view = views?.[at] ?? null;
    const pairs = view === 'second' && at > 0 && views?.[at - 1] === 'first';
    if (!pairs) play += 1;
    return { ...base, kind: 'play', because: `begins with a ${shot.before?.kind ?? 'film'}`, view, play } as const;
  });
}
