import { describe, expect, it } from 'vitest';
import { openCutter } from '../../../src/core/cutting/cutter.ts';
import { findTransitions } from '../../../src/core/cutting/find-transitions.ts';
import { proposeSpans } from '../../../src/core/cutting/propose-spans.ts';
import { scoreCuts } from '../../../src/core/cutting/score-cuts.ts';
import { signatureLength, signatureOf, writeSignature, type Signatures } from '../../../src/core/cutting/signature.ts';
import { signaturesOfPlan, type FilmPlan } from './made-film.ts';

const base = { flashes: [], grain: 4, perSecond: 30 } as const;
const cuts = (count: number): FilmPlan['joins'] => Array.from({ length: count }, () => ({ kind: 'cut', frames: 0 }));

function cutWhole(signatures: Signatures, perSecond: number) {
  const cutter = openCutter(perSecond);
  for (let frame = 0; frame < signatures.frames; frame += 1) {
    cutter.row().set(signatureOf(signatures, frame));
    cutter.push();
  }
  return cutter.finish();
}

describe('a signature', () => {
  it('does not change with the size of the picture, and says when its row is too short', () => {
    const planes = (width: number, height: number) => ({
      width,
      height,
      luma: new Uint8Array(width * height).map((_, at) => (((at % width) / width) * 200) | 0),
      blue: new Uint8Array((width / 2) * (height / 2)).fill(100),
      red: new Uint8Array((width / 2) * (height / 2)).fill(150),
    });
    const [small, large] = [new Float32Array(signatureLength), new Float32Array(signatureLength)];
    writeSignature(small, planes(320, 180));
    writeSignature(large, planes(1280, 720));
    for (let at = 0; at < 144 + 24; at += 1) expect(Math.abs((small[at] ?? 0) - (large[at] ?? 0))).toBeLessThan(2);
    expect(() => writeSignature(new Float32Array(3), planes(320, 180))).toThrow(/got room for 3/);
  });
});

describe('cutting a drawn film', () => {
  it('finds every cut between wide and tight views and tells the two views and their plays', () => {
    const shots = Array.from({ length: 12 }, (_, place) => ({
      kind: place % 2 === 0 ? ('wide' as const) : ('tight' as const),
      seed: 500 + place,
      pan: place % 3 === 0 ? 5 : -3,
      frames: 40,
    }));
    const { signatures, truth } = signaturesOfPlan({ ...base, shots, joins: cuts(11) });
    const { shots: found, transitions } = cutWhole(signatures, 30);
    expect(scoreCuts(truth, transitions, 'cut')).toMatchObject({
      truePositives: 11,
      falsePositives: 0,
      falseNegatives: 0,
    });
    expect(transitions.every(({ kind }) => kind === 'cut')).toBe(true);
    const spans = proposeSpans(found, 30);
    expect(spans.map(({ view }) => view)).toEqual(shots.map((_, place) => (place % 2 === 0 ? 'first' : 'second')));
    expect(spans.map(({ play }) => play)).toEqual(shots.map((_, place) => Math.floor(place / 2)));
  });

  it('proposes nothing in an uncut play, however the camera pans, the light flashes or pictures repeat', () => {
    for (const [kind, pan, doubled] of [
      ['wide', 9, false],
      ['wide', 25, false],
      ['tight', 6, false],
      ['end zone', -10, true],
      ['wide', -12, true],
      ['crowd', 8, false],
    ] as const) {
      const shots = [{ kind, seed: 77, pan, frames: 150 }];
      const { signatures } = signaturesOfPlan({ ...base, shots, joins: [], flashes: [40, 41, 90], doubled });
      expect({ kind, pan, found: findTransitions(signatures, 30) }).toEqual({ kind, pan, found: [] });
    }
  });

  it('finds dissolves and fades where they are, and calls a fade out and in one change', () => {
    const shots = (['wide', 'tight', 'end zone', 'wide', 'crowd'] as const).map((kind, place) => ({
      kind,
      seed: 900 + place,
      pan: place % 2 === 0 ? 2 : 0,
      frames: 50,
    }));
    const joins: FilmPlan['joins'] = [
      { kind: 'dissolve', frames: 15 },
      { kind: 'fade', frames: 12 },
      { kind: 'dissolve', frames: 30 },
      { kind: 'fade', frames: 20 },
    ];
    const { signatures, truth } = signaturesOfPlan({ ...base, shots, joins });
    const found = findTransitions(signatures, 30);
    expect(scoreCuts(truth, found, 'gradual')).toMatchObject({
      truePositives: 4,
      falsePositives: 0,
      falseNegatives: 0,
    });
    expect(found.map(({ kind }) => kind)).toEqual(['dissolve', 'fade', 'dissolve', 'fade']);
  });

  it('proposes a still card as a graphic and film whose pictures repeat as a replay', () => {
    const kinds = ['wide', 'card', 'wide', 'tight', 'wide', 'tight'] as const;
    const shots = kinds.map((kind, place) => ({ kind, seed: 300 + place, pan: kind === 'card' ? 0 : 6, frames: 60 }));
    const { signatures } = signaturesOfPlan({ ...base, grain: 0, shots, joins: cuts(5) });
    // The last shot is slowed down: each picture stands for three frames.
    const rows = signatures.rows.slice();
    for (let frame = 300; frame < 360; frame += 1) {
      rows.set(signatureOf(signatures, 300 + Math.floor((frame - 300) / 3)), frame * signatureLength);
    }
    const { shots: found } = cutWhole({ frames: signatures.frames, rows }, 30);
    const spans = proposeSpans(found, 30);
    expect(spans.map(({ kind }) => kind)).toEqual(['play', 'graphic', 'play', 'play', 'play', 'replay']);
    expect(spans[5]?.because).toContain('slowed down');
  });

  it('finds the same whether the film is looked at whole or as it comes in', () => {
    const shots = Array.from({ length: 12 }, (_, place) => ({
      kind: (['wide', 'tight', 'texture'] as const)[place % 3] ?? 'wide',
      seed: 40 + place,
      pan: place % 4,
      frames: 100,
    }));
    const joins = shots
      .slice(1)
      .map((_, place) => ({ kind: place % 3 === 2 ? ('dissolve' as const) : ('cut' as const), frames: 8 }));
    const { signatures } = signaturesOfPlan({ ...base, perSecond: 12, shots, joins });
    // At 12 frames a second the cutter holds 720 frames: this film does not fit at once.
    expect(signatures.frames).toBeGreaterThan(900);
    const places = (all: readonly { readonly last: number; readonly first: number }[]) =>
      all.map(({ last, first }) => [last, first]);
    const whole = findTransitions(signatures, 12);
    const { transitions, shots: found } = cutWhole(signatures, 12);
    expect(places(transitions)).toEqual(places(whole));
    expect(found).toHaveLength(transitions.length + 1);
    expect(found[0]?.first).toBe(0);
    expect(found.at(-1)?.last).toBe(signatures.frames - 1);
  });
});
