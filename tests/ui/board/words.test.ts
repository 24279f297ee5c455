import { describe, expect, test } from 'vitest';
import type { Standing } from '../../../src/core/board/standings.ts';
import { withShare } from '../../../src/ui/board/board-store.ts';
import {
  chanceInFigures,
  chanceInWords,
  firstInWords,
  placeInWords,
  placesInWords,
  swapInWords,
} from '../../../src/ui/board/in-words.ts';

const standing = (runner: string, best: number): Standing => ({
  runner,
  place: 1,
  score: 3,
  expectedPlace: 1,
  places: [best, 1 - best],
  best,
  likelyFrom: 1,
  likelyTo: 1,
});
const nameOf = (id: string): string => ({ a: 'Amos', b: 'Ben', c: 'Cal' })[id] ?? id;
const headline = (...best: readonly number[]): string =>
  firstInWords(
    best.map((chance, at) => standing('abc'.charAt(at), chance)),
    nameOf,
  ).headline;

describe('the board in words', () => {
  test('says who is first and how sure that is, surer words for surer chances', () => {
    expect(headline(0.97, 0.03)).toBe('Amos is first, almost surely: 97 in 100.');
    expect(headline(0.86, 0.14)).toBe('Amos is first, very likely: 86 in 100.');
    expect(headline(0.68, 0.32)).toBe('Amos is first, likely but not sure: 68 in 100.');
    expect(headline(0.52, 0.48)).toBe('Amos leads, little better than even: 52 in 100 that he is truly first.');
    expect(headline(0.4, 0.35, 0.25)).toBe(
      'Amos leads, but someone else is more likely first: only 40 in 100 that it is he.',
    );
  });

  test('names who else could be first, likeliest first, and says when nobody could', () => {
    const said = firstInWords([standing('a', 0.6), standing('b', 0.1), standing('c', 0.3)], nameOf).rest;
    expect(said).toBe('Chance of being first instead: Cal 30 in 100, Ben 10 in 100.');
    expect(firstInWords([standing('a', 0.995), standing('b', 0.005)], nameOf).rest).toMatch(/^Nobody else/);
  });

  test('never calls a chance certain', () => {
    expect(chanceInWords(1)).toBe('more than 99 in 100');
    expect(chanceInWords(0)).toBe('less than 1 in 100');
    expect([1, 0.994, 0.5, 0.004, 0].map(chanceInFigures)).toEqual(['>99', '99', '50', '<1', '<1']);
  });

  test('counts places as people do', () => {
    expect([1, 2, 3, 4, 11, 12, 13, 21, 22, 101, 111].map(placeInWords)).toEqual([
      '1st',
      '2nd',
      '3rd',
      '4th',
      '11th',
      '12th',
      '13th',
      '21st',
      '22nd',
      '101st',
      '111th',
    ]);
    expect(placesInWords(2, 2)).toBe('2nd');
    expect(placesInWords(2, 5)).toBe('2nd to 5th');
  });

  test('says from which share of weight on another runner is first', () => {
    const swap = (to: number, change: number) =>
      ({ known: true, value: { first: 'a', challenger: 'b', from: to - change, to, change } }) as const;
    expect(swapInWords(swap(0.52, 0.2), nameOf)).toBe('Above 52 % Ben is first.');
    expect(swapInWords(swap(0.045, -0.1), nameOf)).toBe('Below 4.5 % Ben is first.');
    expect(swapInWords({ known: false, because: 'never', detail: '' }, nameOf)).toBe(
      'No value of it changes who is first.',
    );
  });
});

describe('a weight set as a share', () => {
  const group = [
    { key: 'x', weight: 0.38 },
    { key: 'y', weight: 0.32 },
    { key: 'z', weight: 0.3 },
  ] as const;

  test('lets the others fill up in the proportions they have', () => {
    const moved = withShare(group, 'x', 0.5);
    expect(moved['x']).toBe(0.5);
    expect((moved['y'] ?? 0) / (moved['z'] ?? 1)).toBeCloseTo(0.32 / 0.3, 12);
    expect((moved['y'] ?? 0) + (moved['z'] ?? 0)).toBeCloseTo(0.5, 12);
  });

  test('comes back from one end to the other with the others’ proportions kept', () => {
    let now = withShare(group, 'x', 1);
    now = withShare(
      group.map(({ key }) => ({ key, weight: now[key] ?? 0 })),
      'x',
      0,
    );
    expect(now['x']).toBe(0);
    expect((now['y'] ?? 0) / (now['z'] ?? 1)).toBeCloseTo(0.32 / 0.3, 9);
  });

  test('shares in equal parts where the others weigh nothing, and a weight alone stays all', () => {
    expect(
      withShare(
        [
          { key: 'x', weight: 1 },
          { key: 'y', weight: 0 },
          { key: 'z', weight: 0 },
        ],
        'x',
        0.5,
      ),
    ).toEqual({ x: 0.5, y: 0.25, z: 0.25 });
    expect(withShare([{ key: 'x', weight: 1 }], 'x', 0.2)).toEqual({ x: 1 });
  });
});
