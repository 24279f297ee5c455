import type { Block } from './assignments.ts';
import type { Knot } from './curve.ts';
import type { LineUp } from './formation.ts';
import type { BlockResult, PlayScript } from './play-script.ts';

/** What the two men of a block do, and when their hands are on one another. */
export type PairTracks = {
  readonly blocker: readonly Knot[];
  readonly defender: readonly Knot[];
  readonly engagedAt: number;
};

const DRIVE: Record<BlockResult, number> = { won: 0.85, stalemate: 0.12, lost: -0.95 };

type Flow = { readonly first: number; readonly later: number };

/** How fast the whole front slides to the play side: yards a second in the first second, and after. */
function flowOf(play: PlayScript): Flow {
  switch (play.concept ?? 'none') {
    case 'inside zone':
      return { first: 0.75, later: 0.15 };
    case 'outside zone':
      return { first: 2.3, later: 1.1 };
    case 'toss':
      return { first: 2.5, later: 1.2 };
    case 'power':
    case 'counter':
      return { first: -0.45, later: 0 };
    case 'draw':
    case 'none':
      break;
  }
  return { first: 0, later: 0 };
}

function engagement(
  block: Block,
  line: LineUp,
  play: PlayScript,
  snap: number,
  gap: number,
): { frame: number; u: number; w: number } {
  const blocker = line[block.blocker];
  const defender = line[block.defender];
  const flow = flowOf(play);
  switch (block.manner) {
    case 'base':
      return { frame: snap + 9, u: 0.28, w: blocker[1] * 0.4 + defender[1] * 0.6 + flow.first * 0.25 };
    case 'set':
      return { frame: snap + 17, u: -1.9, w: (blocker[1] * 0.55 + defender[1] * 0.45) * 1.08 };
    case 'back':
      return { frame: snap + 14, u: 0.1, w: blocker[1] - 0.5 };
    case 'climb': {
      const away = Math.sign(defender[1] - gap || 1);
      const slide = flow.first * 0.75;
      return {
        frame: snap + 33,
        u: Math.min(2.3, defender[0] - 0.6),
        w: defender[1] * 0.55 + gap * 0.35 + away * 0.85 + slide,
      };
    }
    case 'kick':
      return { frame: snap + (block.blocker === 'BG' ? 31 : 21), u: -0.25, w: Math.max(defender[1] - 0.2, gap + 1.25) };
    case 'pull':
      return { frame: snap + 46, u: 1.6, w: gap + (play.concept === 'toss' ? 1.4 : 0.95) };
    case 'stalk':
      break;
  }
  return { frame: snap + 42, u: Math.max(2.4, defender[0] - 1.6), w: defender[1] * 0.97 };
}

/** Puts a meeting off until both men can be there at a man's pace. */
function paced(
  meet: { frame: number; u: number; w: number },
  block: Block,
  line: LineUp,
  snap: number,
): { frame: number; u: number; w: number } {
  const far = (at: readonly [number, number], pace: number, wait: number): number =>
    snap + wait + Math.ceil((Math.hypot(meet.u - at[0], meet.w - at[1]) / pace) * 30);
  const pulls = block.manner === 'pull' || block.manner === 'kick';
  const blocker = far(line[block.blocker], pulls ? 5.6 : 5, pulls ? 10 : 2);
  const defender = far(line[block.defender], 4.6, block.manner === 'base' || block.manner === 'set' ? 1 : 8);
  return { ...meet, frame: Math.max(meet.frame, blocker, defender) };
}

/** A puller's way behind the line, its frames shared out by distance so that he runs at one pace. */
function pullWay(
  block: Block,
  line: LineUp,
  play: PlayScript,
  meet: { frame: number; u: number; w: number },
  snap: number,
): Knot[] {
  const from = line[block.blocker];
  const depth = play.concept === 'toss' ? -2.9 : -2.4;
  const short = block.manner === 'pull' ? 1.3 : 1.7;
  if (block.blocker === 'H' && block.manner === 'kick') return [];
  const bend: readonly [number, number] = [
    block.blocker === 'H' ? Math.max(from[0] - 0.6, -4) : depth,
    from[1] + 1.1 * Math.sign(meet.w - from[1]),
  ];
  const turn: readonly [number, number] = [depth * 0.55, meet.w - short];
  const legs = [
    Math.hypot(bend[0] - from[0], bend[1] - from[1]) * 1.4,
    Math.hypot(turn[0] - bend[0], turn[1] - bend[1]),
    Math.hypot(meet.u - turn[0], meet.w - turn[1]),
  ];
  const total = legs.reduce((sum, leg) => sum + leg, 0);
  const frames = meet.frame - snap - 2;
  const at = (share: number): number => Math.round(snap + 2 + (frames * share) / total);
  return [
    { frame: at(legs[0] ?? 0), u: bend[0], w: bend[1] },
    { frame: at((legs[0] ?? 0) + (legs[1] ?? 0)), u: turn[0], w: turn[1] },
  ];
}

/** Draws up one block: meeting point, drive, and a turn that puts the blocker between his man and the gap. */
export function pairTracks(
  block: Block,
  line: LineUp,
  play: PlayScript,
  snap: number,
  gap: number,
  frameCount: number,
): PairTracks {
  const meet = paced(engagement(block, line, play, snap, gap), block, line, snap);
  const flow = flowOf(play);
  const slides = block.manner === 'base' || block.manner === 'climb' || block.manner === 'pull' ? 1 : 0;
  const away = meet.w >= gap ? 1 : -1;
  const spread = block.manner === 'base' || block.manner === 'climb' ? 0.28 : 0.15;
  const drive = block.manner === 'set' && block.result !== 'lost' ? -0.35 : DRIVE[block.result];
  const seal = block.result === 'lost' ? -0.5 : block.result === 'won' ? 1 : 0.55;
  const blocker: Knot[] = [{ frame: snap + 1, u: line[block.blocker][0], w: line[block.blocker][1] }];
  const defender: Knot[] = [{ frame: snap + 2, u: line[block.defender][0], w: line[block.defender][1] }];
  if (block.manner === 'pull' || block.manner === 'kick') blocker.push(...pullWay(block, line, play, meet, snap));
  if (block.manner === 'climb') {
    const from = line[block.blocker];
    if (from[0] > -2)
      blocker.push({ frame: snap + 14, u: 0.15, w: from[1] + flow.first * 0.3 + 0.2 * Math.sign(gap - from[1]) });
    const standing = line[block.defender];
    defender.push({ frame: snap + 13, u: standing[0] - 0.25, w: standing[1] + 0.35 });
  }
  if (block.manner === 'stalk') {
    const standing = line[block.defender];
    defender.push({ frame: snap + 20, u: standing[0] + 0.7, w: standing[1] });
  }
  if (block.manner === 'kick') defender.push({ frame: snap + 12, u: -0.35, w: line[block.defender][1] });
  for (let frame = meet.frame; frame <= frameCount + 8; frame += 8) {
    const t = (frame - meet.frame) / 30;
    const early = Math.min(t, 1);
    const fade = t < 1.6 ? t : 1.6 + (1 - Math.exp(-(t - 1.6))) * 0.5;
    const turn = away * seal * 0.95 * (1 - Math.exp(-t * 1.6));
    const u = meet.u + drive * fade;
    const w = meet.w + slides * (flow.first * early * 0.8 + flow.later * Math.max(0, fade - 1)) + away * spread * fade;
    const half = 0.36;
    blocker.push({ frame, u: u - Math.cos(turn) * half, w: w - Math.sin(turn) * half });
    defender.push({ frame, u: u + Math.cos(turn) * half, w: w + Math.sin(turn) * half });
  }
  return { blocker, defender, engagedAt: meet.frame };
}
