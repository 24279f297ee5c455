import { isOffence } from './choreography.ts';
import type { Camera } from './camera.ts';
import { momentAt, type FilmPlan, type Moment } from './film-plan.ts';
import { DOWN_LINEMEN, SLOTS } from './formation.ts';
import type { CardPicture, FigureLook, Picture, PlayPicture } from './page/film-page.ts';
import type { FigureFrame } from './scene.ts';
import { JERSEYS, RUNNERS, TEAMS, type TeamId } from './season/people.ts';
import type { GameRow } from './season/rows.ts';
import type { LivePlay } from './season/series.ts';
import { seeded, seedFrom } from './seed.ts';

const ANGLES = new Set([2, 3, 7]);

function between(a: number, b: number, t: number): number {
  return a + (b - a) * t;
}

/** A figure between two frames; angles turn the short way. */
export function figureBetween(from: FigureFrame, to: FigureFrame, t: number): FigureFrame {
  return from.map((value, at) => {
    const end = to[at] ?? value;
    if (!ANGLES.has(at)) return between(value, end, t);
    return value + Math.atan2(Math.sin(end - value), Math.cos(end - value)) * t;
  });
}

/** A camera between two frames. */
export function cameraBetween(from: Camera, to: Camera, t: number): Camera {
  const point = (a: Camera['at'], b: Camera['at']): Camera['at'] => [
    between(a[0], b[0], t),
    between(a[1], b[1], t),
    between(a[2], b[2], t),
  ];
  return { at: point(from.at, to.at), target: point(from.target, to.target), focal: between(from.focal, to.focal, t) };
}

/** The camera of a play segment at a play time. */
export function cameraAt(moment: Moment): Camera {
  const cameras = moment.segment.cameras ?? [];
  const low = Math.floor(moment.at);
  const from = cameras[low];
  const to = cameras[Math.min(cameras.length - 1, low + 1)];
  if (!from || !to) throw new Error(`a camera for play frame ${moment.at} was wanted, got none`);
  return cameraBetween(from, to, moment.at - low);
}

/** Kits, numbers and builds of the 22 in a play. */
export function looksOf(game: GameRow, play: LivePlay): FigureLook[] {
  const offence = play.series.offence;
  const defence: TeamId = offence === game.home ? game.away : game.home;
  const runner = RUNNERS.find((each) => each.id === play.row.runner);
  return SLOTS.map((slot, at) => {
    const team = isOffence(slot) ? offence : defence;
    const shirts = JERSEYS[team];
    const number = isOffence(slot) ? shirts.offence[at] : shirts.defence[at - 11];
    const next = seeded(seedFrom(`${team} ${number}`));
    const lineman = DOWN_LINEMEN.includes(slot);
    return {
      kit: team === game.home ? game.kits.home : game.kits.away,
      number: slot === 'RB' ? String(runner?.jersey ?? '') : (number ?? ''),
      skin: Math.floor(next() * 30),
      bulk: lineman ? 1.13 + next() * 0.1 : slot === 'RB' ? 1.02 : 0.95 + next() * 0.1,
    };
  });
}

function cardOf(game: GameRow, plan: FilmPlan, moment: Moment): CardPicture {
  const next = plan.segments.find((segment) => segment.inFrame > moment.segment.outFrame && segment.kind === 'play');
  const away = TEAMS.find((team) => team.id === game.away);
  const home = TEAMS.find((team) => team.id === game.home);
  const series = next?.play?.series;
  return {
    kind: 'card',
    progress: moment.at / Math.max(1, moment.segment.to),
    card: {
      away: away?.name ?? '',
      home: home?.name ?? '',
      awayScore: series?.awayScore ?? 0,
      homeScore: series?.homeScore ?? 0,
      line: `Week ${game.week}   Quarter ${series?.quarter ?? 1}`,
      awayColour: away?.colours.primary ?? '#888888',
      homeColour: home?.colours.primary ?? '#888888',
    },
  };
}

function round(value: number): number {
  return Math.round(value * 1e4) / 1e4;
}

function pictureOf(plan: FilmPlan, moment: Moment): PlayPicture | CardPicture {
  const play = moment.segment.play;
  if (!play) return cardOf(plan.game, plan, moment);
  const low = Math.floor(moment.at);
  const t = moment.at - low;
  const { figures, ball, frameCount } = play.staged;
  const high = Math.min(frameCount - 1, low + 1);
  const from = figures[low] ?? [];
  const to = figures[high] ?? [];
  const ballFrom = ball[low] ?? [0, 0, 0];
  const ballTo = ball[high] ?? ballFrom;
  return {
    kind: 'play',
    venue: plan.game.venue,
    camera: cameraAt(moment),
    looks: looksOf(plan.game, play),
    figures: from.map((figure, at) => (t === 0 ? figure : figureBetween(figure, to[at] ?? figure, t)).map(round)),
    ball: [between(ballFrom[0], ballTo[0], t), between(ballFrom[1], ballTo[1], t), between(ballFrom[2], ballTo[2], t)],
  };
}

/** Everything the drawing page needs for one film frame. */
export function pictureAt(plan: FilmPlan, frame: number): Picture {
  const { first, over } = momentAt(plan, frame);
  return {
    first: pictureOf(plan, first),
    ...(over ? { over: { picture: pictureOf(plan, over.moment), share: over.share } } : {}),
  };
}
