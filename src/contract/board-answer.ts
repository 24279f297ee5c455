/** A board answered from fixed draws: the same for the host, which keeps it, and the page, whose sliders ask it again. */
import { comparable, comparableGroups } from '../core/board/comparable-groups.ts';
import { drawWeights } from '../core/board/dirichlet.ts';
import { drawsOf } from '../core/board/draws-of.ts';
import { pairwiseChances, type ScoreDraws, scoreDraws } from '../core/board/places.ts';
import { scoreEnds, type Standing, standings } from '../core/board/standings.ts';
import { swapPoints } from '../core/board/swap-points.ts';
import { drawTraits, type TraitDraws } from '../core/board/trait-draws.ts';
import { gradeRules } from '../core/grades/grade.ts';
import { known, mapKnown, unknown, type Known } from '../core/known.ts';
import { randomFrom, type Random } from '../core/random.ts';
import { normaliseWeights, traitWeights, type TraitWeight } from '../core/rubric/weights.ts';
import type { BoardAnswer, BoardChoice, BoardRanked, BoardRunner, BoardView, WeightSwap } from './comparison-views.ts';
import type { RubricBody } from './rows.ts';

/** Why nobody is ranked. */
export type NoRanking = 'not comparable' | 'no marks' | 'no weight' | 'fewer than two';

/** Who has a place under a choice, in order of id, and who has none and why. */
export type BoardField = {
  readonly placed: readonly BoardRunner[];
  readonly apart: BoardRanked['apart'];
  readonly filtered: number;
};

const chosen = (weights: Readonly<Record<string, number>>, key: string, own: number): number =>
  Object.hasOwn(weights, key) ? (weights[key] ?? own) : own;

/** The rubric with the choice's weights in place of its own; a key the rubric has no longer is passed over. */
export function weighedRubric(rubric: RubricBody, choice: Pick<BoardChoice, 'families' | 'traits'>): RubricBody {
  return {
    ...rubric,
    families: rubric.families.map((family) => ({
      ...family,
      weight: chosen(choice.families, family.key, family.weight),
      traits: family.traits.map((trait) => ({ ...trait, weight: chosen(choice.traits, trait.key, trait.weight) })),
    })),
  };
}

/** Sorts a class into those who are ranked, those who stand apart (with a sentence why) and those the filter leaves out. */
export function boardField(view: BoardView, choice: BoardChoice): BoardField {
  const placed: BoardRunner[] = [];
  const apart: { runner: string; because: string }[] = [];
  let filtered = 0;
  for (const runner of view.runners.toSorted((a, b) => (a.id < b.id ? -1 : 1))) {
    const fits =
      (choice.position === null || runner.position === choice.position) &&
      (choice.classYear === null || runner.classYear === choice.classYear) &&
      runner.carries >= choice.atLeast;
    if (!fits) filtered += 1;
    else if (!runner.overall.known) apart.push({ runner: runner.id, because: runner.overall.detail });
    else if (runner.overall.value.thin && !choice.includeThin)
      apart.push({ runner: runner.id, because: thinInWords(runner.overall.value) });
    else placed.push(runner);
  }
  return { placed, apart, filtered };
}

function thinInWords({ information, games }: { readonly information: number; readonly games: number }): string {
  const { thinInformation, thinGames } = gradeRules;
  return (
    `Thin: his marks tell as much as ${information.toFixed(1)} clear ones, from ${games} ${games === 1 ? 'game' : 'games'}; ` +
    `${thinInformation} clear ones from ${thinGames} games are wanted.`
  );
}

/** Each trait's share under the choice; the reason when the field cannot be ranked: too few, not comparable, no weight. */
export function boardShares(
  view: BoardView,
  choice: BoardChoice,
  { placed, apart }: BoardField,
): Known<readonly TraitWeight[], NoRanking> {
  const marks = placed.flatMap(({ id, evaluators }) => evaluators.map((evaluator) => ({ runner: id, evaluator })));
  const group = comparable(comparableGroups(marks, view.leniency));
  if (!group.known && group.because === 'not comparable') {
    // Core knows evaluators by their ids; a person by their names.
    const detail = view.evaluators.reduce((words, { id, name }) => words.replaceAll(id, name), group.detail);
    return unknown('not comparable', detail);
  }
  if (placed.length === 0 && apart.length === 0) return unknown('no marks', 'No runner is left to rank.');
  if (placed.length < 2) {
    return unknown('fewer than two', `An order needs two runners with enough marks; here ${placed.length} has them.`);
  }
  const shares = traitWeights(weighedRubric(view.rubric.body, choice));
  if (!shares.known) return shares;
  const overall = normaliseWeights(shares.value.map((share) => share.overall));
  if (!overall.known) return overall;
  return known(shares.value.map((share, at) => ({ ...share, overall: overall.value[at] ?? 0 })));
}

/** Draws every runner that can be ranked, thin or not; asked in parts of an even number, the parts join to the whole. */
export function boardDraws(view: BoardView, draws: number, random: Random): TraitDraws {
  const runners = view.runners
    .filter(({ overall }) => overall.known)
    .toSorted((a, b) => (a.id < b.id ? -1 : 1))
    .map(({ id, joint }) => ({ id, joint }));
  return drawTraits(runners, draws, random);
}

/** Scores of the placed runners under the choice; weights that are not exact are drawn from a seed of their own. */
export function boardScores(
  draws: TraitDraws,
  shares: readonly TraitWeight[],
  { concentration }: BoardChoice,
  seed: number,
): ScoreDraws {
  const weights = shares.map(({ overall }) => overall);
  if (concentration === null) return scoreDraws(draws, weights);
  return scoreDraws(draws, drawWeights(weights, concentration, draws.draws, randomFrom(seed + 1)));
}

const meansOf = (placed: readonly BoardRunner[]) => placed.map(({ joint }) => joint.mean);

/** The part of the answer a moving slider needs at once. */
export function boardStandings(
  placed: readonly BoardRunner[],
  scored: ScoreDraws,
  shares: readonly TraitWeight[],
): readonly Standing[] {
  return standings(
    scored,
    meansOf(placed),
    shares.map(({ overall }) => overall),
  );
}

/** The rest: ends of scores, pairwise chances, and for each family's and trait's weight the value that swaps the top. */
export function boardRest(
  rubric: RubricBody,
  placed: readonly BoardRunner[],
  scored: ScoreDraws,
  shares: readonly TraitWeight[],
  order: readonly Standing[],
): BoardAnswer {
  const ends = scoreEnds(scored);
  const pairs = pairwiseChances(scored);
  const at = new Map(placed.map(({ id }, index) => [id, index]));
  const rows = order.map((row) => {
    const { low, high } = ends.get(row.runner) ?? { low: row.score, high: row.score };
    return { ...row, places: [...row.places], low, high };
  });
  const indices = rows.map(({ runner }) => at.get(runner) ?? 0);
  return {
    rows,
    pairwise: indices.map((row) => indices.map((column) => pairs[row]?.[column] ?? 0.5)),
    ...swapsOf(rubric, placed, shares),
  };
}

const familyMean = (mean: readonly number[], own: readonly { readonly inFamily: number; readonly at: number }[]) =>
  own.reduce((sum, { inFamily, at }) => sum + inFamily * (mean[at] ?? 0), 0);

/**
 * Swap points on the axes a person moves: a family's share of the whole, and a trait's share of its family, the others of
 * the group keeping their proportions. Each is core's exact swap of a class whose columns are that group's.
 */
function swapsOf(
  rubric: RubricBody,
  placed: readonly BoardRunner[],
  shares: readonly TraitWeight[],
): Pick<BoardAnswer, 'families' | 'traits'> {
  const means = meansOf(placed);
  const families = rubric.families.map((family) => {
    const own = shares.flatMap((share, at) => (share.family === family.key ? [{ ...share, at }] : []));
    return { key: family.key, own, weight: own.reduce((sum, { overall }) => sum + overall, 0) };
  });
  const found = (keys: readonly string[], table: readonly (readonly number[])[], weights: readonly number[]) => {
    const normal = normaliseWeights(weights);
    const swaps = swapPoints(table, weights);
    return keys.map((key, index): WeightSwap => {
      const swap = swaps[index] ?? unknown('never', 'No such weight.');
      return {
        key,
        share: normal.known ? (normal.value[index] ?? 0) : 0,
        swap: mapKnown(swap, ({ first, challenger, from, to, change }) => ({
          first: placed[first]?.id ?? '',
          challenger: placed[challenger]?.id ?? '',
          from,
          to,
          change,
        })),
      };
    });
  };
  return {
    families: found(
      families.map(({ key }) => key),
      means.map((mean) => families.map(({ own }) => familyMean(mean, own))),
      families.map(({ weight }) => weight),
    ),
    traits: families.flatMap(({ own, weight }) =>
      found(
        own.map(({ trait }) => trait),
        means.map((mean) => {
          const rest = shares.reduce((sum, { overall }, at) => sum + overall * (mean[at] ?? 0), 0);
          const elsewhere = rest - weight * familyMean(mean, own);
          return own.map(({ at }) => weight * (mean[at] ?? 0) + elsewhere);
        }),
        own.map(({ inFamily }) => inFamily),
      ),
    ),
  };
}

/** The whole board at once, drawing anew: what the door gives for a choice. The same seed gives the same board. */
export function rankBoard(view: BoardView, choice: BoardChoice): BoardRanked {
  const field = boardField(view, choice);
  const { apart, filtered } = field;
  const shares = boardShares(view, choice, field);
  if (!shares.known) return { answer: shares, apart, filtered };
  const all = boardDraws(view, view.draws, randomFrom(view.seed));
  const draws = drawsOf(
    all,
    field.placed.map(({ id }) => id),
  );
  const scored = boardScores(draws, shares.value, choice, view.seed);
  const order = boardStandings(field.placed, scored, shares.value);
  return {
    answer: known(boardRest(view.rubric.body, field.placed, scored, shares.value, order)),
    apart,
    filtered,
  };
}
