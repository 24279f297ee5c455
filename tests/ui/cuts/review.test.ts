import { describe, expect, it } from 'vitest';
import type { SpanProposal } from '../../../src/core/cutting/propose-spans.ts';
import { cutsOf, moveEnd, spanBefore, stateOf, turnedKind, type Cut } from '../../../src/ui/stage/cuts/cut-list.ts';

const proposal = (first: number, last: number, more: Partial<SpanProposal> = {}): SpanProposal =>
  Object.freeze({
    first,
    last,
    kind: 'play',
    because: 'begins with a cut',
    view: null,
    play: 0,
    confidence: 0.8,
    ...more,
  });

const one = (first: number, last: number, more: Partial<SpanProposal> = {}): Cut => {
  const [cut] = cutsOf([proposal(first, last, more)]);
  if (cut === undefined) throw new Error('one proposal gives one cut');
  return cut;
};
const accepted = (cut: Cut, id: string, spanId: string): Cut => ({ ...cut, id, spanId });

describe('proposed cuts under review', () => {
  it('are open until the span they became stands, and open again when it is taken back', () => {
    const cut = accepted(one(100, 199), 'cut 0', 'span a');
    expect(stateOf(one(100, 199), [])).toBe('open');
    expect(stateOf(cut, [{ id: 'span a', inFrame: 100, outFrame: 199 }])).toBe('accepted');
    expect(stateOf(cut, [])).toBe('open');
    expect(stateOf({ ...cut, dropped: true }, [])).toBe('dropped');
  });

  it('count as cut before where more than half of them lies in spans of the study', () => {
    const cut = one(100, 199);
    expect(stateOf(cut, [{ id: 'b', inFrame: 0, outFrame: 149 }])).toBe('open');
    expect(stateOf(cut, [{ id: 'b', inFrame: 0, outFrame: 150 }])).toBe('cut before');
    expect(
      stateOf(cut, [
        { id: 'b', inFrame: 90, outFrame: 130 },
        { id: 'c', inFrame: 160, outFrame: 300 },
      ]),
    ).toBe('cut before');
  });

  it('move by their ends, keep a frame, and stay inside the film', () => {
    const cut = one(100, 110);
    expect(moveEnd(cut, 'in', -10, 500)).toMatchObject({ first: 90, last: 110 });
    expect(moveEnd(cut, 'in', 40, 500)).toMatchObject({ first: 110, last: 110 });
    expect(moveEnd(cut, 'out', -40, 500)).toMatchObject({ first: 100, last: 100 });
    expect(moveEnd(cut, 'out', 900, 500)).toMatchObject({ first: 100, last: 500 });
    expect(moveEnd(one(3, 9), 'in', -10, 500)).toMatchObject({ first: 0 });
  });

  it('can be called a play, a replay or a graphic, round again', () => {
    const cut = one(0, 9);
    const round = [1, 2, 3].reduce<Cut[]>((all) => [...all, turnedKind(all.at(-1) ?? cut)], []);
    expect(round.map(({ kind }) => kind)).toEqual(['replay', 'graphic', 'play']);
  });

  it('put a replay with the nearest play before it, and a second view with its own play only', () => {
    const first = accepted(one(0, 99, { play: 0, view: 'first' }), 'cut 0', 'span a');
    const other = accepted(one(100, 199, { play: 1, view: 'first' }), 'cut 1', 'span b');
    const spans = [
      { id: 'span a', kind: 'live', inFrame: 0, playId: 'play a' },
      { id: 'span b', kind: 'live', inFrame: 100, playId: 'play b' },
    ] as const;
    const cuts = [first, other];
    expect(spanBefore(one(200, 250, { kind: 'replay', play: 1 }), cuts, spans)).toBe('span b');
    expect(spanBefore(one(200, 250, { kind: 'replay', play: null }), cuts, spans)).toBe('span b');
    expect(spanBefore(one(200, 250, { view: 'second', play: 0 }), cuts, spans)).toBe('span a');
    expect(spanBefore(one(200, 250, { view: 'second', play: 7 }), cuts, spans)).toBeNull();
    expect(spanBefore(one(200, 250, { kind: 'replay', play: 1 }), cuts, [])).toBeNull();
  });
});
