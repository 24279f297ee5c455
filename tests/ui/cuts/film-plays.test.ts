import { describe, expect, it } from 'vitest';
import { inNameOrder } from '../../../src/ui/stage/cuts/film-plays.ts';

describe('films of one play each', () => {
  it('come in the order of their names, figures as numbers, each path once', () => {
    const film = (name: string, filmId: string | null = null) => Object.freeze({ name, path: `/f/${name}`, filmId });
    const films = [film('play 10.mp4'), film('Play 3.mp4'), film('play 1.mp4'), film('play 2.mp4', 'kept')];
    expect(inNameOrder([...films, film('play 10.mp4', 'known')]).map(({ name, filmId }) => [name, filmId])).toEqual([
      ['play 1.mp4', null],
      ['play 2.mp4', 'kept'],
      ['Play 3.mp4', null],
      ['play 10.mp4', 'known'],
    ]);
  });
});
