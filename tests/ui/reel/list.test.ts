import { describe, expect, it } from 'vitest';
import type { StageGame } from '../../../src/contract/calls.ts';
import { rows } from '../../../src/contract/rows.ts';
import type { FrameTable } from '../../../src/film/table/frame-table.ts';
import { fileNameOf, itemsOf, movedItem, reelParts, type ReelItem } from '../../../src/ui/reel/reel-list.ts';

const uuid = (number: number): string => `00000000-0000-4000-8000-${String(number).padStart(12, '0')}`;
const span = (id: number, play: number, angle: 'sideline' | 'end zone', kind: 'live' | 'replay', at: number) =>
  rows.span.parse({
    id: uuid(id),
    playId: uuid(play),
    filmId: uuid(900),
    angle,
    kind,
    inFrame: at,
    inTime: at / 30,
    outFrame: at + 20,
    outTime: (at + 20) / 30,
  });
const chalk = rows.chalk.parse({
  id: uuid(70),
  spanId: uuid(11),
  evaluatorId: uuid(800),
  fromFrame: 5,
  toFrame: 9,
  kind: 'ring',
  points: [
    [10, 10],
    [20, 10],
  ],
});
const spans = [
  span(13, 1, 'sideline', 'replay', 60),
  span(12, 1, 'end zone', 'live', 30),
  span(11, 1, 'sideline', 'live', 0),
  span(21, 2, 'sideline', 'live', 90),
];
const games = new Map([[uuid(500), { spans, chalk: [chalk] } as unknown as StageGame]]);
const ask = (play: number, more: object = {}) =>
  Object.freeze({
    gameId: uuid(500),
    playId: uuid(play),
    spanId: null,
    at: null,
    title: `t${play}`,
    caption: '',
    ...more,
  });
const table = { times: Float64Array.from({ length: 105 }, (_, at) => at / 30) } as unknown as FrameTable;
const films = new Map([[uuid(900), { id: uuid(900), url: '/film', table }]]);
const plain = { head: '', cards: false, cardSeconds: 2, chalk: true };

describe('a reel put together', () => {
  it('takes the live sideline view, unless a span or a frame says which is meant', () => {
    const [first, second, third] = itemsOf(
      [ask(1), ask(1, { spanId: uuid(12) }), ask(1, { at: { filmId: uuid(900), frame: 65 } })],
      games,
    );
    expect(first?.spanId).toBe(uuid(11));
    expect(first?.spans.map(({ id }) => id)).toEqual([uuid(11), uuid(12), uuid(13)]);
    expect(second?.spanId).toBe(uuid(12));
    expect(third?.spanId).toBe(uuid(13));
  });

  it('leaves out plays without film', () => {
    expect(itemsOf([ask(7), ask(2)], games).map(({ playId }) => playId)).toEqual([uuid(2)]);
  });

  it('is one card and a part a play, in the order chosen, ends cut to the film', () => {
    const items = itemsOf([ask(1), ask(2)], games);
    const turned = movedItem(items, 0, 1);
    const parts = reelParts(turned, films, { ...plain, head: 'Evidence', cards: true });
    expect(parts.map(({ part }) => (part.kind === 'card' ? part.lines : [part.from, part.to]))).toEqual([
      ['Evidence', '2 plays'],
      ['t2'],
      [90, 104],
      ['t1'],
      [0, 20],
    ]);
  });

  it('is encoded anew only where chalk lies and is wanted, so that other films are copied', () => {
    const drawn = (items: readonly ReelItem[], choices: typeof plain): boolean[] =>
      reelParts(items, films, choices).map(({ part }) => part.kind === 'span' && part.drawn);
    const items = itemsOf([ask(1), ask(2)], games);
    expect(drawn(items, plain)).toEqual([true, false]);
    expect(drawn(items, { ...plain, chalk: false })).toEqual([false, false]);
    expect(reelParts(items, films, plain)[0]?.chalk).toEqual([chalk]);
  });

  it('keeps its order at the ends, leaves out what is unticked, and shows slow what is slowed', () => {
    const items = itemsOf([ask(1), ask(2)], games);
    expect(movedItem(items, 0, -1)).toEqual(items);
    expect(movedItem(items, 1, 1)).toEqual(items);
    const [first, second] = items;
    if (first === undefined || second === undefined) throw new Error('two plays have film');
    const parts = reelParts(
      [
        { ...first, left: true },
        { ...second, speed: 0.25 },
      ],
      films,
      plain,
    );
    expect(parts.map(({ part }) => part.kind === 'span' && part.speed)).toEqual([0.25]);
  });

  it('is saved under a name that any file system takes', () => {
    expect(fileNameOf('Pell Harbor at Harlan Ridge: 3rd & 2 / power?')).toBe(
      'Pell Harbor at Harlan Ridge 3rd 2 power.mp4',
    );
    expect(fileNameOf('???')).toBe('reel.mp4');
    expect(fileNameOf('Łukasz Ōe')).toBe('Łukasz Ōe.mp4');
  });
});
