import type { Fall } from './choreography.ts';
import { trackOf, type Knot } from './curve.ts';
import type { LineUp } from './formation.ts';
import type { DefenceSlot, PassScript, PlayScript, Slot } from './play-script.ts';
import type { Moments } from './runner-plan.ts';

/** A pass play worked out: who goes where, when the ball leaves and comes down. */
export type PassPlan = {
  readonly knots: Partial<Record<Slot, readonly Knot[]>>;
  readonly moments: Moments;
  readonly throwAt: number;
  readonly arrive: number;
  readonly contact?: number;
  readonly frameCount: number;
  /** Where the ball's carrier is, for pursuit and camera. */
  readonly ballPath: [number, number][];
  readonly carrier: Slot;
  readonly complete: boolean;
  readonly tacklers: readonly DefenceSlot[];
  readonly falls: readonly Fall[];
};

/** Works a pass script out: the pocket, the routes, the back's part in it, and the ball; deterministic. */
export function planPass(play: PlayScript, pass: PassScript, line: LineUp, snap: number): PassPlan {
  const throwAt = snap + (pass.kind === 'play action' ? 62 : pass.kind === 'flat route' ? 46 : 56);
  const reach = Math.hypot(pass.at[0] + 6, pass.at[1]);
  const arrive = throwAt + Math.max(12, Math.round((reach / 19) * 30));
  const down = pass.complete ? arrive + 19 : arrive + 8;
  const frameCount = down + 16;
  const at = (slot: Slot): readonly [number, number] => line[slot];
  const start = (slot: Slot): Knot => ({ frame: snap + 1, u: at(slot)[0], w: at(slot)[1] });
  const knots: Partial<Record<Slot, readonly Knot[]>> = {};
  const deep = play.shotgun ? -7.4 : -7.6;
  const mesh = snap + (play.shotgun ? 21 : 26);
  knots.QB =
    pass.kind === 'play action'
      ? [
          start('QB'),
          { frame: mesh, u: play.shotgun ? -4.9 : -4.2, w: 0 },
          { frame: mesh + 22, u: deep - 0.6, w: -0.4 },
          { frame: throwAt, u: deep - 0.3, w: -0.4 },
          { frame: throwAt + 20, u: deep, w: -0.3 },
        ]
      : [
          start('QB'),
          { frame: snap + 30, u: deep, w: 0 },
          { frame: throwAt - 6, u: deep + 0.2, w: 0 },
          { frame: throwAt, u: deep + 0.7, w: 0.05 },
          { frame: throwAt + 20, u: deep + 1, w: 0.1 },
        ];
  const receivers = (['X', 'Z', 'H', 'Y'] as const).filter((slot) => slot !== pass.to);
  receivers.forEach((slot, order) => {
    const [u, w] = at(slot);
    const inside = -Math.sign(w || 1);
    knots[slot] = [
      start(slot),
      { frame: snap + 42 + order * 5, u: u + 7 + order * 1.2, w: w + inside * 0.3 },
      { frame: snap + 72 + order * 3, u: u + 9 + order * 2.4, w: w + inside * (order % 2 === 0 ? 4.5 : -1.2) },
      { frame: snap + 120, u: u + 11 + order * 4, w: w + inside * (order % 2 === 0 ? 9 : -2) },
    ];
  });
  const target = pass.to;
  if (target === 'RB') {
    knots.RB = [
      start('RB'),
      { frame: snap + 16, u: at('RB')[0] + 0.7, w: at('RB')[1] + 1.6 },
      { frame: arrive, u: pass.at[0], w: pass.at[1] },
      {
        frame: down,
        u: pass.complete ? Math.max(play.gainYards + 0.3, pass.at[0]) : pass.at[0] + 2.2,
        w: pass.at[1] + 1.2,
      },
    ];
  } else {
    const [u, w] = at(target);
    knots[target] = [
      start(target),
      { frame: throwAt - 6, u: Math.max(u + 3, pass.at[0] - 1.2), w: w - Math.sign(w || 1) * 0.4 },
      { frame: arrive, u: pass.at[0], w: pass.at[1] },
      {
        frame: down,
        u: pass.complete ? play.gainYards + 0.3 : pass.at[0] - 0.4,
        w: pass.at[1] - Math.sign(w || 1) * 1.3,
      },
    ];
    knots.RB =
      pass.kind === 'play action'
        ? [
            start('RB'),
            { frame: snap + 4, u: at('RB')[0], w: at('RB')[1] },
            { frame: mesh, u: -4.2, w: 0.5 },
            { frame: mesh + 16, u: -0.9, w: 1.2 },
            { frame: mesh + 40, u: 0.6, w: 1.7 },
          ]
        : [
            start('RB'),
            { frame: snap + 14, u: at('RB')[0] + 0.5, w: at('RB')[1] * 0.9 },
            { frame: snap + 33, u: -3.3, w: -1.15 },
            { frame: snap + 60, u: -3.7, w: -1.3 },
          ];
  }
  if (pass.blitz) {
    const [u, w] = at(pass.blitz);
    knots[pass.blitz] = [
      { frame: snap - 8, u, w },
      { frame: snap + 1, u: u - 0.7, w: w + 0.2 },
      { frame: snap + 20, u: -0.4, w: -1.9 },
      { frame: snap + 33, u: -2.6, w: -1.25 },
      { frame: snap + 60, u: -3.05, w: -1.35 },
    ];
  }
  const cover: readonly (readonly [DefenceSlot, Slot])[] = [
    ['CBx', 'X'],
    ['CBz', 'Z'],
    ['SAM', play.personnel === '11' ? 'H' : 'Y'],
  ];
  for (const [slot, man] of cover) {
    if (pass.blitz === slot) continue;
    const own = at(slot);
    const path = knots[man] ?? [];
    const final = path.at(-1);
    const middle = path[1];
    if (!final || !middle) continue;
    knots[slot] = [
      start(slot),
      { frame: middle.frame, u: Math.max(own[0] + 1.5, middle.u + 1.7), w: middle.w * 0.97 },
      { frame: final.frame + 3, u: final.u + 0.9, w: final.w + 0.7 },
    ];
  }
  for (const slot of ['FS', 'SS', 'MIKE', 'WILL'] as const) {
    if (pass.blitz === slot) continue;
    const [u, w] = at(slot);
    const deepMan = slot === 'FS' || slot === 'SS';
    const bite = pass.kind === 'play action' && !deepMan;
    knots[slot] = [
      start(slot),
      { frame: snap + 24, u: bite ? u - 1.4 : u + (deepMan ? 3 : 1.5), w },
      { frame: throwAt, u: bite ? u + 3 : u + (deepMan ? 6.5 : 5), w: w + (pass.at[1] - w) * 0.18 },
    ];
  }
  const nearest = ((): DefenceSlot => {
    if (target === 'RB') return 'SAM';
    return cover.find((pair) => pair[1] === target)?.[0] ?? 'FS';
  })();
  const quarterback = trackOf(knots.QB, frameCount);
  const catcher = trackOf(knots[target] ?? [start(target)], frameCount);
  const ballPath = quarterback.map((place, frame): [number, number] => {
    if (frame < throwAt) return [place[0] + 3, place[1]];
    const t = Math.min(1, (frame - throwAt) / (arrive - throwAt));
    const to = catcher[frame] ?? place;
    return [place[0] + 3 + (to[0] - place[0] - 3) * t, place[1] + (to[1] - place[1]) * t];
  });
  const contact = pass.complete ? arrive + 8 : undefined;
  const moments: Moments = {
    snap,
    ...(pass.kind === 'play action' ? { exchange: mesh } : {}),
    ...(pass.blitz ? { firstRead: snap + 12, firstContact: snap + 32 } : {}),
    ...(target === 'RB' && contact !== undefined ? { firstContact: contact } : {}),
    down,
  };
  return {
    knots,
    moments,
    throwAt,
    arrive,
    frameCount,
    ballPath,
    carrier: target,
    complete: pass.complete,
    tacklers: pass.complete ? [nearest] : [],
    falls: [],
    ...(contact === undefined ? {} : { contact }),
  };
}
