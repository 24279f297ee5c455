/** How far evaluators agree with themselves and with each other, from the study's marks by core's measures. */
import { situationInWords } from '../../contract/play-in-words.ts';
import {
  mostDifferences,
  type AgreementFigure,
  type AgreementView,
  type EvaluatorHabits,
  type LookComparison,
  type LookDifference,
} from '../../contract/second-look-views.ts';
import type { Clearness } from '../../contract/words.ts';
import { drift, type DriftEstimate } from '../../core/agreement/drift.ts';
import { halfMarkShares } from '../../core/agreement/half-marks.ts';
import { alphaSpread, krippendorffAlpha, type Ratings } from '../../core/agreement/krippendorff-alpha.ts';
import { leniency, sharedNeeded } from '../../core/agreement/leniency.ts';
import { markPairs, ratingsOf } from '../../core/agreement/shared-marks.ts';
import { markCategories, pairTable, weightedKappa } from '../../core/agreement/weighted-kappa.ts';
import type { GradeMark } from '../../core/grades/grade-mark.ts';
import { known, mapKnown, unknown, type Known } from '../../core/known.ts';
import { randomFrom } from '../../core/random.ts';
import type { Study } from '../study/study.ts';
import { newestRubric } from './class-grades.ts';
import { gameLabel } from './directory.ts';
import { partsUnderLook } from './second-look.ts';

/** Pairs of marks from which a kappa or an alpha is told. Common practice, no source: an asymptotic error of fewer says nothing. */
const pairsNeeded = 10;
/** 97.5 % point of the normal, for the interval of a least-squares shift. */
const reach = 1.959963984540054;
const seed = 2026;

type StoredMark = GradeMark & {
  readonly lookId: string | null;
  readonly markedAt: number;
  readonly spanId: string | null;
  readonly frame: number | null;
};
type Pair = { readonly first: StoredMark; readonly second: StoredMark };

function readMarks(study: Study): StoredMark[] {
  const found = study.database
    .prepare(
      `SELECT p.runner_id AS runner, y.game_id AS game, m.part_id AS carry, m.evaluator_id AS evaluator,
       m.trait AS trait, m.value AS value, ifnull(m.clearness, 'clear') AS clearness, m.look_id AS lookId,
       m.marked_at AS markedAt, m.span_id AS spanId, m.frame AS frame
       FROM mark m JOIN part p ON p.id = m.part_id JOIN play y ON y.id = p.play_id
       WHERE m.state = 'shown' AND p.kind = 'run' ORDER BY m.marked_at, m.id`,
    )
    .all();
  return found as (StoredMark & { readonly clearness: Clearness })[];
}

const itemOf = ({ carry, trait, evaluator }: StoredMark): string => `${carry} ${trait} ${evaluator}`;

/**
 * Agreement, drift, leniency and half marks over the whole study, without the carries of this evaluator's open looks, whose
 * earlier marks are not to be seen yet. What can't be told comes with its reason. Throws a FaultError without a rubric.
 */
export function readAgreement(study: Study, evaluatorId: string): AgreementView {
  const underLook = partsUnderLook(study, evaluatorId);
  const marks = readMarks(study).filter(({ carry }) => !underLook.has(carry));
  const firsts = new Map<string, StoredMark>();
  for (const mark of marks) if (mark.lookId === null) firsts.set(itemOf(mark), mark);
  // Beside another evaluator a first look stands for itself; where there is none, the blind look does.
  const standing = new Map(firsts);
  for (const mark of marks) if (!standing.has(itemOf(mark))) standing.set(itemOf(mark), mark);
  const shared = [...standing.values()];
  const evaluators = study.rows.all('evaluator');
  const told = describe(study);
  const own = evaluators.flatMap(({ id, name }): LookComparison[] => {
    const pairs = marks.flatMap((second): Pair[] => {
      const first = second.lookId === null || second.evaluator !== id ? undefined : firsts.get(itemOf(second));
      return first === undefined ? [] : [{ first, second }];
    });
    if (pairs.length === 0 && id !== evaluatorId) return [];
    return [compare('own', [`${name}, first look`, `${name}, second look`], pairs, told)];
  });
  const between = evaluators.flatMap(({ id: one, name }, at) =>
    evaluators.slice(at + 1).flatMap(({ id: other, name: otherName }): LookComparison[] => {
      const pairs = markPairs(shared, one, other).flatMap(({ carry, trait }): Pair[] => {
        const [first, second] = [one, other].map((id) => standing.get(`${carry} ${trait} ${id}`));
        return first === undefined || second === undefined ? [] : [{ first, second }];
      });
      return [compare('between', [name, otherName], pairs, told)];
    }),
  );
  return {
    comparisons: [...own, ...between],
    everybody:
      evaluators.length < 2
        ? unknown('one evaluator', 'Only one evaluator marks in this study.')
        : alphaOf(ratingsOf(shared).ratings),
    evaluators: habitsOf(evaluators, marks, shared),
    leftOut: underLook.size,
  };
}

function compare(
  kind: LookComparison['kind'],
  [first, second]: readonly [string, string],
  pairs: readonly Pair[],
  told: (pair: Pair) => LookDifference,
): LookComparison {
  const apart = ({ first: one, second: other }: Pair): number => Math.abs(other.value - one.value);
  const drifted =
    kind === 'between'
      ? unknown('two evaluators', 'Drift is told of one evaluator’s own two looks.')
      : drift(pairs.map((pair) => ({ first: pair.first.value, second: pair.second.value, daysBetween: daysOf(pair) })));
  return {
    kind,
    first,
    second,
    pairs: pairs.length,
    carries: new Set(pairs.map((pair) => pair.first.carry)).size,
    same: pairs.filter((pair) => apart(pair) === 0).length,
    near: pairs.filter((pair) => apart(pair) <= 0.5).length,
    kappa: kappaOf(pairs, kind),
    alpha:
      enough(pairs.length, kind) ?? alphaOf([pairs.map((pair) => pair.first.value), pairs.map((p) => p.second.value)]),
    shift: drifted.known ? estimate(drifted.value.shift, 1, pairs.length) : drifted,
    // Core tells the slope for thirty days.
    perWeek: drifted.known ? estimate(drifted.value.perMonth, 7 / 30, pairs.length) : drifted,
    differences: pairs
      .filter((pair) => apart(pair) > 0)
      .toSorted((a, b) => apart(b) - apart(a) || a.second.markedAt - b.second.markedAt)
      .slice(0, mostDifferences)
      .map(told),
  };
}

const daysOf = ({ first, second }: Pair): number => Math.max(0, second.markedAt - first.markedAt) / 86_400_000;

function estimate(answer: Known<DriftEstimate>, unit: number, n: number): Known<AgreementFigure> {
  return mapKnown(answer, ({ value, low, high }) => ({ value: value * unit, low: low * unit, high: high * unit, n }));
}

function enough(pairs: number, kind: LookComparison['kind']): ReturnType<typeof unknown> | null {
  if (pairs === 0) {
    return kind === 'own'
      ? unknown('no second look', 'No trait of any carry is marked at both looks yet.')
      : unknown('nothing shared', 'The two have marked no trait of the same carry.');
  }
  if (pairs >= pairsNeeded) return null;
  const words = pairs === 1 ? 'one pair' : `${pairs} pairs`;
  return unknown('fewer than needed', `It needs ${pairsNeeded} pairs of marks and has ${words}.`);
}

function kappaOf(pairs: readonly Pair[], kind: LookComparison['kind']): Known<AgreementFigure> {
  const few = enough(pairs.length, kind);
  if (few !== null) return few;
  const table = pairTable(
    pairs.map(({ first, second }) => [first.value, second.value]),
    markCategories,
  );
  const answer = weightedKappa(table, 'quadratic');
  if (!answer.known) return answer;
  const { kappa, low, high, standardError } = answer.value;
  if (standardError < 1e-12) {
    return unknown('no spread', `All ${pairs.length} pairs are alike: there is no error to judge an interval by.`);
  }
  return known({ value: kappa, low, high, n: pairs.length });
}

function alphaOf(ratings: Ratings): Known<AgreementFigure> {
  const whole = krippendorffAlpha(ratings, 'interval');
  if (!whole.known) return whole;
  const { alpha, units } = whole.value;
  if (units < pairsNeeded) {
    return unknown('fewer than needed', `It needs ${pairsNeeded} traits marked twice and has ${units}.`);
  }
  // Fewer draws on very many units, whose alpha hardly spreads, so that the answer does not take minutes.
  const draws = Math.min(1000, Math.max(200, Math.floor(1_000_000 / units)));
  return mapKnown(alphaSpread(ratings, 'interval', draws, randomFrom(seed)), ({ low, high }) => ({
    value: alpha,
    low,
    high,
    n: units,
  }));
}

function habitsOf(
  evaluators: readonly { readonly id: string; readonly name: string }[],
  marks: readonly StoredMark[],
  shared: readonly StoredMark[],
): EvaluatorHabits[] {
  const halves = halfMarkShares(marks);
  const groups = leniency(
    shared.map(({ carry, trait, evaluator, value }) => ({ item: `${carry} ${trait}`, evaluator, value })),
  );
  return evaluators.map(({ id, name }) => {
    const own = marks.filter(({ evaluator }) => evaluator === id);
    const group = groups.known ? groups.value.find((each) => each.evaluators.includes(id)) : undefined;
    const at = group?.evaluators.indexOf(id) ?? -1;
    const shift = group?.shift[at];
    const share = halves[id];
    const none = unknown('no marks', `${name} has no mark with a figure that can be read here.`);
    const alone =
      evaluators.length < 2
        ? unknown('one evaluator', 'Only one evaluator marks in this study.')
        : unknown('fewer than needed', `${name} shares fewer than ${sharedNeeded} marked traits with anybody.`);
    const error = Math.sqrt(Math.max(0, group?.covariance[at]?.[at] ?? 0));
    return {
      id,
      name,
      marks: own.length,
      leniency:
        own.length === 0
          ? none
          : group === undefined || shift === undefined || group.evaluators.length < 2
            ? alone
            : known({ value: shift, low: shift - reach * error, high: shift + reach * error, n: group.shared }),
      halves:
        share === undefined
          ? none
          : mapKnown(share, ({ share: value, low, high, marks: n }) => ({ value, low, high, n })),
    };
  });
}

/** Makes a pair's row: whose carry it is, in words, and where its film is. */
function describe(study: Study): (pair: Pair) => LookDifference {
  const traits = new Map(
    newestRubric(study).body.families.flatMap((family) => family.traits.map(({ key, name }) => [key, name] as const)),
  );
  const runners = new Map(study.rows.all('runner').map(({ id, name }) => [id, name]));
  const teams = new Map(study.rows.all('team').map(({ id, name }) => [id, name]));
  const games = new Map(study.rows.all('game').map((game) => [game.id, game]));
  return (pair) => {
    const { first, second } = pair;
    const part = study.rows.get('part', first.carry);
    const play = part === undefined ? undefined : study.rows.get('play', part.playId);
    const game = games.get(first.game);
    if (play === undefined || game === undefined) throw new Error(`the carry ${first.carry} has marks and no play`);
    const placed = second.spanId === null ? first : second;
    const spans = study.rows.where('span', 'playId', play.id);
    return {
      partId: first.carry,
      playId: play.id,
      gameId: game.id,
      spanId: placed.spanId ?? (spans.find(({ kind }) => kind === 'live') ?? spans[0])?.id ?? null,
      frame: placed.spanId === null ? null : placed.frame,
      runner: runners.get(first.runner) ?? 'a runner no longer here',
      game: gameLabel(game, (id) => teams.get(id) ?? 'unknown team'),
      situation: situationInWords(play),
      trait: traits.get(first.trait) ?? first.trait,
      first: first.value,
      second: second.value,
      days: daysOf(pair),
    };
  };
}
