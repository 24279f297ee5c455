/** The class ranked, with how sure each place is. */
import type { LeniencyGroup } from '../agreement/leniency.ts';
import type { ClassGrades } from '../grades/grade-class.ts';
import type { GradeMark } from '../grades/grade-mark.ts';
import { percentileEnds } from '../grades/resample.ts';
import { type Known, known, unknown } from '../known.ts';
import type { Random } from '../random.ts';
import { normaliseWeights } from '../rubric/weights.ts';
import { comparable, comparableGroups } from './comparable-groups.ts';
import { drawWeights } from './dirichlet.ts';
import { pairwiseChances, placesOf, type ScoreDraws, scoreDraws } from './places.ts';
import { type NoSwap, type SwapPoint, swapPoints } from './swap-points.ts';
import { drawTraits } from './trait-draws.ts';

/** One runner's row. Places count from 1; chances are 0 to 1; scores are points of the 1 to 5 scale. */
export type BoardRow = {
  readonly runner: string;
  readonly place: number;
  readonly score: number;
  readonly low: number;
  readonly high: number;
  readonly expectedPlace: number;
  /** Chance of first, second, ... place, and of being the best. */
  readonly places: readonly number[];
  readonly best: number;
  /** Places that hold 90 % of the draws, from the middle out. */
  readonly likelyFrom: number;
  readonly likelyTo: number;
};

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
  const weights = concentration === undefined ? shares.value : drawWeights(shares.value, concentration, draws, random);
  const means = placed.map((runner) => runner.joint.mean);
  const scores = means.map((mean) => mean.reduce((sum, one, at) => sum + one * (shares.value[at] ?? 0), 0));
  const order = placed.map((_, at) => at).sort((a, b) => (scores[b] ?? 0) - (scores[a] ?? 0) || a - b);
  const scored = scoreDraws(drawn, weights);
  const places = placesOf(scored);
  const ends = scoreEnds(scored);
  const size = placed.length;
  const rows = order.map((at, row): BoardRow => {
    const chances = Array.from(places.chance.subarray(at * size, (at + 1) * size));
    return {
      runner: placed[at]?.id ?? '',
      place: row + 1,
      score: scores[at] ?? 0,
      ...(ends[at] ?? { low: 0, high: 0 }),
      expectedPlace: places.expectedPlace[at] ?? 0,
      places: chances,
      best: chances[0] ?? 0,
      ...likelyPlaces(chances, 0.9),
    };
  });
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

function scoreEnds(scores: ScoreDraws) {
  const runners = scores.runners.length;
  const column = new Float64Array(scores.draws);
  return scores.runners.map((_, runner) => {
    for (let draw = 0; draw < scores.draws; draw += 1) column[draw] = scores.values[draw * runners + runner] ?? 0;
    const mean = column.reduce((sum, one) => sum + one, 0) / column.length;
    const sd = Math.sqrt(column.reduce((sum, one) => sum + (one - mean) ** 2, 0) / column.length);
    const ends = percentileEnds(column, 0.95, mean, sd);
    return { low: onScale(ends.low), high: onScale(ends.high) };
  });
}

const onScale = (value: number) => Math.min(5, Math.max(1, value));

/** Cuts places off the rarer end while what is left still holds the share wanted. */
function likelyPlaces(chances: readonly number[], share: number) {
  let from = 0;
  let to = chances.length - 1;
  let held = 1;
  while (from < to) {
    const first = chances[from] ?? 0;
    const last = chances[to] ?? 0;
    const cut = Math.min(first, last);
    if (held - cut < share) break;
    held -= cut;
    if (first < last) from += 1;
    else to -= 1;
  }
  return { likelyFrom: from + 1, likelyTo: to + 1 };
}
