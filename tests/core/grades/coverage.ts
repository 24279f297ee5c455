/** How often 95 % intervals hold the truth, over drawn worlds: counted by the short test and by the long run. */
import { intraclass } from '../../../src/core/agreement/intraclass-correlation.ts';
import { gradeClass } from '../../../src/core/grades/grade-class.ts';
import type { Random } from '../../../src/core/random.ts';
import type { Rubric } from '../../../src/core/rubric/rubric.ts';
import { drawnClass, type World } from './drawn-class.ts';

/** Intervals asked for, and those that held the truth. */
export type Coverage = { readonly held: number; readonly asked: number };

/** A rubric with equal weights for the traits of a drawn world. */
export function plainRubric(traits: readonly string[]): Rubric {
  return {
    families: [
      {
        key: 'all',
        name: 'All',
        weight: 1,
        traits: traits.map((key, at) => ({
          key,
          name: key,
          letter: 'abcdefghijklmnop'[at] ?? 'z',
          weight: 1,
          anchors: ['one', 'two', 'three', 'four', 'five'],
        })),
      },
    ],
    bars: [{ key: 'bar', name: 'A bar', value: 3.4, calibrated: false }],
  };
}

/** Trait grades of every runner over drawn classes, and the overall grades of the same runners. */
export function gradeCoverage(worlds: number, random: Random, drawn: World) {
  const rubric = plainRubric(drawn.traits);
  const trait = { held: 0, asked: 0 };
  const overall = { held: 0, asked: 0 };
  for (let made = 0; made < worlds; made += 1) {
    const { marks, truth } = drawnClass(random, drawn);
    const { runners } = gradeClass(marks, rubric);
    for (const [runner, values] of Object.entries(truth)) {
      const grades = runners[runner];
      for (const [at, key] of drawn.traits.entries()) {
        const grade = grades?.traits[key];
        if (grade?.known === true) count(trait, grade.value.low, grade.value.high, values[at] ?? NaN);
      }
      if (grades?.overall.known !== true) continue;
      const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
      count(overall, grades.overall.value.low, grades.overall.value.high, mean);
    }
  }
  return { trait, overall };
}

/** ICC(1,1), (2,1) and (3,1) of targets by judges with the given standard deviations. */
export function intraclassCoverage(worlds: number, random: Random, targets: number, judges: number) {
  const target = 0.6;
  const judge = 0.3;
  const error = 0.5;
  const oneWayTruth = target ** 2 / (target ** 2 + judge ** 2 + error ** 2);
  const consistencyTruth = target ** 2 / (target ** 2 + error ** 2);
  const held = { oneWay: 0, agreement: 0, consistency: 0 };
  for (let made = 0; made < worlds; made += 1) {
    const strict = Array.from({ length: judges }, () => judge * random.normal());
    const crossed: number[][] = [];
    const nested: number[][] = [];
    for (let at = 0; at < targets; at += 1) {
      const own = target * random.normal();
      crossed.push(strict.map((shift) => own + shift + error * random.normal()));
      nested.push(strict.map(() => own + judge * random.normal() + error * random.normal()));
    }
    const holds = (answer: ReturnType<typeof intraclass>, form: keyof typeof held, truth: number) => {
      if (!answer.known) throw new Error(answer.detail);
      const single = answer.value[form].single;
      if (!single.known) throw new Error(single.detail);
      if (single.value.low <= truth && truth <= single.value.high) held[form] += 1;
    };
    holds(intraclass(nested), 'oneWay', oneWayTruth);
    holds(intraclass(crossed), 'agreement', oneWayTruth);
    holds(intraclass(crossed), 'consistency', consistencyTruth);
  }
  return {
    oneWay: { held: held.oneWay, asked: worlds },
    agreement: { held: held.agreement, asked: worlds },
    consistency: { held: held.consistency, asked: worlds },
  };
}

/** Share of intervals that held the truth. */
export const shareHeld = (coverage: Coverage): number => coverage.held / coverage.asked;

function count(into: { held: number; asked: number }, low: number, high: number, value: number): void {
  into.asked += 1;
  if (low <= value && value <= high) into.held += 1;
}
