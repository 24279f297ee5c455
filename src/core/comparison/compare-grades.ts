/** Two runners' grades side by side: how far apart, how sure, and the chance that one is above the other. */
import { type Known, known, unknown } from '../known.ts';
import { chanceAtLeast, type Grade, tReach } from '../grades/grade.ts';
import type { NoCoveredGrade, NoTraitGrade, RunnerGrades } from '../grades/grade-class.ts';

/** First less second, in points of the 1 to 5 scale. */
export type GradeDifference = {
  readonly difference: number;
  readonly low: number;
  readonly high: number;
  /** Scale of the difference's t posterior and its degrees of freedom. */
  readonly sd: number;
  readonly df: number;
  /** Chance that the first runner is above the second, 0 to 1. */
  readonly chance: number;
  /** Either grade is thin. */
  readonly thin: boolean;
};

/** Differences by trait key and family key, and of the whole. */
export type RunnerDifference = {
  readonly traits: Readonly<Record<string, Known<GradeDifference, NoTraitGrade>>>;
  readonly families: Readonly<Record<string, Known<GradeDifference, NoCoveredGrade>>>;
  readonly overall: Known<GradeDifference, NoCoveredGrade>;
};

/**
 * Differences of everything two runners of one class are graded on, first less second, with intervals of the given
 * confidence. A part that either has no grade for keeps that grade's reason. Throws RangeError on a confidence outside
 * 0 to 1. Source of the degrees of freedom: Welch 1947, Biometrika 34:28-35.
 */
export function compareGrades(first: RunnerGrades, second: RunnerGrades, confidence = 0.95): RunnerDifference {
  const reach = tReach(confidence);
  return {
    traits: differences(first.traits, second.traits, reach),
    families: differences(first.families, second.families, reach),
    overall: difference(first.overall, second.overall, reach),
  };
}

/**
 * Difference of two independent t posteriors: scale sqrt(s1^2 + s2^2), degrees of freedom after Welch, and the chance
 * that the first is above. Two scales of 0 give an exact difference with chance 0, .5 or 1.
 */
export function differenceOf(
  first: Pick<Grade, 'grade' | 'sd' | 'df' | 'thin'>,
  second: Pick<Grade, 'grade' | 'sd' | 'df' | 'thin'>,
  reach: (df: number) => number = tReach(0.95),
): GradeDifference {
  const gap = first.grade - second.grade;
  const sd = Math.hypot(first.sd, second.sd);
  const thin = first.thin || second.thin;
  if (sd === 0) {
    const chance = gap === 0 ? 0.5 : gap > 0 ? 1 : 0;
    return { difference: gap, low: gap, high: gap, sd, df: Math.min(first.df, second.df), chance, thin };
  }
  const one = (first.sd / sd) ** 2;
  const other = (second.sd / sd) ** 2;
  const df = 1 / ((one * one) / first.df + (other * other) / second.df);
  const width = reach(df) * sd;
  return { difference: gap, low: gap - width, high: gap + width, sd, df, chance: chanceAtLeast(0, gap, sd, df), thin };
}

function difference<Because extends string>(
  first: Known<Grade, Because>,
  second: Known<Grade, Because>,
  reach: (df: number) => number,
): Known<GradeDifference, Because> {
  if (!first.known) return first;
  if (!second.known) return second;
  return known(differenceOf(first.value, second.value, reach));
}

function differences<Because extends string>(
  first: Readonly<Record<string, Known<Grade, Because>>>,
  second: Readonly<Record<string, Known<Grade, Because>>>,
  reach: (df: number) => number,
): Readonly<Record<string, Known<GradeDifference, Because | 'no marks'>>> {
  return Object.fromEntries(
    Object.entries(first).map(([key, grade]) => {
      const other: Known<Grade, Because | 'no marks'> = second[key] ?? unknown('no marks', `${key} is not graded.`);
      return [key, difference<Because | 'no marks'>(grade, other, reach)];
    }),
  );
}
