import { blocksOf, type Block } from './assignments.ts';
import { pairTracks } from './blocking.ts';
import { smoothedPath, trackOf, type Knot } from './curve.ts';
import { FRAME_SECONDS } from './field-measure.ts';
import { lineUp, SLOTS, type LineUp, type Spotting } from './formation.ts';
import { apart, chase, closing, type Path } from './pursuit.ts';
import { planPass, type PassPlan } from './pass-plan.ts';
import { DEFENCE, OFFENCE, type DefenceSlot, type PlayScript, type Slot } from './play-script.ts';
import { planRun, type Moments, type RunnerPlan } from './runner-plan.ts';
import { seeded, seedFrom } from './seed.ts';

/** Hands of `by` on `on` between two frames (a block, or a tackle's grip). */
export type Hold = {
  readonly by: Slot;
  readonly on: Slot;
  readonly from: number;
  readonly to: number;
  readonly kind: 'block' | 'tackle';
};

/** A figure going to the ground: when it starts, when it lies, and which way it falls (radians in the u, w plane). */
export type Fall = {
  readonly who: Slot;
  readonly from: number;
  readonly to: number;
  readonly way: number;
  readonly rise: boolean;
};

/** All 22 moving through one play, drawn up to the right; u past the line of scrimmage, w to the play side. */
export type Choreography = {
  readonly line: LineUp;
  readonly frameCount: number;
  readonly moments: Moments;
  readonly paths: Readonly<Record<Slot, Path>>;
  readonly holds: readonly Hold[];
  readonly falls: readonly Fall[];
  readonly blocks: readonly Block[];
  readonly engagedAt: Partial<Record<DefenceSlot, number>>;
  readonly runner?: RunnerPlan;
  readonly pass?: PassPlan;
  /** Frame at which the ball comes loose, and who falls on it. */
  readonly looseAt?: number;
  readonly recoveredBy?: Slot;
};

const TOP_SPEED: Record<'line' | 'backer' | 'back', number> = { line: 5, backer: 6.4, back: 7.2 };

function topSpeed(slot: Slot): number {
  if (slot === 'DEp' || slot === 'DTp' || slot === 'NT' || slot === 'DEb') return TOP_SPEED.line;
  if (slot === 'MIKE' || slot === 'WILL' || slot === 'SAM') return TOP_SPEED.backer;
  return (DEFENCE as readonly Slot[]).includes(slot) ? TOP_SPEED.back : TOP_SPEED.line;
}

/** The w where the play crosses the line: what blockers wall off to either side. */
function gapOf(play: PlayScript): number {
  const run = play.run;
  if (!run) return 0;
  const crossing = run.way.find((point) => point[0] >= 0.2) ?? run.way.at(-1);
  return crossing?.[1] ?? run.press[1];
}

function freeTracks(play: PlayScript, line: LineUp, snap: number, gap: number): Partial<Record<Slot, readonly Knot[]>> {
  const stay = (slot: Slot): Knot => ({ frame: snap + 1, u: line[slot][0], w: line[slot][1] });
  const pull = play.concept === 'outside zone' || play.concept === 'toss' ? 2.2 : 0.6;
  const tracks: Partial<Record<Slot, readonly Knot[]>> = {};
  for (const slot of ['MIKE', 'WILL', 'SAM'] as const) {
    const [u, w] = line[slot];
    tracks[slot] = [
      stay(slot),
      { frame: snap + 12, u: u - 0.3, w: w + 0.35 },
      { frame: snap + 34, u: Math.max(u - 1.6, 1.4), w: w + pull + (gap - w) * 0.22 },
    ];
  }
  for (const slot of ['FS', 'SS'] as const) {
    const [u, w] = line[slot];
    tracks[slot] = [
      stay(slot),
      { frame: snap + 16, u: u + (u > 8 ? 0.8 : -0.2), w: w + 0.2 },
      { frame: snap + 44, u: u - 0.8, w: w + (gap - w) * 0.3 },
    ];
  }
  for (const slot of ['CBx', 'CBz'] as const) {
    const [u, w] = line[slot];
    tracks[slot] = [stay(slot), { frame: snap + 22, u: u + 1, w }, { frame: snap + 46, u: u + 0.4, w: w * 0.95 }];
  }
  for (const slot of ['DEp', 'DTp', 'NT', 'DEb'] as const) {
    const w = line[slot][1];
    tracks[slot] = [stay(slot), { frame: snap + 14, u: -0.7, w }, { frame: snap + 32, u: -1.6, w: w * 0.9 }];
  }
  for (const slot of ['X', 'Z', 'H'] as const) {
    const [u, w] = line[slot];
    tracks[slot] = [stay(slot), { frame: snap + 40, u: u + 5, w: w * 0.98 }];
  }
  for (const slot of ['C', 'PG', 'BG', 'PT', 'BT', 'Y'] as const) {
    const w = line[slot][1];
    tracks[slot] = [stay(slot), { frame: snap + 12, u: 0.2, w: w + 0.2 }, { frame: snap + 36, u: 2.2, w: w + 0.4 }];
  }
  return tracks;
}

function quarterbackTrack(play: PlayScript, line: LineUp, moments: Moments): readonly Knot[] {
  const [u, w] = line.QB;
  const snap = moments.snap;
  const meet = moments.exchange ?? snap + 25;
  const start: Knot = { frame: snap + 1, u, w };
  if (play.concept === 'toss') {
    return [start, { frame: snap + 12, u: u - 0.7, w: w + 0.25 }, { frame: meet + 14, u: u - 1, w: w - 0.3 }];
  }
  if (play.concept === 'draw') {
    return [
      start,
      { frame: snap + 20, u: play.shotgun ? -5.9 : -5.4, w: w - 0.1 },
      { frame: meet, u: play.shotgun ? -5.4 : -6, w: w + 0.05 },
      { frame: meet + 26, u: -7.2, w: w - 0.7 },
    ];
  }
  const meshU = play.shotgun ? -4.75 : -4.1;
  return [
    start,
    ...(play.shotgun ? [] : [{ frame: snap + 12, u: -3, w: w - 0.25 }]),
    { frame: meet, u: meshU, w: play.shotgun ? w + 0.05 : w - 0.15 },
    { frame: meet + 16, u: meshU - 0.6, w: w - 1.6 },
    { frame: meet + 44, u: meshU - 0.9, w: w - 4.6 },
  ];
}

/** Moves all 22 through a play: blocks, fits, pursuit and the tackle all follow from the script; deterministic. */
export function choreograph(play: PlayScript, spotting: Spotting, snap: number): Choreography {
  const line = lineUp(play, spotting);
  const next = seeded(seedFrom(play.key));
  const runner = play.run ? planRun(play, play.run, line, spotting, snap) : undefined;
  const pass = play.pass ? planPass(play, play.pass, line, snap) : undefined;
  const frameCount = runner?.frameCount ?? pass?.frameCount ?? 120;
  const moments: Moments = runner?.moments ?? pass?.moments ?? { snap, down: snap + 80 };
  const gap = gapOf(play);
  const blocks = blocksOf(play);
  const knots = freeTracks(play, line, snap, gap);
  const holds: Hold[] = [];
  const falls: Fall[] = [];
  const engagedAt: Partial<Record<DefenceSlot, number>> = {};
  const released: Partial<Record<DefenceSlot, number>> = {};
  for (const block of blocks) {
    const tracks = pairTracks(block, line, play, snap, gap, frameCount);
    knots[block.blocker] = tracks.blocker;
    knots[block.defender] = tracks.defender;
    engagedAt[block.defender] = tracks.engagedAt;
  }
  knots.QB = pass?.knots.QB ?? quarterbackTrack(play, line, moments);
  if (pass) Object.assign(knots, pass.knots);
  const paths = Object.fromEntries(
    SLOTS.map((slot) => [slot, trackOf(knots[slot] ?? [{ frame: 0, u: line[slot][0], w: line[slot][1] }], frameCount)]),
  ) as Record<Slot, Path>;
  if (runner) paths.RB = runner.path.map((place): [number, number] => [place[0], place[1]]);
  const prey = pass ? pass.ballPath : paths.RB;
  const over = moments.down + 4;
  const tacklers = play.run
    ? ([play.run.tackler, ...(play.run.assist ?? [])].filter(Boolean) as DefenceSlot[])
    : (pass?.tacklers ?? []);
  const contact = pass ? (pass.contact ?? over) : (runner?.wayFrames.at(-1) ?? moments.firstContact ?? over);
  const misses = play.run?.misses ?? [];
  const loose = play.run?.end === 'fumble lost' || play.run?.end === 'fumble kept';

  for (const block of blocks) {
    const engaged = engagedAt[block.defender] ?? snap;
    const path = paths[block.defender];
    const passes = prey.findIndex(
      (place, frame) => frame > (moments.exchange ?? snap) && place[0] > (path[frame]?.[0] ?? 0) + 1.2,
    );
    const shed =
      block.result === 'lost'
        ? Math.max(engaged + 14, contact - 16)
        : passes < 0
          ? frameCount
          : passes + Math.floor(next() * 7);
    const until = Math.min(frameCount, Math.max(engaged + 10, shed));
    released[block.defender] = until;
    holds.push({
      by: block.blocker,
      on: block.defender,
      from: engaged - 2,
      to: Math.min(until, over + 8),
      kind: 'block',
    });
    if (until < frameCount && !tacklers.includes(block.defender)) {
      chase(path, prey, until, over, topSpeed(block.defender) * (0.86 + next() * 0.12), 1.5);
      chase(paths[block.blocker], prey, until, over, 3.6 + next(), 2.6);
    }
  }
  const readAt = (moments.firstRead ?? snap + 24) + 5;
  for (const slot of DEFENCE) {
    if (
      released[slot] !== undefined ||
      tacklers.includes(slot) ||
      misses.some((miss) => miss.by === slot) ||
      pass?.knots[slot]
    )
      continue;
    chase(paths[slot], prey, readAt + Math.floor(next() * 8), over, topSpeed(slot) * (0.84 + next() * 0.1), 1.6);
  }
  if (pass)
    for (const slot of DEFENCE)
      if (pass.knots[slot] && !tacklers.includes(slot))
        chase(paths[slot], prey, pass.arrive, over, topSpeed(slot) * 0.85, 1.7);

  misses.forEach((miss) => {
    const at = runner?.wayFrames[miss.at] ?? contact;
    const spot = paths.RB[at] ?? [0, 0];
    const from = paths[miss.by][at - 12] ?? [0, 0];
    const angle = Math.atan2(from[1] - spot[1], from[0] - spot[0]);
    const reach = miss.touch ? 0.55 : 0.95;
    const dive: [number, number] = [spot[0] + Math.cos(angle) * reach - 0.2, spot[1] + Math.sin(angle) * reach];
    const path = closing(paths[miss.by], dive, at, 6.6, snap + 12);
    for (let frame = at; frame < frameCount; frame += 1) {
      const t = Math.min(1, (frame - at) / 12);
      path[frame] = [dive[0] - Math.cos(angle) * 0.9 * t, dive[1] - Math.sin(angle) * 0.9 * t];
    }
    paths[miss.by] = path;
    falls.push({ who: miss.by, from: at - 3, to: at + 8, way: angle + Math.PI, rise: false });
    if (miss.touch) holds.push({ by: miss.by, on: 'RB', from: at - 4, to: at + 3, kind: 'tackle' });
  });

  const carrier: Slot = pass?.carrier ?? 'RB';
  tacklers.forEach((slot, order) => {
    const at = Math.min(frameCount - 4, contact + order * 6);
    const spot = paths[carrier][at] ?? [0, 0];
    const from = paths[slot][Math.max(0, at - 22)] ?? [0, 0];
    const straight = Math.atan2(from[1] - spot[1], from[0] - spot[0]);
    const angle = order === 0 ? straight * 0.75 : straight;
    const grip = 0.5;
    const earliest = snap + 10;
    const base = paths[slot][released[slot] ?? earliest] ?? spot;
    const late = at - (released[slot] ?? earliest);
    if (order > 0 && Math.hypot(base[0] - spot[0], base[1] - spot[1]) > late * FRAME_SECONDS * topSpeed(slot)) {
      chase(paths[slot], prey, Math.min(frameCount - 2, released[slot] ?? readAt), over, topSpeed(slot), 0.9);
      return;
    }
    const target: [number, number] = [spot[0] + Math.cos(angle) * grip, spot[1] + Math.sin(angle) * grip];
    const path = closing(paths[slot], target, at, topSpeed(slot) * 0.92, earliest);
    for (let frame = at; frame < frameCount; frame += 1) {
      const place = paths[carrier][frame] ?? [0, 0];
      const t = Math.min(1, (frame - at) / 14);
      const turned = angle + (order === 0 ? 0.35 : -0.3) * t;
      path[frame] = [place[0] + Math.cos(turned) * grip, place[1] + Math.sin(turned) * grip];
    }
    paths[slot] = path;
    holds.push({ by: slot, on: carrier, from: at - 3, to: frameCount, kind: 'tackle' });
    const way = Math.atan2(spot[1] - from[1], spot[0] - from[0]);
    falls.push({
      who: slot,
      from: moments.down - 8 + order * 2,
      to: moments.down + 5 + order * 2,
      way: order === 0 ? way * 0.5 : way,
      rise: false,
    });
    const block = blocks.find((each) => each.defender === slot);
    if (block) chase(paths[block.blocker], prey, earliest, over, 4, 1.7);
  });
  if (tacklers.length > 0) {
    falls.push({
      who: carrier,
      from: moments.down - 9,
      to: moments.down + 4,
      way: play.run?.drift && play.run.drift > 0.6 ? 0.5 : 0.08,
      rise: false,
    });
  }
  if (pass?.falls) falls.push(...pass.falls);

  const gripping = (a: Slot, b: Slot, frame: number): boolean =>
    holds.some(
      (hold) =>
        frame >= hold.from - 4 &&
        frame <= hold.to + 10 &&
        ((hold.by === a && hold.on === b) || (hold.by === b && hold.on === a)),
    );
  const lying = (slot: Slot, frame: number): boolean => falls.some((fall) => fall.who === slot && frame > fall.from);
  apart(
    paths,
    (a, b, frame) => {
      if (frame < snap) return 0;
      if (gripping(a, b, frame)) return 0.45;
      const withRunner = a === carrier || b === carrier;
      if (withRunner && (a === 'QB' || b === 'QB')) return 0.4;
      if (withRunner && frame > contact - 4) return lying(a, frame) || lying(b, frame) ? 0.75 : 0.62;
      if (withRunner) return 0.86;
      return lying(a, frame) || lying(b, frame) ? 0.8 : 0.64;
    },
    (slot, frame) =>
      slot === carrier || frame < snap + 2 || (tacklers.includes(slot as DefenceSlot) && frame >= contact - 1),
    frameCount,
  );
  for (const slot of SLOTS) {
    if (slot !== 'RB' || !runner) paths[slot] = smoothedPath(paths[slot], 1.6);
  }
  return {
    line,
    frameCount,
    moments,
    paths,
    holds,
    falls,
    blocks,
    engagedAt,
    ...(runner ? { runner } : {}),
    ...(pass ? { pass } : {}),
    ...(loose ? { looseAt: contact + 5, recoveredBy: play.run?.end === 'fumble lost' ? 'MIKE' : 'PG' } : {}),
  };
}

/** The offence's slots, for callers that colour kits by side. */
export const isOffence = (slot: Slot): boolean => (OFFENCE as readonly Slot[]).includes(slot);
