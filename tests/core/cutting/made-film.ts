import { signatureLength, writeSignature, type Signatures } from '../../../src/core/cutting/signature.ts';
import type { Transition } from '../../../src/core/cutting/transition.ts';
import { makeShot, shotSize, type Drawn, type ShotKind } from './made-shots.ts';
import { mulberry } from './mulberry.ts';

/** What a drawn film is made of. */
export type FilmPlan = {
  readonly shots: readonly {
    readonly kind: ShotKind;
    readonly seed: number;
    readonly pan: number;
    readonly frames: number;
  }[];
  /** How each shot goes over into the next. */
  readonly joins: readonly { readonly kind: 'cut' | 'dissolve' | 'fade'; readonly frames: number }[];
  /** Frames whose light jumps up, as from a flash. */
  readonly flashes: readonly number[];
  /** Standard deviation of grain in luma, 0 to 255. */
  readonly grain: number;
  readonly perSecond: number;
  /** Every frame shown twice, as film of half the rate is. */
  readonly doubled?: boolean;
};

const { width, height } = shotSize;

/** A random plan of a seed: a game's film with everything that misleads. */
export function randomPlan(seed: number, shots: number): FilmPlan {
  const random = mulberry(seed);
  const kinds: readonly ShotKind[] = ['wide', 'tight', 'end zone', 'card', 'texture', 'crowd'];
  const perSecond = [25, 30, 60][Math.floor(random() * 3)] ?? 30;
  const list = Array.from({ length: shots }, (_, place) => {
    const kind = random() < 0.65 ? (place % 2 === 0 ? 'wide' : 'tight') : (kinds[Math.floor(random() * 6)] ?? 'wide');
    const pan = kind === 'card' || random() < 0.3 ? 0 : (random() - 0.5) * (random() < 0.2 ? 60 : 16);
    return { kind, seed: seed * 1000 + place, pan, frames: Math.round(perSecond * (1.2 + random() * 2)) };
  });
  const joins = list.slice(1).map(() => {
    const draw = random();
    if (draw < 0.65) return { kind: 'cut' as const, frames: 0 };
    return {
      kind: draw < 0.9 ? ('dissolve' as const) : ('fade' as const),
      frames: Math.round(perSecond * (0.25 + random() * 0.8)),
    };
  });
  const total = list.reduce((sum, { frames }) => sum + frames, 0);
  const flashes = Array.from({ length: Math.floor(shots / 5) }, () => Math.floor(random() * total));
  return { shots: list, joins, flashes, grain: random() * 8, perSecond, doubled: random() < 0.2 };
}

/** The frames of a planned film one after another, and the true transitions. */
export function* drawFilm(plan: FilmPlan): Generator<Drawn, Transition[]> {
  const random = mulberry(7);
  const truth: Transition[] = [];
  let made = 0;
  const grainy = (picture: Drawn): Drawn => {
    const flash = plan.flashes.includes(made);
    made += 1;
    const luma = picture.luma.map((value) => {
      const noise = plan.grain === 0 ? 0 : (random() + random() + random() - 1.5) * 2 * plan.grain;
      return Math.min(235, Math.max(16, (flash ? value * 0.4 + 140 : value) + noise));
    });
    return { ...picture, luma };
  };
  const mix = (a: Drawn, b: Drawn | null, share: number): Drawn => {
    const over = (from: Float32Array, to: Float32Array | undefined, plain: number) =>
      from.map((value, at) => value * (1 - share) + (to?.[at] ?? plain) * share);
    return { luma: over(a.luma, b?.luma, 16), blue: over(a.blue, b?.blue, 128), red: over(a.red, b?.red, 128) };
  };
  const shots = plan.shots.map(({ kind, seed, pan }) => makeShot(kind, seed, pan));
  for (const [place, { frames }] of plan.shots.entries()) {
    const shot = shots[place];
    const next = shots[place + 1];
    if (shot === undefined) continue;
    const join = plan.joins[place];
    const at = (frame: number): number => (plan.doubled === true ? Math.floor(frame / 2) * 2 : frame) / plan.perSecond;
    for (let frame = 0; frame < frames; frame += 1) yield grainy(shot(at(frame)));
    if (join === undefined || next === undefined) continue;
    const last = made - 1;
    if (join.kind === 'dissolve') {
      for (let step = 1; step <= join.frames; step += 1) {
        const share = step / (join.frames + 1);
        yield grainy(mix(shot(at(frames + step)), next(at(step - join.frames)), share));
      }
    } else if (join.kind === 'fade') {
      for (let step = 1; step <= join.frames; step += 1)
        yield grainy(mix(shot(at(frames + step)), null, step / join.frames));
      for (let step = 1; step <= join.frames; step += 1)
        yield grainy(mix(next(at(step - join.frames)), null, 1 - step / (join.frames + 1)));
    }
    truth.push({ kind: join.kind, last, first: made, confidence: 1 });
  }
  return truth;
}

/** The signatures of a planned film, and its true transitions. */
export function signaturesOfPlan(plan: FilmPlan): {
  readonly signatures: Signatures;
  readonly truth: readonly Transition[];
} {
  const rows: Float32Array[] = [];
  const frames = drawFilm(plan);
  let next = frames.next();
  while (next.done !== true) {
    const bytes = (plane: Float32Array): Uint8Array => Uint8Array.from(plane, (value) => Math.round(value));
    const row = new Float32Array(signatureLength);
    const { luma, blue, red } = next.value;
    writeSignature(row, { width, height, luma: bytes(luma), blue: bytes(blue), red: bytes(red) });
    rows.push(row);
    next = frames.next();
  }
  const all = new Float32Array(rows.length * signatureLength);
  for (const [frame, row] of rows.entries()) all.set(row, frame * signatureLength);
  return { signatures: { frames: rows.length, rows: all }, truth: next.value };
}
