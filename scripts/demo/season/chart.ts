import type { DefenceSlot } from '../play-script.ts';
import { slotWords } from '../words.ts';
import type { CarryRow, GapName } from './rows.ts';
import type { LivePlay } from './series.ts';

const opposite = (side: 'left' | 'right'): 'left' | 'right' => (side === 'left' ? 'right' : 'left');

/** A gap as charted: its letter and the side of the ball it lies on. */
export function chartedGap(name: GapName, side: 'left' | 'right'): { gap: string; side: 'left' | 'right' } {
  return name.startsWith('back ') ? { gap: name.slice(5), side: opposite(side) } : { gap: name, side };
}

function formationOf(play: LivePlay): string {
  const { script } = play;
  const under = script.shotgun ? 'shotgun' : 'under centre';
  const strong = script.tightEnd === 'play side' ? script.side : opposite(script.side);
  switch (script.personnel) {
    case '11':
      return `${under}, tight end ${strong}, slot ${opposite(strong)}`;
    case '12':
      return `${under}, tight ends both sides`;
    case '21':
      return script.shotgun
        ? `${under}, split backs, tight end ${strong}`
        : `${under}, backs in line, tight end ${strong}`;
    case '22':
      break;
  }
  return `${under}, backs in line, tight ends both sides`;
}

function personnelOf(play: LivePlay): { backs: number; tightEnds: number; receivers: number } {
  const backs = Number(play.script.personnel[0]);
  const tightEnds = Number(play.script.personnel[1]);
  return { backs, tightEnds, receivers: 5 - backs - tightEnds };
}

/** What the sentence of a play says about situation, formation, scheme and defence. */
export function chartPlay(play: LivePlay): Record<string, unknown> {
  const { row, script } = play;
  const moves = play.staged.moves;
  const carry = row.kind === 'carry' ? row : undefined;
  const pulling = moves.blocks.filter(
    (block) => (block.manner === 'pull' || block.manner === 'kick') && block.blocker !== 'H',
  );
  const leading = moves.blocks.filter(
    (block) =>
      block.blocker === 'H' &&
      (block.manner === 'kick' || block.manner === 'pull' || (block.manner === 'climb' && script.personnel !== '11')),
  );
  const tackler = script.run?.tackler;
  const blocked = moves.blocks.find((block) => block.defender === tackler);
  const free = tackler && (!blocked || blocked.result === 'lost') ? tackler : undefined;
  const read = readDefender(play);
  return {
    kind: row.kind === 'carry' ? 'run' : 'pass',
    down: play.down,
    toGoYards: play.toGoYards,
    spotYards: play.spotYards,
    hash: play.hash,
    personnel: personnelOf(play),
    formation: formationOf(play),
    motion: row.motion ?? 'none',
    shotgun: script.shotgun,
    concept: carry ? carry.concept : row.kind === 'pass' ? row.passKind : undefined,
    direction: script.side,
    ...(carry
      ? { designedGap: chartedGap(carry.designed, script.side), hitGap: chartedGap(carry.hit, script.side) }
      : {}),
    option: carry?.option ?? 'none',
    pullers: carry ? pulling.map((block) => slotWords(block.blocker, script)) : [],
    leadBlockers: carry ? leading.map((block) => slotWords(block.blocker, script)) : [],
    front: script.box >= 8 ? 'four down, eight near' : 'four down',
    boxCount: script.box,
    safetiesDeep: script.box === 9 ? 0 : script.box === 8 ? 1 : 2,
    slantOrBlitz: row.blitz ?? 'none',
    ...(carry ? { readDefender: read, pointOfAttack: carry.poa } : {}),
    ...(free
      ? {
          freeDefender: {
            who: slotWords(free, script),
            ...(blocked ? { failedBlockBy: slotWords(blocked.blocker, script) } : {}),
          },
        }
      : {}),
    ...(carry?.penetration
      ? { penetration: { by: slotWords(carry.penetration.by, script), depthYards: carry.penetration.depthYards } }
      : {}),
    result: resultOf(play),
    gainYards: carry?.penalty ? 0 : row.gain,
    ...(carry?.penalty ? { penalty: { ...carry.penalty, decision: 'accepted', playGainYards: carry.gain } } : {}),
  };
}

function readDefender(play: LivePlay): { who: string; certainty: 'known' | 'assumed' } {
  const { script } = play;
  const slot = ((): DefenceSlot => {
    switch (script.concept ?? 'none') {
      case 'inside zone':
        return 'NT';
      case 'outside zone':
      case 'toss':
        return 'DEp';
      case 'power':
      case 'counter':
        return 'SAM';
      case 'draw':
      case 'none':
        break;
    }
    return 'MIKE';
  })();
  return { who: slotWords(slot, script), certainty: script.concept === 'inside zone' ? 'known' : 'assumed' };
}

function resultOf(play: LivePlay): string {
  const row = play.row;
  if (row.kind === 'pass') return row.complete ? 'complete' : 'incomplete';
  if (row.penalty) return 'no play';
  switch (row.end ?? 'tackled') {
    case 'touchdown':
      return 'touchdown';
    case 'out of bounds':
      return 'out of bounds';
    case 'fumble lost':
      return 'fumble lost';
    case 'fumble kept':
    case 'tackled':
      break;
  }
  return 'tackled';
}

const WHERE: readonly (readonly [number, string])[] = [
  [0, 'backfield'],
  [1.5, 'line'],
  [6, 'second level'],
  [200, 'open field'],
];

function manOf(slot: DefenceSlot): string {
  switch (slot) {
    case 'DEp':
    case 'DEb':
    case 'DTp':
    case 'NT':
      return 'lineman';
    case 'MIKE':
    case 'WILL':
    case 'SAM':
      return 'linebacker';
    case 'CBx':
    case 'CBz':
      return 'cornerback';
    case 'FS':
    case 'SS':
      break;
  }
  return 'safety';
}

/** Yards past the line at first contact, in whole yards and never past the gain; the whole gain when untouched. */
export function contactYards(play: LivePlay, row: CarryRow): number {
  const frame = play.staged.moves.moments.firstContact;
  if (frame === undefined) return row.gain;
  const place = play.staged.places.RB[frame];
  return Math.min(row.gain, Math.round((place?.[0] ?? play.spotYards) - play.spotYards));
}

/** What the sentence of a play says about the runner's own carry. */
export function chartCarry(play: LivePlay, row: CarryRow): Record<string, unknown> {
  const before = contactYards(play, row);
  const touched = play.staged.moves.moments.firstContact !== undefined;
  const touching = row.misses?.find((miss) => miss.touch)?.by ?? row.by;
  const free = play.script.run?.tackler ?? touching;
  return {
    ...(touched && touching
      ? {
          firstContactBy: manOf(touching),
          firstContactSlot: slotWords(touching, play.script),
          firstContactWhere: WHERE.find(([limit]) => before < limit)?.[1] ?? 'open field',
        }
      : {}),
    path: row.pathKind,
    gainYards: row.penalty ? 0 : row.gain,
    yardsBeforeContact: before,
    yardsAfterContact: row.gain - before,
    missedTackles: row.misses?.length ?? 0,
    ballArm: play.script.side,
    fumble: row.end === 'fumble lost' ? 'lost' : row.end === 'fumble kept' ? 'kept' : 'none',
    outOfBounds: row.end === 'out of bounds' ? 'forced' : 'no',
    clearedYards: free ? Math.max(0, before - (row.penetration ? 1 : 0)) : row.gain,
    holdsUp: { answer: row.holdsUp, because: row.because },
  };
}

/** How the back lines up, in words, and how deep. */
export function backAlignment(play: LivePlay): { alignment: string; depthYards: number } {
  const [u, w] = play.staged.moves.line.RB;
  const toSide = w > 0.5 ? play.script.side : opposite(play.script.side);
  return {
    alignment: Math.abs(w) < 0.5 ? 'behind the quarterback' : `beside the quarterback, ${toSide}`,
    depthYards: Math.round(-u * 2) / 2,
  };
}
