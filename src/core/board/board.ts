/** The class ranked, with how sure each place is. */
import type { LeniencyGroup } from '../agreement/leniency.ts';
import type { ClassGrades } from '../grades/grade-class.ts';
import type { GradeMark } from '../grades/grade-mark.ts';
import { type Known, known, unknown } from '../known.ts';
import type { Random } from '../random.ts';
import { normaliseWeights } from '../rubric/weights.ts';
import { comparable, comparableGroups } from './comparable-groups.ts';
import { drawWeights } from './dirichlet.ts';
import { pairwiseChances, scoreDraws } from './places.ts';
import { scoreEnds, type Standing, standings } from './standings.ts';
import { type NoSwap, type SwapPoint, swapPoints } from './swap-points.ts';
import { drawTraits } from './trait-draws.ts';

/** One runner's row: his standing, and the ends of his score's 95 % interval. */
export type BoardRow = Standing & { readonly low: number; readonly high: number };

/** The ranked class. */
export type Board = {
  /** Best first. */
  readonly rows: readonly BoardRow[];
  /** Chance that the runner of a row is above the runner of a column, in the order of `rows`. */
  readonly pairwise: readonly (readonly number[])[];
  /** One a trait of the rubric: the smallest change of its weight alone that swaps the top place; runners by row. */
  readonly swaps: readonly { readonly trait: string; readonly swap: Known<SwapPoint, NoSwap> }[];
  /** Runners left off: thin, or without an overall grade, with the reason in words. */
  readonly unplaced: readonly { readonly runner: string; readonly because: string }[];
  readonly draws: number;
  /** Of the weights' Dirichlet; null: the weights are taken as exact. */
  readonly concentration: number | null;
};

/** Why there is no board. */
export type NoBoard = 'not comparable' | 'no marks' | 'no weight' | 'fewer than two';

/** What a board is made of. `weights` are by trait in the rubric's order, each 0 or more, any unit. */
export type BoardRequest = {
  readonly grades: ClassGrades;
  readonly marks: readonly Pick<GradeMark, 'runner' | 'evaluator'>[];
  readonly weights: readonly number[];
  readonly draws: number;
  readonly random: Random;
  /** How firmly the weights are held, 1 or more; left out: exactly. */
  readonly concentration?: number;
  /** What the weights are drawn with; left out: `random` goes on. */
  readonly weightRandom?: Random;
  readonly includeThin?: boolean;
};

/** The runners that have a place, in order of id, and those that have none. */
export function boardRunners(grades: ClassGrades, includeThin = false) {
  const placed: { id: string; joint: ClassGrades['runners'][string]['joint'] }[] = [];
  const unplaced: { runner: string; because: string }[] = [];
  for (const [id, runner] of Object.entries(grades.runners).sort(([a], [b]) => (a < b ? -1 : 1))) {
    if (!runner.overall.known) unplaced.push({ runner: id, because: runner.overall.detail });
    else if (runner.overall.value.thin && !includeThin) unplaced.push({ runner: id, because: 'Too few marks: thin.' });
    else placed.push({ id, joint: runner.joint });
  }
  return { placed, unplaced };
}

/**
 * Ranks a class by posterior mean of its weighted traits, with the chance of each place over joint draws (and draws of
 * the weights where a concentration is given), pairwise chances and exact swap points. Reasons: 'no marks', 'not
 * comparable' (evaluators who share no carries marked different runners), 'no weight', 'fewer than two' runners to place.
 * Throws RangeError on a weight, draw count or concentration out of range, or weights that do not fit the traits.
 */
export function board(request: BoardRequest): Known<Board, NoBoard> {
  const { grades, draws, random, concentration } = request;
  const { placed, unplaced } = boardRunners(grades, request.includeThin);
  const ids = new Set(placed.map((runner) => runner.id));
  const leniency: readonly LeniencyGroup[] = grades.pooled.leniency;
  const group = comparable(
    comparableGroups(
      request.marks.filter((mark) => ids.has(mark.runner)),
      leniency,
    ),
  );
  if (!group.known && (group.because === 'not comparable' || placed.length === 0)) return group;
  if (placed.length < 2) return unknown('fewer than two', `A board needs two runners to place, got ${placed.length}.`);
  const shares = normaliseWeights(request.weights);
  if (!shares.known) return shares;
  const drawn = drawTraits(placed, draws, random);
  const weights =
    concentration === undefined
      ? shares.value
      : drawWeights(shares.value, concentration, draws, request.weightRandom ?? random);
  const means = placed.map((runner) => runner.joint.mean);
  const scored = scoreDraws(drawn, weights);
  const ends = scoreEnds(scored);
  const rows = standings(scored, means, shares.value).map((row): BoardRow => ({
    ...row,
    ...(ends.get(row.runner) ?? { low: row.score, high: row.score }),
  }));
  const order = rows.map((row) => scored.runners.indexOf(row.runner));
  const pairs = pairwiseChances(scored);
  const traits = placed[0]?.joint.traits ?? [];
  const swaps = swapPoints(
    order.map((at) => means[at] ?? []),
    shares.value,
  );
  return known({
    rows,
    pairwise: order.map((row) => order.map((column) => pairs[row]?.[column] ?? 0.5)),
    swaps: traits.map((trait, at) => ({ trait, swap: swaps[at] ?? unknown('never', 'No such weight.') })),
    unplaced,
    draws,
    concentration: concentration ?? null,
  });
}
