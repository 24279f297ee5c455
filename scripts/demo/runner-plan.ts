import { smoothedPath, speedsOf, trackOf, type Knot } from './curve.ts';
import { FRAME_SECONDS } from './field-measure.ts';
import type { LineUp, Spotting } from './formation.ts';
import type { PlayScript, RunScript, Way } from './play-script.ts';

/** The named instants of a play, as frames of the play's own clock. */
export type Moments = {
  snap: number;
  exchange?: number;
  firstRead?: number;
  press?: number;
  decision?: number;
  plant?: number;
  cut?: number;
  firstContact?: number;
  down: number;
};

/** One planned foot plant; `foot` as if the play went right. */
export type PlannedStep = { readonly frame: number; readonly foot: 'L' | 'R'; readonly wide: boolean };

/** The runner's way through a play: place by frame, moments, and the feet he does it with. */
export type RunnerPlan = {
  readonly path: readonly (readonly [number, number])[];
  readonly moments: Moments;
  readonly steps: readonly PlannedStep[];
  /** Frame of each point of the way, in order (the last is the end of the way). */
  readonly wayFrames: readonly number[];
  readonly frameCount: number;
};

const TAIL_FRAMES = 15;

function legFrames(from: Way, to: Way): number {
  const distance = Math.hypot(to[0] - from[0], to[1] - from[1]);
  const pace = Math.max(0.9, (from[2] + to[2]) / 2);
  return Math.max(2, Math.round(distance / pace / FRAME_SECONDS));
}

function exchangeOf(play: PlayScript, snap: number): { frame: number; way: Way } {
  switch (play.concept ?? 'none') {
    case 'toss':
      return { frame: snap + 19, way: play.shotgun ? [-5.3, 3.4, 4.6] : [-6.6, 3, 4.4] };
    case 'draw':
      return { frame: snap + 33, way: play.shotgun ? [-4.9, 0.75, 2.6] : [-5.6, 0.6, 2.4] };
    case 'counter':
      return { frame: snap + (play.shotgun ? 25 : 29), way: play.shotgun ? [-4.4, 0.3, 3.4] : [-4.6, -0.4, 3.4] };
    case 'inside zone':
    case 'outside zone':
    case 'power':
    case 'none':
      break;
  }
  return { frame: snap + (play.shotgun ? 21 : 27), way: play.shotgun ? [-4.3, 0.25, 3.9] : [-4.4, 0.55, 4.2] };
}

function cadence(speed: number): number {
  return 3.35 + 0.15 * Math.min(speed, 9);
}

function stepsThrough(
  path: readonly (readonly [number, number])[],
  span: { from: number; plant: number; to: number; chop: readonly [number, number] },
  plantFoot: 'L' | 'R',
): PlannedStep[] {
  const speeds = speedsOf(path, FRAME_SECONDS);
  const rate = (frame: number): number =>
    frame >= span.chop[0] && frame < span.chop[1] ? 5.3 : cadence(speeds[frame] ?? 0);
  const other = { L: 'R', R: 'L' } as const;
  const before: PlannedStep[] = [];
  let foot = plantFoot;
  let phase = 0;
  for (let frame = span.plant - 1; frame >= span.from; frame -= 1) {
    phase += rate(frame) * FRAME_SECONDS;
    if (phase < 1) continue;
    phase -= 1;
    foot = other[foot];
    before.unshift({ frame, foot, wide: false });
  }
  const steps = [...before, { frame: span.plant, foot: plantFoot, wide: true }];
  foot = plantFoot;
  phase = 0;
  for (let frame = span.plant + 1; frame <= span.to; frame += 1) {
    phase += rate(frame) * FRAME_SECONDS;
    if (phase < 1) continue;
    phase -= 1;
    foot = other[foot];
    steps.push({ frame, foot, wide: false });
  }
  return steps;
}

type Ending = { readonly knots: readonly Knot[]; readonly contact?: number; readonly down: number };

function ending(play: PlayScript, run: RunScript, at: number, last: Way, spotting: Spotting): Ending {
  const end = run.end ?? 'tackled';
  if (end === 'touchdown' || end === 'out of bounds') {
    const out = end === 'out of bounds';
    const coast = last[2] * 0.42;
    const knots = out
      ? [{ frame: at + 26, u: last[0] + coast * 1.1, w: last[1] + coast * 0.55 * Math.sign(last[1]) }]
      : [{ frame: at + 30, u: Math.min(spotting.toGoal + 8.6, last[0] + coast * 1.3), w: last[1] + 0.8 }];
    return { knots, down: at };
  }
  const target = play.gainYards + 0.25;
  const after = Math.max(0.3, target - last[0]);
  const frames = Math.max(11, Math.round((after / 2.7 + 0.12) / FRAME_SECONDS));
  const u = Math.max(last[0] - 0.6, target);
  return { knots: [{ frame: at + frames, u, w: last[1] + (run.drift ?? 0.3) }], contact: at, down: at + frames };
}

/** A way that ends out of bounds ends on the sideline he is nearest to, wherever the ball lay. */
function wayInField(run: RunScript, spotting: Spotting): readonly Way[] {
  if (run.end !== 'out of bounds') return run.way;
  return run.way.map((point, at) => {
    if (at < run.way.length - 1) return point;
    return [point[0], point[1] > 0 ? spotting.roomPlay + 0.3 : -spotting.roomBack - 0.3, point[2]];
  });
}

/** Works a run script out into a path by frame, its moments and its foot plants; deterministic. */
export function planRun(play: PlayScript, run: RunScript, line: LineUp, spotting: Spotting, snap: number): RunnerPlan {
  const start = line.RB;
  const exchange = exchangeOf(play, snap);
  const leave = play.concept === 'draw' ? snap + 20 : snap + (play.shotgun ? 7 : 3);
  const knots: Knot[] = [
    { frame: 0, u: start[0], w: start[1] },
    { frame: leave, u: start[0], w: start[1] },
  ];
  if (play.concept === 'counter') {
    knots.push({ frame: snap + 13, u: start[0] + 0.25, w: start[1] - 0.75 });
  }
  knots.push({ frame: exchange.frame, u: exchange.way[0], w: exchange.way[1] });
  const press = exchange.frame + Math.max(9, legFrames(exchange.way, run.press));
  knots.push({ frame: press, u: run.press[0], w: run.press[1] });
  const chopFrames = run.chop?.frames ?? 0;
  const back = run.chop?.back ?? 0;
  const plant = press + 5 + chopFrames;
  const lean = Math.sign(run.press[1] - exchange.way[1] || 1) * 0.25;
  const planted: Way = [
    run.press[0] + (run.chop ? -back : 0.32),
    run.press[1] + lean,
    Math.max(1.8, run.press[2] * 0.75),
  ];
  if (run.chop)
    knots.push({ frame: press + Math.round(chopFrames * 0.6), u: run.press[0] + 0.1, w: run.press[1] + lean / 2 });
  knots.push({ frame: plant, u: planted[0], w: planted[1] });
  let frame = plant;
  let from = planted;
  const wayFrames: number[] = [];
  for (const point of wayInField(run, spotting)) {
    frame += legFrames(from, point);
    wayFrames.push(frame);
    knots.push({ frame, u: point[0], w: point[1] });
    from = point;
  }
  const close = ending(play, run, frame, from, spotting);
  knots.push(...close.knots);
  const lastKnot = knots.at(-1)?.frame ?? frame;
  const frameCount = Math.max(close.down, lastKnot) + TAIL_FRAMES;
  const path = smoothedPath(trackOf(knots, frameCount), 1.5);
  const down = settledDown(run, path, close.down, spotting);
  const next = run.way[0] ?? from;
  const plantFoot = next[1] >= planted[1] ? 'L' : 'R';
  const chop = run.chop ? ([press + 1, plant] as const) : ([0, 0] as const);
  const stepsTo =
    run.end === 'touchdown' || run.end === 'out of bounds' ? frameCount - TAIL_FRAMES + 4 : close.down - 3;
  const steps = stepsThrough(path, { from: leave + 1, plant, to: stepsTo, chop }, plantFoot);
  const touched = run.misses?.find((miss) => miss.touch)?.at;
  const firstContact = touched === undefined ? close.contact : wayFrames[touched];
  const cut = steps.find((step) => step.frame > plant)?.frame ?? plant + 7;
  return {
    path,
    steps,
    wayFrames,
    frameCount,
    moments: {
      snap,
      exchange: exchange.frame,
      firstRead: exchange.frame + 3,
      press,
      decision: plant - 3,
      plant,
      ...(firstContact === undefined || cut < firstContact ? { cut } : {}),
      ...(firstContact === undefined ? {} : { firstContact }),
      down,
    },
  };
}

function settledDown(
  run: RunScript,
  path: readonly (readonly [number, number])[],
  planned: number,
  spotting: Spotting,
): number {
  if (run.end === 'touchdown') return path.findIndex((place) => place[0] >= spotting.toGoal);
  if (run.end === 'out of bounds') {
    return path.findIndex((place) => place[1] >= spotting.roomPlay || place[1] <= -spotting.roomBack);
  }
  return planned;
}
