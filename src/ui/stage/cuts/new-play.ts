import { add, type ChangeStep } from '../../../contract/changes.ts';
import type { StageGame } from '../../../contract/calls.ts';
import type { Film, Span } from '../../../contract/rows.ts';

/** A stretch of a film: its first and last frame. */
export type Stretch = { readonly inFrame: number; readonly outFrame: number };

/** What a play cut from film is made of; row names come in. */
export type NewPlay = Stretch & {
  readonly playId: string;
  readonly spanId: string;
  readonly game: StageGame;
  readonly film: Film;
  /** The film's frame times, seconds. */
  readonly times: ArrayLike<number>;
  /** Whose carry it is, his team, and the name of the carry's row; null: nobody's yet. */
  readonly carry: { readonly partId: string; readonly runnerId: string; readonly teamId: string | null } | null;
};

/** The play of this film that a stretch follows, else the game's last: a play cut earlier in a film comes before those cut later. */
function playBefore({
  game,
  film,
  inFrame,
}: Pick<NewPlay, 'game' | 'film' | 'inFrame'>): StageGame['plays'][number] | undefined {
  return (
    game.spans
      .filter((each) => each.filmId === film.id && each.inFrame < inFrame)
      .toSorted((a, b) => b.inFrame - a.inFrame)
      .map((each) => game.plays.find(({ id }) => id === each.playId))
      .find((play) => play !== undefined) ?? game.plays.at(-1)
  );
}

/** The steps that add a play with its live span at its place in the game. */
export function newPlaySteps(made: NewPlay): ChangeStep[] {
  const { game, carry } = made;
  const before = playBefore(made);
  const following = before === undefined ? undefined : game.plays[game.plays.indexOf(before) + 1];
  const position =
    before === undefined
      ? 1
      : following === undefined
        ? before.position + 1
        : (before.position + following.position) / 2;
  return [
    add('play', {
      id: made.playId,
      gameId: game.game.id,
      position,
      series: before?.series ?? 1,
      offenceTeamId: before?.offenceTeamId ?? carry?.teamId ?? null,
    }),
    spanStep({ ...made, kind: 'live', timeScale: 1, angle: made.film.angle }),
    ...(carry === null
      ? []
      : [add('part', { id: carry.partId, playId: made.playId, runnerId: carry.runnerId, kind: 'run' })]),
  ];
}

/** The step that adds a span with the times of its frames. Throws when the film has no such frame. */
export function spanStep({
  spanId,
  playId,
  film,
  times,
  inFrame,
  outFrame,
  kind,
  timeScale,
  angle,
}: Pick<NewPlay, 'spanId' | 'playId' | 'film' | 'times'> &
  Stretch &
  Pick<Span, 'kind' | 'timeScale' | 'angle'>): ChangeStep {
  const [inTime, outTime] = [times[inFrame], times[outFrame]];
  if (inTime === undefined || outTime === undefined)
    throw new Error(`The film has frames 0 to ${times.length - 1}, got ${inFrame} to ${outFrame}.`);
  return add('span', {
    id: spanId,
    playId,
    filmId: film.id,
    angle,
    kind,
    inFrame,
    inTime,
    outFrame,
    outTime,
    timeScale,
  });
}
