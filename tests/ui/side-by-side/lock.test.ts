import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Moment, Span } from '../../../src/contract/rows.ts';
import {
  bothReach,
  frameAt,
  instantOf,
  reachOf,
  sharedMoments,
  stepFrom,
  type LockedSide,
} from '../../../src/ui/side-by-side/lock.ts';

const span = (part: Partial<Span>): Span => ({
  id: 's',
  playId: 'p',
  filmId: 'f',
  angle: 'sideline',
  kind: 'live',
  inFrame: 0,
  inTime: 0,
  outFrame: 100,
  outTime: 0,
  timeScale: 1,
  clearness: null,
  ...part,
});
/** A side of constant frame rate whose named moments lie at the given frames. */
function side(
  rate: number,
  moments: Readonly<Partial<Record<Moment['name'], number>>>,
  part: Partial<Span> = {},
): LockedSide {
  const times = Float64Array.from({ length: 1000 }, (_, frame) => frame / rate);
  const own = span({ inTime: (part.inFrame ?? 0) / rate, ...part });
  return {
    span: own,
    times,
    moments: Object.entries(moments).map(([name, frame]) => ({
      id: name,
      spanId: own.id,
      partId: null,
      name: name as Moment['name'],
      frame,
      time: frame / rate,
    })),
  };
}

describe('two spans locked on a moment', () => {
  const slow = side(30, { exchange: 30, plant: 45 }, { inFrame: 10, outFrame: 80 });
  const fast = side(60, { exchange: 200, plant: 236 }, { inFrame: 170, outFrame: 300 });

  test('both show that moment at instant 0, each at its own frame', () => {
    expect([frameAt(slow, 'exchange', 0), frameAt(fast, 'exchange', 0)]).toEqual([30, 200]);
    expect([frameAt(slow, 'plant', 0), frameAt(fast, 'plant', 0)]).toEqual([45, 236]);
  });

  test('are as many real seconds away from it, whatever their frame rates', () => {
    expect([frameAt(slow, 'exchange', 0.5), frameAt(fast, 'exchange', 0.5)]).toEqual([45, 230]);
    expect([frameAt(slow, 'exchange', -0.5), frameAt(fast, 'exchange', -0.5)]).toEqual([15, 170]);
  });

  test('step by the film whose frames are closer together, so that no frame of either is passed over', () => {
    let instant = 0;
    const seen: [number, number][] = [];
    for (let step = 0; step < 4; step += 1) {
      instant = stepFrom([slow, fast], 'exchange', instant, 1);
      seen.push([frameAt(slow, 'exchange', instant), frameAt(fast, 'exchange', instant)]);
    }
    expect(seen.map(([, frame]) => frame)).toEqual([201, 202, 203, 204]);
    // Half-way between two frames either is as near; every second step is on a frame of its own.
    expect([seen[1]?.[0], seen[3]?.[0]]).toEqual([31, 32]);
    expect(stepFrom([slow, fast], 'exchange', instant, -4)).toBeCloseTo(0, 12);
  });

  test('replay at half speed takes two film seconds a real one', () => {
    const replay = side(60, { exchange: 100 }, { timeScale: 2, outFrame: 400 });
    expect(frameAt(replay, 'exchange', 0.5)).toBe(160);
    expect(instantOf(replay, 'exchange', 160)).toBeCloseTo(0.5, 12);
    // Its frames are closer together in real time than those of live film at the same rate.
    expect(frameAt(replay, 'exchange', stepFrom([fast, replay], 'exchange', 0, 1))).toBe(101);
  });

  test('begin where their spans begin when they share no moment', () => {
    const bare = side(30, {}, { inFrame: 40, outFrame: 60 });
    expect(sharedMoments(slow.moments, bare.moments)).toEqual([]);
    expect([frameAt(slow, null, 0), frameAt(bare, null, 0)]).toEqual([10, 40]);
  });

  test('share the moments tagged in both, in the order they happen', () => {
    const other = side(30, { plant: 20, snap: 1, exchange: 5 });
    expect(sharedMoments(slow.moments, other.moments)).toEqual(['exchange', 'plant']);
  });

  test('hold their last picture beyond the end of their span, and step on with the other', () => {
    const short = side(60, { exchange: 200 }, { inFrame: 195, outFrame: 203 });
    let instant = 0;
    for (let step = 0; step < 12; step += 1) instant = stepFrom([slow, short], 'exchange', instant, 1);
    expect(frameAt(short, 'exchange', instant)).toBe(203);
    expect(frameAt(slow, 'exchange', instant)).toBeGreaterThan(31);
    const { from, to } = bothReach([slow, short], 'exchange');
    expect(from).toBeCloseTo(-5 / 60, 12);
    expect(to).toBeCloseTo(3 / 60, 12);
  });

  test('whose reaches never meet have no time that both show', () => {
    const before = side(30, { plant: 80 }, { inFrame: 10, outFrame: 20 });
    const after = side(30, { plant: 5 }, { inFrame: 50, outFrame: 90 });
    expect(bothReach([before, after], 'plant')).toEqual({ from: 0, to: 0 });
  });

  test('property: a frame’s instant shows that frame again, and no step leaves a span', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 20, max: 120 }),
        fc.integer({ min: 20, max: 120 }),
        fc.constantFrom(0.5, 1, 2, 3.7),
        fc.integer({ min: 0, max: 100 }),
        fc.integer({ min: -30, max: 30 }),
        (rate, otherRate, timeScale, frame, by) => {
          const one = side(rate, { cut: 50 }, { timeScale });
          const other = side(otherRate, { cut: 20 });
          const instant = instantOf(one, 'cut', frame);
          expect(frameAt(one, 'cut', instant)).toBe(frame);
          const next = stepFrom([one, other], 'cut', instant, by);
          for (const each of [one, other]) {
            const { from, to } = reachOf(each, 'cut');
            const shown = frameAt(each, 'cut', next);
            expect(shown).toBeGreaterThanOrEqual(0);
            expect(shown).toBeLessThanOrEqual(100);
            expect(to).toBeGreaterThan(from);
          }
        },
      ),
    );
  });
});
