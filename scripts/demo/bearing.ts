import { isOffence, type Choreography, type Fall } from './choreography.ts';
import { smoothed, smoothedAngles, speedsOf } from './curve.ts';
import { FRAME_SECONDS } from './field-measure.ts';
import { DOWN_LINEMEN, SLOTS } from './formation.ts';
import { walk, type Feet, type Plant } from './gait.ts';
import type { PlayScript, Slot } from './play-script.ts';

type Triple = readonly [number, number, number];

/** How one figure holds itself at each frame, drawn up to the right (u, w, height in yards; angles in radians from u to w). */
export type Bearing = {
  readonly path: readonly (readonly [number, number])[];
  readonly face: readonly number[];
  readonly leanWay: readonly number[];
  readonly lean: readonly number[];
  readonly hip: readonly number[];
  readonly fall: readonly number[];
  readonly fallWay: number;
  readonly feet: Feet;
  readonly leftHand: readonly Triple[];
  readonly rightHand: readonly Triple[];
};

const LEG = 0.95;

function faceOf(slot: Slot, moves: Choreography): number[] {
  const path = moves.paths[slot];
  const speeds = speedsOf(path, FRAME_SECONDS);
  const offence = isOffence(slot);
  const prey = moves.pass ? moves.pass.ballPath : moves.paths.RB;
  const holds = moves.holds.filter((hold) => hold.by === slot || (hold.on === slot && hold.kind === 'block'));
  let last = offence ? 0 : Math.PI;
  const wish = path.map((place, frame) => {
    const hold = holds.find((each) => frame >= each.from - 3 && frame <= each.to);
    if (hold) {
      const other = moves.paths[hold.by === slot ? hold.on : hold.by][frame] ?? place;
      last = Math.atan2(other[1] - place[1], other[0] - place[0]);
      return last;
    }
    const speed = speeds[frame] ?? 0;
    const after = path[Math.min(path.length - 1, frame + 2)] ?? place;
    const before = path[Math.max(0, frame - 2)] ?? place;
    const heading = Math.atan2(after[1] - before[1], after[0] - before[0]);
    if (slot === 'QB') {
      const settled = moves.pass && frame > moves.moments.snap + 20;
      if (settled || frame < moves.moments.snap + 2) return 0;
      return speed > 1.2 ? heading * 0.6 : last;
    }
    if (!offence && frame > moves.moments.snap) {
      const to = prey[frame] ?? place;
      const look = Math.atan2(to[1] - place[1], to[0] - place[0]);
      last = speed > 3.6 ? heading : look;
      return last;
    }
    if (frame > moves.moments.snap && speed > (slot === 'RB' ? 0.9 : 1.6)) last = heading;
    if (slot === 'RB' && frame > moves.moments.snap && speed > 0.9) {
      return Math.max(-1.25, Math.min(1.25, heading)) * (Math.abs(heading) > 2 ? 0.2 : 1);
    }
    return last;
  });
  return smoothedAngles(wish, slot === 'RB' ? 1.8 : 2.6);
}

function fallAt(falls: readonly Fall[], frame: number): number {
  const values = falls.map((fall) => {
    const t = Math.min(1, Math.max(0, (frame - fall.from) / Math.max(1, fall.to - fall.from)));
    return t * t * (3 - 2 * t);
  });
  return Math.max(0, ...values);
}

function stanceOf(slot: Slot, play: PlayScript): { hip: number; lean: number; threePoint: boolean } {
  if (DOWN_LINEMEN.includes(slot) || (slot === 'H' && play.personnel === '12')) {
    const pass = play.pass !== undefined && isOffence(slot);
    return pass && slot !== 'C'
      ? { hip: 0.72, lean: 0.85, threePoint: true }
      : { hip: 0.66, lean: 1.12, threePoint: true };
  }
  if (slot === 'QB')
    return play.shotgun ? { hip: 0.84, lean: 0.35, threePoint: false } : { hip: 0.8, lean: 0.62, threePoint: false };
  if (slot === 'MIKE' || slot === 'WILL' || slot === 'SAM') return { hip: 0.8, lean: 0.5, threePoint: false };
  if (slot === 'RB') return { hip: 0.82, lean: 0.5, threePoint: false };
  return { hip: 0.87, lean: 0.3, threePoint: false };
}

function beside(place: readonly [number, number], face: number, ahead: number, right: number, height: number): Triple {
  return [
    place[0] + Math.cos(face) * ahead - Math.sin(face) * right,
    place[1] + Math.sin(face) * ahead + Math.cos(face) * right,
    height,
  ];
}

/** Works out how one figure stands, runs, grips and falls through a play. */
export function bearingOf(slot: Slot, play: PlayScript, moves: Choreography): Bearing {
  const path = moves.paths[slot];
  const speeds = smoothed(speedsOf(path, FRAME_SECONDS), 2);
  const face = faceOf(slot, moves);
  const { snap, exchange } = moves.moments;
  const stance = stanceOf(slot, play);
  const linemen = DOWN_LINEMEN.includes(slot);
  const planned = slot === 'RB' && moves.runner ? moves.runner.steps : undefined;
  const feet = walk(path, face, {
    stanceWidth: linemen ? 0.24 : slot === 'RB' ? 0.2 : 0.18,
    stagger: linemen ? 0.18 : slot === 'X' || slot === 'Z' ? 0.4 : 0.08,
    still: [0, Math.max(0, snap - (play.pass?.blitz === slot ? 12 : 0))],
    ...(planned ? { planned } : {}),
  });
  const falls = moves.falls.filter((fall) => fall.who === slot);
  const fallWay = falls[0]?.way ?? 0;
  const fall = path.map((_, frame) => fallAt(falls, frame));
  const blocksHeld = moves.holds.filter((hold) => hold.by === slot || (hold.on === slot && hold.kind === 'block'));
  const held = path.map((_, frame) => blocksHeld.find((hold) => frame >= hold.from - 2 && frame <= hold.to));
  const carries = carrySpan(slot, moves);
  const settled = path.map((_, frame) => (frame < snap + 1 ? 1 : Math.max(0, 1 - (frame - snap - 1) / 7)));
  const leanWish = path.map((_, frame) => {
    const speed = speeds[frame] ?? 0;
    const pushing = held[frame] ? 0.42 : 0;
    const running = 0.1 + Math.min(0.32, speed * 0.05) + (carries && frame >= carries[0] ? 0.1 : 0);
    return (settled[frame] ?? 0) * stance.lean + (1 - (settled[frame] ?? 0)) * Math.max(running, pushing);
  });
  const hipWish = path.map((place, frame) => {
    const crouch = held[frame] ? 0.79 : carries && frame >= carries[0] ? 0.86 : 0.91;
    const standing = (settled[frame] ?? 0) * stance.hip + (1 - (settled[frame] ?? 0)) * crouch;
    const reach = [feet.left[frame], feet.right[frame]].map((foot) => {
      if (!foot || foot[2] > 0.02) return standing;
      const away = Math.hypot(foot[0] - place[0], foot[1] - place[1]);
      return 0.07 + Math.sqrt(Math.max(0.2, LEG * LEG - away * away));
    });
    const flight = (feet.left[frame]?.[2] ?? 0) > 0.02 && (feet.right[frame]?.[2] ?? 0) > 0.02 ? 0.04 : 0;
    return Math.min(standing, ...reach) + flight;
  });
  const hip = smoothed(hipWish, 1.1).map((value, frame) => value + (0.24 - value) * (fall[frame] ?? 0));
  const lean = smoothed(leanWish, 1.6).map((value, frame) => value + (1.42 - value) * (fall[frame] ?? 0));
  const leanWay = face.map((angle, frame) => blendAngle(angle, fallWay, fall[frame] ?? 0));
  const lieFeet = (track: Feet['left'], right: number): Triple[] =>
    track.map((foot, frame) => {
      const t = fall[frame] ?? 0;
      const place = path[frame] ?? [0, 0];
      const lie = beside(place, fallWay, -0.78, right * 0.16, 0.06);
      return [foot[0] + (lie[0] - foot[0]) * t, foot[1] + (lie[1] - foot[1]) * t, foot[2] * (1 - t) + lie[2] * t * 0.6];
    });
  const laidFeet: Feet = { plants: feet.plants, left: lieFeet(feet.left, -1), right: lieFeet(feet.right, 1) };
  const hands = (['left', 'right'] as const).map((name) => {
    const side = name === 'left' ? -1 : 1;
    const wish = path.map((place, frame): Triple => {
      const yaw = leanWay[frame] ?? 0;
      const bend = lean[frame] ?? 0;
      const chestAhead = Math.sin(bend) * 0.42;
      const chestHeight = (hip[frame] ?? 0.9) + Math.cos(bend) * 0.42;
      const fallen = fall[frame] ?? 0;
      if (fallen > 0.35) return beside(place, fallWay, 0.85, side * 0.24, 0.12 + (1 - fallen) * 0.4);
      const hold = held[frame];
      if (hold) {
        const mate = moves.paths[hold.by === slot ? hold.on : hold.by][frame] ?? place;
        const height = hold.kind === 'tackle' ? 0.95 : 1.15;
        const [du, dw] = [mate[0] - place[0], mate[1] - place[1]];
        const gap = Math.hypot(du, dw) || 1;
        const reach = hold.kind === 'tackle' ? 1 : 0.72;
        return beside(
          [place[0] + du * reach, place[1] + dw * reach],
          Math.atan2(dw / gap, du / gap),
          0,
          side * 0.17,
          height,
        );
      }
      if (carries && frame >= carries[0] && frame <= carries[1] && side === (play.side === 'left' ? 1 : 1)) {
        return beside(place, yaw, chestAhead + 0.2, side * 0.16, chestHeight - 0.12);
      }
      if (slot === 'QB') {
        if (moves.pass && Math.abs(frame - moves.pass.throwAt) < 6 && side === 1) {
          const t = (frame - moves.pass.throwAt) / 6;
          return beside(place, yaw, 0.1 + t * 0.55, 0.22, 1.95 - Math.abs(t) * 0.25);
        }
        if (exchange !== undefined && Math.abs(frame - exchange) < 5) {
          const mate = moves.paths.RB[frame] ?? place;
          return [place[0] + (mate[0] - place[0]) * 0.62, place[1] + (mate[1] - place[1]) * 0.62, 0.98 + side * 0.04];
        }
        return beside(place, yaw, chestAhead + 0.3, side * 0.1, chestHeight - 0.15);
      }
      if ((settled[frame] ?? 0) > 0.55) {
        if (stance.threePoint && side === 1) return beside(place, yaw, 0.62, 0.1, 0.03);
        if (stance.threePoint) return beside(place, yaw, 0.34, -0.26, 0.62);
        if (slot === 'X' || slot === 'Z') return beside(place, yaw, 0.2, side * 0.24, 0.95);
        return beside(place, yaw, 0.34, side * 0.22, 0.74);
      }
      const speed = speeds[frame] ?? 0;
      const partner = name === 'left' ? feet.right[frame] : feet.left[frame];
      const along = partner ? (partner[0] - place[0]) * Math.cos(yaw) + (partner[1] - place[1]) * Math.sin(yaw) : 0;
      const swing = Math.max(-0.42, Math.min(0.48, along * 0.95)) * Math.min(1, speed / 4);
      return beside(
        place,
        yaw,
        chestAhead + 0.1 + swing,
        side * (0.29 - Math.max(0, swing) * 0.25),
        chestHeight - 0.28 + Math.abs(swing) * 0.42,
      );
    });
    return smoothedRelative(wish, path);
  });
  return {
    path,
    face,
    leanWay,
    lean,
    hip,
    fall,
    fallWay,
    feet: laidFeet,
    leftHand: hands[0] ?? [],
    rightHand: hands[1] ?? [],
  };
}

function blendAngle(from: number, to: number, t: number): number {
  const turn = Math.atan2(Math.sin(to - from), Math.cos(to - from));
  return from + turn * t;
}

function smoothedRelative(points: readonly Triple[], path: readonly (readonly [number, number])[]): Triple[] {
  const axis = (at: 0 | 1 | 2): number[] =>
    smoothed(
      points.map((point, frame) => point[at] - (at === 2 ? 0 : (path[frame]?.[at] ?? 0))),
      1.2,
    );
  const [us, ws, zs] = [axis(0), axis(1), axis(2)];
  return points.map((_, frame) => [
    (us[frame] ?? 0) + (path[frame]?.[0] ?? 0),
    (ws[frame] ?? 0) + (path[frame]?.[1] ?? 0),
    zs[frame] ?? 0,
  ]);
}

/** First and last frame a slot has the ball tucked away, if it ever does. */
export function carrySpan(slot: Slot, moves: Choreography): readonly [number, number] | undefined {
  const last = moves.frameCount;
  if (moves.runner && slot === 'RB') {
    return [moves.moments.exchange ?? 0, moves.looseAt ?? last];
  }
  if (moves.pass?.complete && moves.pass.carrier === slot) return [moves.pass.arrive, last];
  return undefined;
}

/** Bearings of all 22. */
export function bearings(play: PlayScript, moves: Choreography): Readonly<Record<Slot, Bearing>> {
  return Object.fromEntries(SLOTS.map((slot) => [slot, bearingOf(slot, play, moves)])) as Record<Slot, Bearing>;
}

/** Foot plants of a figure from the snap on. */
export function plantsOf(bearing: Bearing, from: number): readonly Plant[] {
  return bearing.feet.plants.filter((plant) => plant.frame >= from);
}
