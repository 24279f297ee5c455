import { describe, expect, test } from 'vitest';
import { type UnmarkedCarry, watchNext } from '../../../src/core/board/watch-next.ts';
import { gradeClass } from '../../../src/core/grades/grade-class.ts';
import { randomFrom } from '../../../src/core/random.ts';
import { valueOf } from '../../value-of.ts';
import { plainRubric } from '../grades/coverage.ts';
import { drawnClass, world } from '../grades/drawn-class.ts';

const traits = ['press', 'tempo'];
const rubric = plainRubric(traits);
const { marks } = drawnClass(randomFrom(31), { ...world, runners: 10, traits, fewestGames: 3, mostGames: 6 });
/** Runner 04 keeps two carries of one game: he is known least. */
const thinned = marks.filter(
  (mark) => mark.runner !== 'runner 04' || (mark.game.endsWith('0') && mark.carry <= 'carry 01'),
);
const { pooled } = gradeClass(thinned, rubric);
const one = (runner: string, game = `${runner} game 0`): UnmarkedCarry => ({ runner, game, carry: 'new' });
const all = Array.from({ length: 10 }, (_, at) => one(`runner 0${at}`));

describe('what to watch next', () => {
  const answer = valueOf(watchNext(Object.freeze(all), Object.freeze(thinned), pooled, rubric));

  test('lists every unmarked carry, the most telling first', () => {
    expect(answer).toHaveLength(10);
    for (let at = 1; at < answer.length; at += 1) {
      expect(answer[at]?.swaps ?? 0).toBeLessThanOrEqual(answer[at - 1]?.swaps ?? 0);
    }
    for (const row of answer) {
      expect(row.swaps).toBeGreaterThanOrEqual(0);
      expect(row.swaps).toBeLessThanOrEqual(9);
    }
  });

  test('moves most the runner of whom least is known', () => {
    const most = [...answer].sort((a, b) => b.movement - a.movement)[0];
    expect(most?.runner).toBe('runner 04');
  });

  test('finds a new game more telling than one more carry of a game already seen', () => {
    const [first] = valueOf(
      watchNext([one('runner 04'), one('runner 04', 'runner 04 game 9')], thinned, pooled, rubric),
    );
    expect(first?.game).toBe('runner 04 game 9');
  });

  test('finds a clear carry more telling than an obscured one', () => {
    const carries: UnmarkedCarry[] = [
      { ...one('runner 04'), carry: 'far', clearness: 'obscured' },
      { ...one('runner 04'), carry: 'near', clearness: 'clear' },
    ];
    const [first, second] = valueOf(watchNext(carries, thinned, pooled, rubric));
    expect(first?.carry).toBe('near');
    expect(first?.movement ?? 0).toBeGreaterThan(second?.movement ?? 0);
  });

  test('does not depend on the order carries or marks come in', () => {
    expect(valueOf(watchNext(all.toReversed(), thinned.toReversed(), pooled, rubric))).toEqual(answer);
  });

  test('counts a runner without a mark as the class, and moves him', () => {
    const rows = valueOf(watchNext([one('runner 99'), one('runner 00')], thinned, pooled, rubric));
    expect(rows[0]?.runner).toBe('runner 99');
  });

  test('has reasons for nothing unmarked, one runner and no weight', () => {
    expect(watchNext([], marks, pooled, rubric)).toMatchObject({ known: false, because: 'nothing unmarked' });
    expect(watchNext([one('r')], [], pooled, rubric)).toMatchObject({ known: false, because: 'fewer than two' });
    const weightless = { ...rubric, families: rubric.families.map((family) => ({ ...family, weight: 0 })) };
    expect(watchNext(all, marks, pooled, weightless)).toMatchObject({ known: false, because: 'no weight' });
  });
});
