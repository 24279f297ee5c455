import type { Camera } from './camera.ts';
import { shoot, type Shot } from './operator.ts';
import type { LivePlay } from './season/series.ts';
import type { GameRow } from './season/rows.ts';

/** One shot on a film: a play (live or again, slower) or a score card. */
export type Segment = {
  readonly kind: 'play' | 'replay' | 'card';
  readonly play?: LivePlay;
  readonly cameras?: readonly Camera[];
  /** Play frames shown: first, last; card: 0 and its length less one. */
  readonly from: number;
  readonly to: number;
  /** Seconds of play in a second of film. */
  readonly timeScale: number;
  readonly inFrame: number;
  readonly outFrame: number;
};

/** A change of shot: a cut's frame is the first of the new shot; a dissolve's the first mixed one. */
export type Transition = { readonly kind: 'cut' | 'dissolve'; readonly frame: number; readonly lengthFrames: number };

/** What a film shows frame by frame, before anything is drawn. */
export type FilmPlan = {
  readonly id: string;
  readonly game: GameRow;
  readonly angle: 'sideline' | 'end zone';
  readonly segments: readonly Segment[];
  readonly transitions: readonly Transition[];
  readonly frameCount: number;
};

const DISSOLVE = 12;
const CARD_FRAMES = 78;

type Wanted = Omit<Segment, 'inFrame' | 'outFrame'> & { readonly soft: boolean };

function playSegment(play: LivePlay, shot: Shot): Wanted {
  return {
    kind: 'play',
    play,
    cameras: shoot(play.staged, shot, `${play.id} ${shot}`),
    from: 0,
    to: play.staged.frameCount - 1,
    timeScale: 1,
    soft: false,
  };
}

function wantedShots(game: GameRow, plays: readonly LivePlay[], angle: 'sideline' | 'end zone'): Wanted[] {
  return plays.flatMap((play): Wanted[] => {
    if (angle === 'end zone') return play.row.endZone ? [playSegment(play, 'end zone')] : [];
    const shots = [playSegment(play, 'sideline')];
    if (play.row.replay !== undefined) {
      const { exchange, snap, plant, firstContact, down } = play.staged.moves.moments;
      const from = Math.max(exchange ?? snap, (plant ?? snap) - 24);
      const to = Math.min(play.staged.frameCount - 4, (firstContact ?? down) + 6, from + 62);
      const last = from + Math.floor((to - from) * play.row.replay) / play.row.replay;
      shots.push({
        kind: 'replay',
        play,
        cameras: shoot(play.staged, 'tight', `${play.id} tight`),
        from,
        to: Math.floor(last),
        timeScale: play.row.replay,
        soft: true,
      });
    }
    if (play.number === game.cardBefore) {
      shots.unshift({ kind: 'card', from: 0, to: CARD_FRAMES - 1, timeScale: 1, soft: true });
    }
    return shots;
  });
}

/** Lays a game's plays out on one film: hard cuts between plays, dissolves into and out of replays and the card. */
export function planFilm(game: GameRow, plays: readonly LivePlay[], angle: 'sideline' | 'end zone'): FilmPlan {
  const segments: Segment[] = [];
  const transitions: Transition[] = [];
  let frame = 0;
  let softBefore = false;
  for (const shot of wantedShots(game, plays, angle)) {
    if (frame > 0) {
      const soft = shot.soft || softBefore;
      transitions.push({ kind: soft ? 'dissolve' : 'cut', frame, lengthFrames: soft ? DISSOLVE : 0 });
      if (soft) frame += DISSOLVE;
    }
    softBefore = shot.soft;
    const length = Math.floor((shot.to - shot.from) / shot.timeScale + 1e-9) + 1;
    const { soft: _soft, ...kept } = shot;
    segments.push({ ...kept, inFrame: frame, outFrame: frame + length - 1 });
    frame += length;
  }
  return { id: `${game.id}-${angle.replace(' ', '-')}`, game, angle, segments, transitions, frameCount: frame };
}

/** What stands on one frame: a segment at a play time (frames, may be fractional), and what it dissolves into. */
export type Moment = { readonly segment: Segment; readonly at: number };

function clamped(segment: Segment, at: number): Moment {
  const time = segment.from + (at - segment.inFrame) * segment.timeScale;
  const last = segment.play ? segment.play.staged.frameCount - 1 : segment.to;
  return { segment, at: Math.min(last, Math.max(0, time)) };
}

/** The shot or two that make up a film frame; `share` is how much of the second is seen. */
export function momentAt(plan: FilmPlan, frame: number): { first: Moment; over?: { moment: Moment; share: number } } {
  const index = plan.segments.findIndex((segment) => frame <= segment.outFrame);
  const segment = plan.segments[index];
  if (!segment) throw new Error(`a frame below ${plan.frameCount} was wanted, got ${frame}`);
  const before = plan.segments[index - 1];
  if (frame >= segment.inFrame || !before) return { first: clamped(segment, frame) };
  const share = (frame - before.outFrame) / (segment.inFrame - before.outFrame);
  return { first: clamped(before, frame), over: { moment: clamped(segment, frame), share } };
}

/** The film frame on which a play frame is first seen in a segment; undefined where the segment does not show it. */
export function filmFrame(segment: Segment, playFrame: number): number | undefined {
  if (playFrame < segment.from || playFrame > segment.to) return undefined;
  return segment.inFrame + Math.ceil((playFrame - segment.from) / segment.timeScale - 1e-9);
}
