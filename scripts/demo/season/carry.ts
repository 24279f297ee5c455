import type { PlayScript, RunScript, Way } from '../play-script.ts';
import type { RunnerId } from './people.ts';
import type { CarryRow, GapName, Row } from './rows.ts';

const GAP_W: Record<string, number> = { A: 0.7, B: 2.05, C: 3.6, D: 5.9 };

/** Where a gap crosses the line: yards to the play side of the ball. */
export function gapWidth(name: GapName): number {
  return name.startsWith('back ') ? -(GAP_W[name.slice(5)] ?? 0) : (GAP_W[name] ?? 0);
}

type Pace = { readonly press: number; readonly line: number; readonly open: number };

/** How fast each runner goes to the line, through it, and in the open: yards a second. */
const PACES: Record<RunnerId, Pace> = {
  'okafor-lyle': { press: 4.7, line: 5.7, open: 7.3 },
  brask: { press: 5.6, line: 6.8, open: 8.5 },
  quillane: { press: 5, line: 6, open: 7.6 },
};

function wayOf(row: CarryRow): RunScript {
  const pace = PACES[row.runner];
  const aim = gapWidth(row.designed);
  const hit = gapWidth(row.hit);
  const wide = row.concept === 'outside zone' || row.concept === 'toss';
  const depth = { 'to the heels': -1.15, fair: -1.8, early: -2.7 }[row.press];
  const pressU = wide ? depth - 0.5 : depth;
  const pressW = row.pathKind === 'on track' ? hit - Math.sign(hit - 0.01) * (wide ? 1.5 : 0.55) : aim * 0.82;
  const contact = row.contact ?? row.gain;
  const lineSpeed = row.feet === 'wasteful' ? pace.line * 0.85 : pace.line;
  const way: Way[] = [];
  if (row.pathKind === 'bounce') way.push([-1.3, (aim + hit) / 2, lineSpeed * 0.9]);
  if (contact > 0.9) way.push([0.35, hit, lineSpeed]);
  way.push(...(row.through ?? []));
  const last = row.through?.at(-1);
  const drift = wide || row.pathKind === 'bounce' ? 0.32 : 0.06;
  if (row.end === 'out of bounds') {
    const from = last ?? [contact, hit, pace.open];
    way.push([row.gain, from[1] + 40, pace.open]);
  } else {
    const speed = contact < 1.5 ? Math.min(pace.open, lineSpeed * 0.9) : pace.open;
    const from = last ?? ([0.35, hit, lineSpeed] as const);
    const u = row.end === 'touchdown' && row.contact === undefined ? row.gain + 1 : contact + 0.1;
    way.push([u, from[1] + Math.max(0, u - from[0]) * drift * Math.sign(hit || 1), speed]);
  }
  return {
    press: [pressU, pressW, pace.press * (row.feet === 'wasteful' ? 0.72 : 1)],
    ...(row.feet === 'wasteful' ? { chop: { frames: 12, back: 0.55 } } : {}),
    way,
    drift: contact < 1 ? 0.1 : 0.45,
    ...(row.by ? { tackler: row.by } : {}),
    ...(row.assist ? { assist: row.assist } : {}),
    ...(row.misses ? { misses: row.misses } : {}),
    ...(row.end ? { end: row.end } : {}),
  };
}

/** Draws a row up as a play script; the key seeds what chance is in it. */
export function scriptOf(row: Row, key: string): PlayScript {
  const base = {
    key,
    side: row.side,
    personnel: row.personnel,
    shotgun: row.shotgun,
    box: row.box,
    tightEnd: row.tightEnd ?? 'play side',
    gainYards: row.gain,
    ...(row.blocks ? { blocks: row.blocks } : {}),
  } as const;
  if (row.kind === 'carry') {
    const penetrated = row.penetration ? { [row.penetration.by]: 'lost' as const } : {};
    return { ...base, concept: row.concept, run: wayOf(row), blocks: { ...row.blocks, ...penetrated } };
  }
  return {
    ...base,
    pass: {
      kind: row.passKind,
      complete: row.complete,
      to: row.to,
      at: row.at,
      ...(row.blitzer ? { blitz: row.blitzer } : {}),
    },
  };
}
