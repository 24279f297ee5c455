/** Classes drawn from a known truth, for coverage and recovery: normal runners, games and marks, rounded to halves. */
import type { GradeMark } from '../../../src/core/grades/grade-mark.ts';
import { clearnessWeight } from '../../../src/core/grades/grade-mark.ts';
import type { Random } from '../../../src/core/random.ts';

/** Standard deviations in points; `lean` is the correlation between traits at each level. */
export type World = {
  readonly runners: number;
  readonly fewestGames: number;
  readonly mostGames: number;
  readonly traits: readonly string[];
  readonly betweenRunners: number;
  readonly betweenGames: number;
  readonly within: number;
  readonly lean: { readonly runner: number; readonly game: number; readonly carry: number };
  /** Chance that a trait shows on a carry. */
  readonly shown: number;
  /** Middle of the class, and the law of a runner around it (variance 1); normal where the model's assumption holds. */
  readonly centre: number;
  readonly law: 'normal' | 'two groups' | 'long tails';
};

/** A class of twenty with two to ten games of six to twelve carries each; few marks meet the ends of the scale. */
export const world: World = {
  runners: 20,
  fewestGames: 2,
  mostGames: 10,
  traits: ['press'],
  betweenRunners: 0.4,
  betweenGames: 0.3,
  within: 0.6,
  lean: { runner: 0, game: 0, carry: 0 },
  shown: 1,
  centre: 3,
  law: 'normal',
};

/** Marks of one drawn class, and each runner's true value of each trait. */
export function drawnClass(random: Random, drawn: World = world) {
  const marks: GradeMark[] = [];
  const truth: Record<string, readonly number[]> = {};
  const together = (sd: number, lean: number, one: () => number = random.normal) => {
    const common = one();
    return drawn.traits.map(() => sd * (Math.sqrt(lean) * common + Math.sqrt(1 - lean) * one()));
  };
  const runnerLaw = lawOf(random, drawn.law);
  for (let runner = 0; runner < drawn.runners; runner += 1) {
    const name = `runner ${String(runner).padStart(2, '0')}`;
    const own = together(drawn.betweenRunners, drawn.lean.runner, runnerLaw).map((gap) => drawn.centre + gap);
    truth[name] = own;
    const games = drawn.fewestGames + random.below(drawn.mostGames - drawn.fewestGames + 1);
    for (let game = 0; game < games; game += 1) {
      const day = together(drawn.betweenGames, drawn.lean.game);
      const carries = 6 + random.below(7);
      for (let carry = 0; carry < carries; carry += 1) {
        const play = together(drawn.within, drawn.lean.carry);
        for (const [at, trait] of drawn.traits.entries()) {
          if (drawn.shown < 1 && random.uniform() >= drawn.shown) continue;
          const view = random.uniform();
          const clearness = view < 0.6 ? 'clear' : view < 0.9 ? 'partial' : 'obscured';
          const seen = (own[at] ?? 0) + (day[at] ?? 0) + (play[at] ?? 0) / Math.sqrt(clearnessWeight[clearness]);
          const value = Math.min(5, Math.max(1, Math.round(2 * seen) / 2));
          marks.push({
            runner: name,
            game: `${name} game ${game}`,
            carry: `carry ${String(carry).padStart(2, '0')}`,
            evaluator: 'one',
            trait,
            value,
            clearness,
          });
        }
      }
    }
  }
  return { marks, truth };
}

function lawOf(random: Random, law: World['law']): () => number {
  const laws: Readonly<Record<World['law'], () => number>> = {
    normal: random.normal,
    'two groups': () => (random.uniform() < 0.5 ? -0.95 : 0.95) + Math.sqrt(1 - 0.95 ** 2) * random.normal(),
    // Student's t with three degrees of freedom, scaled to variance 1.
    'long tails': () => random.normal() / Math.sqrt(random.gamma(1.5) / 1.5) / Math.sqrt(3),
  };
  return laws[law];
}
