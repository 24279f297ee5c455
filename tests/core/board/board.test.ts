import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { board, type BoardRequest } from '../../../src/core/board/board.ts';
import { comparable, comparableGroups } from '../../../src/core/board/comparable-groups.ts';
import { drawWeights } from '../../../src/core/board/dirichlet.ts';
import { pairwiseChances, placesOf, scoreDraws } from '../../../src/core/board/places.ts';
import { swapPoints } from '../../../src/core/board/swap-points.ts';
import { drawTraits, firstDraws } from '../../../src/core/board/trait-draws.ts';
import { compareGrades } from '../../../src/core/comparison/compare-grades.ts';
import { gradeClass } from '../../../src/core/grades/grade-class.ts';
import type { GradeMark } from '../../../src/core/grades/grade-mark.ts';
import { randomFrom } from '../../../src/core/random.ts';
import { valueOf } from '../../value-of.ts';
import { plainRubric } from '../grades/coverage.ts';
import { drawnClass, world } from '../grades/drawn-class.ts';

const traits = ['press', 'tempo', 'crease'];
const rubric = plainRubric(traits);
const lean = { runner: 0.5, game: 0.4, carry: 0.3 };
const { marks } = drawnClass(randomFrom(3), { ...world, runners: 8, traits, lean });
const grades = gradeClass(marks, rubric);
const request = (part: Partial<BoardRequest> = {}): BoardRequest => ({
  grades,
  marks,
  weights: [1, 1, 1],
  draws: 4000,
  random: randomFrom(1),
  ...part,
});
const joints = Object.entries(grades.runners).map(([id, runner]) => ({ id, joint: runner.joint }));

describe('joint draws', () => {
  const drawn = drawTraits(joints, 20_000, randomFrom(9));

  test('have the means and covariances of the posterior', () => {
    for (const [at, { joint }] of joints.entries()) {
      const mean = [0, 0, 0];
      const products = [0, 0, 0, 0, 0, 0, 0, 0, 0];
      for (let draw = 0; draw < drawn.draws; draw += 1) {
        const from = (draw * joints.length + at) * 3;
        for (let row = 0; row < 3; row += 1) {
          const own = (drawn.values[from + row] ?? 0) - (joint.mean[row] ?? 0);
          mean[row] = (mean[row] ?? 0) + own / drawn.draws;
          for (let column = 0; column < 3; column += 1) {
            const other = (drawn.values[from + column] ?? 0) - (joint.mean[column] ?? 0);
            products[row * 3 + column] = (products[row * 3 + column] ?? 0) + (own * other) / drawn.draws;
          }
        }
      }
      for (let row = 0; row < 3; row += 1) {
        const sd = Math.sqrt(joint.covariance[row]?.[row] ?? 0);
        expect(Math.abs(mean[row] ?? 1)).toBeLessThan(0.04 * sd);
        for (let column = 0; column < 3; column += 1) {
          const other = Math.sqrt(joint.covariance[column]?.[column] ?? 0);
          const wanted = joint.covariance[row]?.[column] ?? 0;
          expect(Math.abs((products[row * 3 + column] ?? 0) - wanted)).toBeLessThan(0.1 * sd * other);
        }
      }
    }
  });

  test('are bit-equal for one seed, and the first of many are those of few', () => {
    expect(drawTraits(joints, 500, randomFrom(9)).values).toEqual(firstDraws(drawn, 500).values);
    expect(firstDraws(drawn, 500).draws).toBe(500);
  });

  test('agree with the chance that two posteriors give alone', () => {
    const [first, second] = joints;
    const one = first === undefined ? undefined : grades.runners[first.id];
    const other = second === undefined ? undefined : grades.runners[second.id];
    if (one === undefined || other === undefined) throw new Error('runners are missing');
    const pairs = pairwiseChances(scoreDraws(drawn, [1, 1, 1]));
    expect(Math.abs((pairs[0]?.[1] ?? 0) - valueOf(compareGrades(one, other).overall).chance)).toBeLessThan(0.02);
  });

  test('refuse no draws and runners with other traits', () => {
    expect(() => drawTraits(joints, 0, randomFrom(1))).toThrow(RangeError);
    const odd = joints.map((one, at) =>
      at === 1 ? { ...one, joint: { ...one.joint, traits: ['x', 'y', 'z'] } } : one,
    );
    expect(() => drawTraits(odd, 1, randomFrom(1))).toThrow('the same traits');
  });
});

describe('places', () => {
  const scored = scoreDraws(drawTraits(joints, 3000, randomFrom(4)), [0.5, 0.3, 0.2]);
  const places = placesOf(scored);
  const size = joints.length;

  test('share out every runner and every place once', () => {
    for (let at = 0; at < size; at += 1) {
      let row = 0;
      let column = 0;
      let expected = 0;
      for (let other = 0; other < size; other += 1) {
        row += places.chance[at * size + other] ?? 0;
        column += places.chance[other * size + at] ?? 0;
        expected += (other + 1) * (places.chance[at * size + other] ?? 0);
      }
      expect(row).toBeCloseTo(1, 9);
      expect(column).toBeCloseTo(1, 9);
      expect(places.expectedPlace[at]).toBeCloseTo(expected, 9);
    }
  });

  test('are what sorting every draw gives', () => {
    const counts = new Float64Array(size * size);
    for (let draw = 0; draw < scored.draws; draw += 1) {
      const own = [...scored.values.subarray(draw * size, (draw + 1) * size)];
      const order = own.map((_, at) => at).sort((a, b) => (own[b] ?? 0) - (own[a] ?? 0));
      for (const [place, runner] of order.entries())
        counts[runner * size + place] = (counts[runner * size + place] ?? 0) + 1;
    }
    for (const [at, count] of counts.entries()) expect(places.chance[at]).toBeCloseTo(count / scored.draws, 12);
  });

  test('do not care for the scale of the weights', () => {
    const drawn = drawTraits(joints, 1000, randomFrom(4));
    fc.assert(
      fc.property(fc.double({ min: 0.001, max: 1000, noNaN: true }), (scale) => {
        const plain = placesOf(scoreDraws(drawn, [0.5, 0.25, 0.25]));
        const scaled = placesOf(scoreDraws(drawn, [0.5 * scale, 0.25 * scale, 0.25 * scale]));
        for (const [at, place] of plain.expectedPlace.entries()) {
          expect(Math.abs((scaled.expectedPlace[at] ?? 0) - place)).toBeLessThan(0.01);
        }
      }),
      { numRuns: 10 },
    );
  });

  test('refuse weights that do not fit or are negative', () => {
    const drawn = drawTraits(joints, 10, randomFrom(4));
    expect(() => scoreDraws(drawn, [1, 1])).toThrow('weights want 3 or 30 entries, got 2');
    expect(() => scoreDraws(drawn, [1, 1, -1])).toThrow(RangeError);
  });
});

describe('weights drawn from a Dirichlet', () => {
  test('have the stated mean and the variance of the stated concentration', () => {
    const weights = [0.5, 0.3, 0.2, 0];
    const draws = 20_000;
    const drawn = drawWeights(weights, 20, draws, randomFrom(2));
    for (const [at, weight] of weights.entries()) {
      let mean = 0;
      let squares = 0;
      for (let draw = 0; draw < draws; draw += 1) {
        const own = drawn[draw * 4 + at] ?? 0;
        mean += own / draws;
        squares += (own - weight) ** 2 / draws;
      }
      expect(Math.abs(mean - weight)).toBeLessThan(0.003);
      expect(Math.abs(squares - (weight * (1 - weight)) / 21)).toBeLessThan(0.0005);
    }
  });

  test('add up to 1 however loosely they are held', () => {
    const drawn = drawWeights([0.98, 0.01, 0.01], 1, 500, randomFrom(2));
    for (let draw = 0; draw < 500; draw += 1) {
      const sum = [...drawn.subarray(draw * 3, draw * 3 + 3)].reduce((total, one) => total + one, 0);
      expect(sum).toBeCloseTo(1, 12);
    }
    expect(() => drawWeights([1], 0.5, 1, randomFrom(1))).toThrow('a concentration wants 1 or more, got 0.5');
  });
});

describe('swap points', () => {
  const score = fc.double({ min: 1, max: 5, noNaN: true });
  const table = fc
    .integer({ min: 2, max: 5 })
    .chain((width) =>
      fc.tuple(
        fc.array(fc.array(score, { minLength: width, maxLength: width }), { minLength: 2, maxLength: 6 }),
        fc.array(fc.integer({ min: 0, max: 20 }), { minLength: width, maxLength: width }),
      ),
    );

  test('are where ranking again changes the first place, and nowhere nearer', () => {
    fc.assert(
      fc.property(table, ([scores, weights]) => {
        const total = weights.reduce((sum, one) => sum + one, 0);
        fc.pre(total > 0);
        const shares = weights.map((one) => one / total);
        const firstAt = (weight: number, value: number) => {
          const rest = 1 - (shares[weight] ?? 0);
          const moved = shares.map((share, at) => (at === weight ? value : (share / rest) * (1 - value)));
          const totals = scores.map((row) => row.reduce((sum, one, at) => sum + one * (moved[at] ?? 0), 0));
          const best = Math.max(...totals);
          return { totals, best, first: totals.indexOf(best) };
        };
        for (const [weight, swap] of swapPoints(Object.freeze(scores), weights).entries()) {
          if ((shares[weight] ?? 0) === 1) continue;
          if (!swap.known) {
            if (swap.because !== 'never') continue;
            const now = firstAt(weight, shares[weight] ?? 0);
            for (let step = 0; step <= 20; step += 1) {
              const { totals, best } = firstAt(weight, step / 20);
              expect(totals[now.first] ?? 0).toBeGreaterThanOrEqual(best - 1e-9);
            }
            continue;
          }
          const { first, challenger, from, to } = swap.value;
          const level = firstAt(weight, to);
          expect(level.totals[first] ?? 0).toBeCloseTo(level.best, 6);
          expect(level.totals[challenger] ?? 0).toBeCloseTo(level.best, 6);
          for (let step = 0; step < 10; step += 1) {
            const { totals, best } = firstAt(weight, from + ((to - from) * step) / 10);
            expect(totals[first] ?? 0).toBeGreaterThanOrEqual(best - 1e-9);
          }
        }
      }),
      { numRuns: 300 },
    );
  });

  test('have reasons when the top is shared, nothing weighs or nobody challenges', () => {
    expect(
      swapPoints(
        [
          [3, 3],
          [3, 3],
        ],
        [1, 1],
      )[0],
    ).toMatchObject({ known: false, because: 'tied' });
    expect(
      swapPoints(
        [
          [4, 4],
          [3, 3],
        ],
        [1, 1],
      )[1],
    ).toMatchObject({ known: false, because: 'never' });
    expect(
      swapPoints(
        [
          [4, 4],
          [3, 3],
        ],
        [0, 0],
      )[0],
    ).toMatchObject({ known: false, because: 'no weight' });
    expect(swapPoints([[4, 4]], [1, 1])[0]).toMatchObject({ known: false, because: 'fewer than two' });
    expect(() => swapPoints([[4], [3, 3]], [1, 1])).toThrow(RangeError);
  });
});

const by = (evaluator: string, runner: string, from: number, to: number): GradeMark[] =>
  Array.from({ length: to - from }, (_, at) => ({
    runner,
    game: 'g',
    carry: `c${from + at}`,
    evaluator,
    trait: 'press',
    value: 3,
    clearness: 'clear' as const,
  }));
const groups = (given: readonly GradeMark[]) =>
  comparableGroups(given, gradeClass(given, plainRubric(['press'])).pooled.leniency);

describe('who can be compared', () => {
  test('is everyone whom one evaluator marked', () => {
    expect(groups([...by('x', 'a', 0, 8), ...by('x', 'b', 0, 8)])).toEqual([
      { evaluators: ['x'], runners: ['a', 'b'] },
    ]);
  });

  test('is not two runners marked by two evaluators who share no carry', () => {
    const apart = groups([...by('x', 'a', 0, 8), ...by('y', 'b', 0, 8)]);
    expect(apart).toHaveLength(2);
    const answer = comparable(apart);
    expect(answer).toMatchObject({ known: false, because: 'not comparable' });
    expect(answer.known ? '' : answer.detail).toContain('(x; y)');
  });

  test('is everyone once the evaluators share enough carries', () => {
    const few = [...by('x', 'a', 0, 8), ...by('y', 'b', 0, 8), ...by('x', 'b', 0, 4)];
    expect(comparable(groups(few)).known).toBe(false);
    expect(comparable(groups([...few, ...by('x', 'b', 4, 5)])).known).toBe(true);
    const joined = [...by('x', 'a', 0, 8), ...by('y', 'b', 0, 8), ...by('x', 'b', 0, 8)];
    expect(valueOf(comparable(groups(joined))).runners).toEqual(['a', 'b']);
  });
});

describe('the board', () => {
  const answer = valueOf(board(request()));

  test('ranks by grade, and its places follow', () => {
    const scores = answer.rows.map((row) => row.score);
    expect([...scores].sort((a, b) => b - a)).toEqual(scores);
    expect(answer.rows.map((row) => row.place)).toEqual([1, 2, 3, 4, 5, 6, 7, 8]);
    for (const row of answer.rows) {
      expect(row.score).toBeCloseTo(valueOf(grades.runners[row.runner]?.overall).grade, 9);
      expect(row.low).toBeLessThan(row.score);
      expect(row.high).toBeGreaterThan(row.score);
      expect(row.places.reduce((sum, one) => sum + one, 0)).toBeCloseTo(1, 9);
      expect(row.likelyFrom).toBeLessThanOrEqual(row.likelyTo);
    }
    expect(answer.rows.reduce((sum, row) => sum + row.best, 0)).toBeCloseTo(1, 9);
  });

  test('is the same whatever order its marks and runners came in', () => {
    const turned = { ...grades, runners: Object.fromEntries(Object.entries(grades.runners).reverse()) };
    expect(valueOf(board(request({ grades: turned, marks: marks.toReversed() })))).toEqual(answer);
  });

  test('has pairwise chances that add up to 1', () => {
    for (const [row, line] of answer.pairwise.entries()) {
      for (const [column, chance] of line.entries()) {
        expect(chance + (answer.pairwise[column]?.[row] ?? 0)).toBeCloseTo(1, 12);
      }
    }
  });

  test('is less sure when the weights are not sure', () => {
    const loose = valueOf(board(request({ concentration: 2 })));
    expect(loose.concentration).toBe(2);
    const spread = (rows: typeof loose.rows) => rows.reduce((sum, row) => sum + row.high - row.low, 0);
    expect(spread(loose.rows)).toBeGreaterThan(spread(answer.rows));
  });

  test('leaves thin runners off unless they are asked for', () => {
    const thin = marks.filter((mark) => mark.runner !== 'runner 02' || mark.carry === 'carry 00');
    const few = gradeClass(
      thin.filter((mark) => mark.runner !== 'runner 02' || mark.game.endsWith('0')),
      rubric,
    );
    const without = valueOf(board(request({ grades: few, marks: thin })));
    expect(without.rows.map((row) => row.runner)).not.toContain('runner 02');
    expect(without.unplaced).toEqual([{ runner: 'runner 02', because: 'Too few marks: thin.' }]);
    const withHim = valueOf(board(request({ grades: few, marks: thin, includeThin: true })));
    expect(withHim.rows.map((row) => row.runner)).toContain('runner 02');
  });

  test('says "not comparable" when evaluators share no carries', () => {
    const apart = marks.map((mark) => ({ ...mark, evaluator: mark.runner < 'runner 04' ? 'x' : 'y' }));
    const answer = board(request({ grades: gradeClass(apart, rubric), marks: apart }));
    expect(answer).toMatchObject({ known: false, because: 'not comparable' });
  });

  test('has reasons for no marks, one runner and no weight', () => {
    expect(board(request({ grades: gradeClass([], rubric), marks: [] }))).toMatchObject({ because: 'no marks' });
    const alone = marks.filter((mark) => mark.runner === 'runner 00');
    expect(board(request({ grades: gradeClass(alone, rubric), marks: alone }))).toMatchObject({
      because: 'fewer than two',
    });
    expect(board(request({ weights: [0, 0, 0] }))).toMatchObject({ because: 'no weight' });
  });
});
