/** A grade: what a runner's marks add up to, with everything that has to be shown beside it. */
import tCdf from '@stdlib/stats-base-dists-t-cdf';
import tQuantile from '@stdlib/stats-base-dists-t-quantile';
import type { RubricBar } from '../rubric/rubric.ts';

/** Grades and their ends are points of the 1 to 5 scale. */
export type Grade = {
  /** Posterior mean, and the ends of the interval, kept within 1 and 5. */
  readonly grade: number;
  readonly low: number;
  readonly high: number;
  /** Scale of the t posterior, and its degrees of freedom. */
  readonly sd: number;
  readonly df: number;
  /** Sum of clearness weights, in clear marks, and Kish's effective number of marks. */
  readonly information: number;
  readonly effective: number;
  /** Marks given (repeats and second evaluators included), carries and games with one. */
  readonly marks: number;
  readonly carries: number;
  readonly games: number;
  /** Information under 6 or fewer than 2 games: shown, marked thin, no place on the board by default. */
  readonly thin: boolean;
  /** Chance that the runner is at or above each bar, by the bar's key, 0 to 1. */
  readonly chance: Readonly<Record<string, number>>;
  /** What was assumed rather than told by the study, in words. */
  readonly assumed: readonly string[];
};

/** A family's or the overall grade: also how much of its weight was marked, 0 to 1. */
export type CoveredGrade = Grade & { readonly coverage: number };

/** What the evaluator may set; all have defaults. */
export type GradeRules = {
  /** Coverage of the interval, above 0 and below 1. */
  readonly confidence: number;
  /** Information and games under which a grade is thin. */
  readonly thinInformation: number;
  readonly thinGames: number;
  /** Share of the weight that has to be marked before a family or the overall grade is given. */
  readonly coverageNeeded: number;
};

/** 95 % intervals; thin under 6 clear marks or 2 games; families and overall from 60 % of the weight. */
export const gradeRules: GradeRules = { confidence: 0.95, thinInformation: 6, thinGames: 2, coverageNeeded: 0.6 };

/** Kish's effective number of marks, (sum w)^2 / sum w^2; 0 for no mark. Source: Kish 1965, Survey Sampling (memory). */
export function effectiveMarks(information: number, informationSquares: number): number {
  return informationSquares > 0 ? (information * information) / informationSquares : 0;
}

/**
 * Chance that a t posterior (mean, scale sd from 0, degrees of freedom above 0) is at or above a bar; with sd 0 it is 0
 * or 1. Always 0 to 1.
 */
export function chanceAtLeast(bar: number, mean: number, sd: number, df: number): number {
  if (sd === 0) return mean >= bar ? 1 : 0;
  return Math.min(1, Math.max(0, tCdf((mean - bar) / sd, df)));
}

/** Two-sided t quantiles for one confidence, remembered by degrees of freedom (a class asks for few of them). */
export function tReach(confidence: number): (df: number) => number {
  if (!(confidence > 0 && confidence < 1)) throw new RangeError(`a confidence wants 0 to 1, got ${confidence}`);
  const remembered = new Map<number, number>();
  return (df) => {
    let reach = remembered.get(df);
    if (reach === undefined) remembered.set(df, (reach = tQuantile(0.5 + confidence / 2, df)));
    return reach;
  };
}

/** What stands behind a grade apart from its posterior. */
export type Evidence = Pick<Grade, 'information' | 'effective' | 'marks' | 'carries' | 'games' | 'assumed'>;

/** Puts a grade together from its t posterior (mean, scale from 0, degrees above 0) and its evidence. */
export function gradeFrom(
  posterior: { readonly mean: number; readonly sd: number; readonly df: number },
  evidence: Evidence,
  bars: readonly RubricBar[],
  rules: GradeRules,
  reach: (df: number) => number,
): Grade {
  const { mean, sd, df } = posterior;
  const width = reach(df) * sd;
  return {
    grade: onScale(mean),
    low: onScale(mean - width),
    high: onScale(mean + width),
    sd,
    df,
    ...evidence,
    thin: evidence.information < rules.thinInformation || evidence.games < rules.thinGames,
    chance: Object.fromEntries(bars.map((bar) => [bar.key, chanceAtLeast(bar.value, mean, sd, df)])),
  };
}

const onScale = (value: number) => Math.min(5, Math.max(1, value));
