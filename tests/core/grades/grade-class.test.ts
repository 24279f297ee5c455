import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { gradeClass, type GradeOptions, gradeRunner } from '../../../src/core/grades/grade-class.ts';
import type { GradeMark, MarkClearness } from '../../../src/core/grades/grade-mark.ts';
import { gradeHistory } from '../../../src/core/grades/grade-history.ts';
import { assumedPool } from '../../../src/core/grades/pooled.ts';
import { randomFrom } from '../../../src/core/random.ts';
import { defaultRubric } from '../../../src/core/rubric/default-rubric.ts';
import { valueOf } from '../../value-of.ts';
import { plainRubric } from './coverage.ts';
import { drawnClass, world } from './drawn-class.ts';

const rich = drawnClass(randomFrom(41), {
  ...world,
  runners: 12,
  traits: ['press', 'tempo', 'crease', 'penetration'],
  lean: { runner: 0.5, game: 0.3, carry: 0.3 },
  shown: 0.7,
});
const four = plainRubric(['press', 'tempo', 'crease', 'penetration']);
const grades = gradeClass(Object.freeze(rich.marks), four);

function markOf(part: Partial<GradeMark>): GradeMark {
  const plain = { runner: 'r', game: 'g', carry: 'c', evaluator: 'e', trait: 'press', value: 3 };
  return { ...plain, clearness: 'clear', ...part };
}

/** `count` marks of one value, spread over games. */
function same(count: number, games: number, value: number, clearness: MarkClearness, runner = 'r'): GradeMark[] {
  return Array.from({ length: count }, (_, at) =>
    markOf({ runner, game: `g${at % games}`, carry: `c${at}`, value, clearness }),
  );
}

function shuffled<Item>(items: readonly Item[], seed: number): Item[] {
  const random = randomFrom(seed);
  const copy = [...items];
  for (let at = copy.length - 1; at > 0; at -= 1) {
    const to = random.below(at + 1);
    const moved = copy[at];
    const other = copy[to];
    if (moved === undefined || other === undefined) continue;
    copy[at] = other;
    copy[to] = moved;
  }
  return copy;
}

/** A quarter of the marks doubled by a milder evaluator, another quarter given by him alone. */
const shared = (shift: number) =>
  rich.marks.flatMap((mark, at): GradeMark[] => {
    const strict = { ...mark, evaluator: 'strict' };
    const mild = { ...mark, evaluator: 'mild', value: Math.min(5, mark.value + shift) };
    if (at % 4 === 0) return [strict, mild];
    return at % 4 === 1 ? [mild] : [strict];
  });

describe('grades of a class', () => {
  test('are the same to the last bit whatever order marks come in', () => {
    fc.assert(
      fc.property(fc.nat(), (seed) => {
        expect(gradeClass(shuffled(rich.marks, seed), four)).toEqual(grades);
      }),
      { numRuns: 10 },
    );
  });

  test('are so with several evaluators too', () => {
    const both = shared(0.5);
    const answer = gradeClass(both, four);
    fc.assert(
      fc.property(fc.nat(), (seed) => {
        expect(gradeClass(shuffled(both, seed), four)).toEqual(answer);
      }),
      { numRuns: 5 },
    );
  });

  test('come near the runners they were drawn from', () => {
    let apart = 0;
    let raw = 0;
    for (const [runner, truth] of Object.entries(rich.truth)) {
      const own = rich.marks.filter((mark) => mark.runner === runner && mark.trait === 'press');
      const mean = own.reduce((sum, mark) => sum + mark.value, 0) / own.length;
      raw += (mean - (truth[0] ?? 0)) ** 2;
      const trait = grades.runners[runner]?.traits['press'];
      apart += ((trait?.known === true ? trait.value.grade : 0) - (truth[0] ?? 0)) ** 2;
    }
    expect(apart).toBeLessThan(raw);
  });

  test('of one runner against the pooled class are those of the whole class', () => {
    for (const runner of Object.keys(grades.runners)) {
      const own = rich.marks.filter((mark) => mark.runner === runner);
      expect(gradeRunner(own, grades.pooled, four)).toEqual(grades.runners[runner]);
    }
  });

  test('survive being stored as JSON', () => {
    expect(JSON.parse(JSON.stringify(grades))).toEqual(grades);
  });

  test('never fall when a mark rises, the class being what it is', () => {
    fc.assert(
      fc.property(fc.nat(), fc.integer({ min: 1, max: 8 }), (pick, steps) => {
        const chosen = rich.marks[pick % rich.marks.length];
        if (chosen === undefined) return;
        const value = Math.min(5, chosen.value + steps / 2);
        const own = rich.marks.filter((mark) => mark.runner === chosen.runner);
        const before = gradeRunner(own, grades.pooled, four);
        const after = gradeRunner(
          own.map((mark) => (mark === chosen ? { ...mark, value } : mark)),
          grades.pooled,
          four,
        );
        const at = (answer: typeof before) => valueOf(answer.traits[chosen.trait]);
        expect(at(after).grade).toBeGreaterThanOrEqual(at(before).grade);
        expect(valueOf(after.overall).grade).toBeGreaterThanOrEqual(valueOf(before.overall).grade);
        expect(valueOf(after.overall).grade > valueOf(before.overall).grade).toBe(value > chosen.value);
      }),
      { numRuns: 40 },
    );
  });

  test('do not care for the scale of the weights', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.01, max: 100, noNaN: true }), (scale) => {
        const families = four.families.map((family) => ({
          ...family,
          weight: family.weight * scale,
          traits: family.traits.map((trait) => ({ ...trait, weight: trait.weight * scale * 3 })),
        }));
        for (const [runner, one] of Object.entries(gradeClass(rich.marks, { ...four, families }).runners)) {
          const other = grades.runners[runner];
          if (other === undefined) throw new Error('a runner is missing');
          expect(valueOf(one.overall).grade).toBeCloseTo(valueOf(other.overall).grade, 9);
          expect(valueOf(one.overall).sd).toBeCloseTo(valueOf(other.overall).sd, 9);
        }
      }),
      { numRuns: 5 },
    );
  });

  test('have traits that lean together, told from the marks', () => {
    const { together } = gradeClass(
      drawnClass(randomFrom(8), {
        ...world,
        runners: 80,
        fewestGames: 8,
        mostGames: 10,
        traits: ['press', 'tempo', 'crease'],
        lean: { runner: 0.5, game: 0.4, carry: 0.25 },
      }).marks,
      plainRubric(['press', 'tempo', 'crease']),
    ).pooled;
    expect(together.assumed).toBe(false);
    // Rounding to halves and the ends of the scale take a little off what was drawn.
    expect(Math.abs(together.carry - 0.25)).toBeLessThan(0.04);
    expect(Math.abs(together.game - 0.4)).toBeLessThan(0.12);
    expect(Math.abs(together.runner - 0.5)).toBeLessThan(0.12);
  });

  test('recover the spreads they were drawn with', () => {
    const { traits } = gradeClass(
      drawnClass(randomFrom(9), { ...world, runners: 300, fewestGames: 5, mostGames: 10, within: 0.6 }).marks,
      plainRubric(['press']),
    ).pooled;
    // A half's rounding adds 1/48 to the variance of a mark, spread over clearness.
    expect(Math.sqrt(traits['press']?.within ?? 0)).toBeCloseTo(0.6, 1);
    expect(Math.sqrt(traits['press']?.betweenGames ?? 0)).toBeCloseTo(0.3, 1);
    expect(Math.sqrt(traits['press']?.prior.variance ?? 0)).toBeCloseTo(0.4, 1);
    expect(traits['press']?.prior.mean).toBeCloseTo(3, 1);
  });
});

describe('what a mark tells', () => {
  const press = plainRubric(['press']);
  const one = (marks: readonly GradeMark[], options: GradeOptions = {}) => {
    const runner = gradeClass(marks, press, options).runners['r'];
    if (runner === undefined) throw new Error('no runner');
    return valueOf(runner.traits['press']);
  };

  test('depends on clearness: forty obscured marks tell as much as twelve clear ones', () => {
    const obscured = one(same(40, 4, 4, 'obscured'));
    const clear = one(same(12, 4, 4, 'clear'));
    expect(obscured.information).toBeCloseTo(clear.information, 9);
    expect(obscured.grade).toBeCloseTo(clear.grade, 9);
    expect(obscured.sd).toBeCloseTo(clear.sd, 9);
    expect(obscured.effective).toBeCloseTo(40, 9);
  });

  test('is less in one game than over several', () => {
    expect(one(same(12, 1, 4, 'clear')).sd).toBeGreaterThan(one(same(12, 4, 4, 'clear')).sd);
  });

  test('is not doubled by a second evaluator on the same carry', () => {
    const marks = same(12, 4, 4, 'clear');
    const again = marks.map((mark) => ({ ...mark, evaluator: 'second' }));
    const twice = one([...marks, ...again]);
    expect(twice.marks).toBe(24);
    expect(twice.carries).toBe(12);
    expect(twice.information).toBe(12);
  });

  test('pulls a thin runner towards the class and leaves a rich one', () => {
    const thin = one(same(2, 1, 5, 'clear'));
    const much = one(same(200, 12, 5, 'clear'));
    expect(thin.grade).toBeLessThan(much.grade);
    expect(thin.grade).toBeGreaterThan(3);
    expect(thin.thin).toBe(true);
    expect(much.thin).toBe(false);
  });

  test('in a study too small to tell is read against the assumed class, which is said', () => {
    const grade = one(same(3, 3, 4, 'clear'));
    expect(grade.assumed).toEqual([
      'class mean',
      'spread between runners',
      'spread between games',
      'spread within a game',
    ]);
    expect(grade.df).toBe(assumedPool.degrees);
  });

  test('is thin under six clear marks or two games', () => {
    expect(one(same(6, 2, 3, 'clear')).thin).toBe(false);
    expect(one(same(5, 2, 3, 'clear')).thin).toBe(true);
    expect(one(same(19, 2, 3, 'obscured')).thin).toBe(true);
    expect(one(same(60, 1, 3, 'clear')).thin).toBe(true);
  });

  test('gives a chance of a bar that is less the higher the bar', () => {
    const bars = [2, 3, 4].map((value) => ({ key: `at ${value}`, name: 'a bar', value, calibrated: false }));
    const runner = gradeClass(same(12, 3, 3.5, 'clear'), { ...press, bars }).runners['r'];
    const chance = Object.values(valueOf(runner?.traits['press']).chance);
    expect(chance).toHaveLength(3);
    expect([...chance].sort((a, b) => b - a)).toEqual(chance);
  });

  test('that is off the scale, between halves or of unknown clearness is refused', () => {
    expect(() => gradeClass([markOf({ value: 5.5 })], press)).toThrow('a mark wants 1 to 5 in halves, got 5.5');
    expect(() => gradeClass([markOf({ value: 3.25 })], press)).toThrow(RangeError);
    expect(() => gradeClass([markOf({ value: Number.NaN })], press)).toThrow(RangeError);
  });

  test('of a trait that the rubric does not have is set aside and counted', () => {
    const { setAside, runners } = gradeClass([markOf({}), markOf({ trait: 'hops' })], press);
    expect(setAside).toEqual({ hops: 1 });
    expect(Object.keys(runners)).toEqual(['r']);
  });
});

/** The four traits with these weights, 0 where none is given. */
const weights = (...given: number[]) => ({
  ...four,
  families: four.families.map((family) => ({
    ...family,
    traits: family.traits.map((trait, at) => ({ ...trait, weight: given[at] ?? 0 })),
  })),
});

/** Twenty clear marks over four games, a trait. */
const marked = (traits: readonly string[]) =>
  traits.flatMap((trait) => same(20, 4, 4, 'clear').map((mark) => ({ ...mark, trait })));

describe('a family and the whole', () => {
  test('take the class for a trait that was not marked, with its uncertainty', () => {
    const part = gradeClass(marked(['press', 'tempo', 'crease']), weights(1, 1, 1, 1)).runners['r'];
    const all = gradeClass(marked(['press', 'tempo', 'crease', 'penetration']), weights(1, 1, 1, 1)).runners['r'];
    if (part === undefined || all === undefined) throw new Error('no runner');
    const some = valueOf(part.overall);
    const whole = valueOf(all.overall);
    expect(some.coverage).toBeCloseTo(0.75, 12);
    expect(whole.coverage).toBe(1);
    expect(some.grade).toBeCloseTo(0.75 * whole.grade + 0.25 * assumedPool.prior.mean, 9);
    expect(some.sd).toBeGreaterThan(whole.sd);
    expect(some.assumed).toContain('penetration as the class');
  });

  test('are unknown under six tenths of the weight, and known from there on', () => {
    const under = gradeClass(marked(['press']), weights(0.59, 0.41)).runners['r']?.overall;
    expect(under).toMatchObject({ known: false, because: 'too little covered' });
    expect(gradeClass(marked(['press']), weights(0.6, 0.4)).runners['r']?.overall.known).toBe(true);
    expect(gradeClass(marked(['press']), weights(0, 0)).runners['r']?.overall).toMatchObject({ because: 'no weight' });
  });

  test('count a carry once, however many traits were marked on it', () => {
    const marks = defaultRubric.families
      .flatMap((family) => family.traits.map((trait) => trait.key))
      .flatMap((trait) => same(4, 2, 4, 'clear').map((mark) => ({ ...mark, trait })));
    const whole = valueOf(gradeClass(marks, defaultRubric).runners['r']?.overall);
    expect(whole.marks).toBe(48);
    expect(whole.carries).toBe(4);
    expect(whole.information).toBe(4);
    expect(whole.thin).toBe(true);
  });

  test('have reasons for a runner without a mark', () => {
    const runner = gradeClass(marked(['press']), four, { runners: ['nobody'] }).runners['nobody'];
    expect(runner?.overall).toMatchObject({ known: false, because: 'no marks' });
    expect(runner?.traits['press']).toMatchObject({ known: false, because: 'no marks' });
    expect(runner?.joint.mean).toEqual([3, 3, 3, 3]);
  });

  test('rest on a joint posterior whose diagonal is that of the traits', () => {
    for (const runner of Object.values(grades.runners)) {
      for (const [at, trait] of runner.joint.traits.entries()) {
        const grade = valueOf(runner.traits[trait]);
        expect(Math.sqrt(runner.joint.covariance[at]?.[at] ?? 0)).toBeCloseTo(grade.sd, 12);
      }
      const mean = runner.joint.mean.reduce((sum, one) => sum + one, 0) / 4;
      expect(valueOf(runner.overall).grade).toBeCloseTo(mean, 9);
    }
  });
});

describe('leniency', () => {
  test('is found on shared carries and taken out of everyone', () => {
    const { pooled } = gradeClass(shared(0.5), four);
    const [group] = pooled.leniency;
    expect(group?.evaluators).toEqual(['mild', 'strict']);
    // The end of the scale swallows a little of it.
    expect((group?.shift[0] ?? 0) - (group?.shift[1] ?? 0)).toBeGreaterThan(0.4);
  });

  test('leaves grades nearly as one evaluator alone would have them', () => {
    const mixed = gradeClass(shared(0.5), four).runners;
    const gaps = Object.entries(grades.runners).map(
      ([runner, alone]) => valueOf(mixed[runner]?.overall).grade - valueOf(alone.overall).grade,
    );
    // Everyone moves by the same share of the shift; what is left is how unevenly the milder one marked them.
    const middle = gaps.reduce((sum, gap) => sum + gap, 0) / gaps.length;
    for (const gap of gaps) expect(Math.abs(gap - middle)).toBeLessThan(0.08);
  });

  test('is left alone where evaluators share nothing', () => {
    const apart = rich.marks.map((mark) => ({ ...mark, evaluator: mark.runner < 'runner 06' ? 'one' : 'two' }));
    const { pooled } = gradeClass(apart, four);
    expect(pooled.leniency.map((group) => group.evaluators)).toEqual([['one'], ['two']]);
    expect(pooled.leniency.every((group) => group.shift.every((shift) => shift === 0))).toBe(true);
  });
});

describe('the history of a runner', () => {
  const runner = 'runner 03';
  const own = rich.marks.filter((mark) => mark.runner === runner);
  const games = [...new Set(own.map((mark) => mark.game))].reverse();

  test('has a point a game in the order given, and ends with his grade', () => {
    const history = gradeHistory(own, games, grades.pooled, four);
    expect(history.map((point) => point.game)).toEqual(games);
    const last = history.at(-1);
    const now = grades.runners[runner];
    expect(valueOf(last?.overall).grade).toBeCloseTo(valueOf(now?.overall).grade, 9);
    expect(valueOf(last?.overall).sd).toBeCloseTo(valueOf(now?.overall).sd, 9);
    expect(valueOf(last?.overall).marks).toBe(own.length);
  });

  test('is wider while there is less film', () => {
    const widths = gradeHistory(own, games, grades.pooled, four).map((point) =>
      point.overall.known ? point.overall.value.sd : Infinity,
    );
    expect(widths.at(-1) ?? 1).toBeLessThan(widths[0] ?? 0);
  });

  test('refuses a game that the order does not name', () => {
    expect(() => gradeHistory(own, games.slice(1), grades.pooled, four)).toThrow('is not in it');
    expect(gradeHistory([], [], grades.pooled, four)).toEqual([]);
  });
});
