import type { CarryPair, SideBySideView, SideCarry } from '../../contract/comparison-views.ts';
import { faultOf, FaultError } from '../../contract/faults.ts';
import type { Runner } from '../../contract/rows.ts';
import { cliffsDelta } from '../../core/comparison/cliffs-delta.ts';
import { compareGrades } from '../../core/comparison/compare-grades.ts';
import { matchCarries } from '../../core/comparison/match-carries.ts';
import { welch } from '../../core/comparison/welch.ts';
import { comparable, comparableGroups } from '../../core/board/comparable-groups.ts';
import type { RunnerGrades } from '../../core/grades/grade-class.ts';
import type { GradeMark } from '../../core/grades/grade-mark.ts';
import { known, mapKnown, unknown, type Known } from '../../core/known.ts';
import { rateDifference, smallBelow } from '../../core/plays/success-rate.ts';
import type { Study } from '../study/study.ts';
import { carryView, readCarries, type LoggedCarry } from './carries.ts';
import { deltaOfCarries, rateOfCarries, residualsOf } from './carry-results.ts';
import { classGrades, newestRubric } from './class-grades.ts';
import { gameLabel } from './directory.ts';
import { coveredView, gradeView } from './grade-views.ts';
import { keptMarks } from './kept-marks.ts';
import { carryPairOf, situationFor } from './like-carries.ts';
import { cautionsOf } from './side-cautions.ts';

function runnerOf(study: Study, id: string): Runner {
  const runner = study.rows.get('runner', id);
  if (runner === undefined) {
    throw new FaultError(
      faultOf('not-found', `There is no runner ${id} in this study.`, 'Choose two runners from the list.'),
    );
  }
  return runner;
}

/**
 * Two runners beside each other, by one evaluator's marks (null: all evaluators'): differences are first less second.
 * Reason 'same runner' for one runner twice. Throws a FaultError for a runner who is not there, or without a rubric.
 */
export function readSideBySide(
  study: Study,
  firstId: string,
  secondId: string,
  evaluatorId: string | null,
): Known<SideBySideView, 'same runner'> {
  const runners = [runnerOf(study, firstId), runnerOf(study, secondId)] as const;
  if (firstId === secondId) {
    return unknown('same runner', `${runners[0].name} stands on both sides; choose another runner for one of them.`);
  }
  const rubric = newestRubric(study).body;
  const grades = classGrades(study, evaluatorId);
  const marks = keptMarks(study, evaluatorId).filter(({ runner }) => runner === firstId || runner === secondId);
  const [first, second] = runners.map((runner) => sideOf(study, runner, evaluatorId, grades.runners[runner.id], marks));
  const [one, other] = [grades.runners[firstId], grades.runners[secondId]];
  if (first === undefined || second === undefined || one === undefined || other === undefined) {
    throw new Error('a side of two runners is missing');
  }
  const group = comparable(comparableGroups(marks, grades.pooled.leniency));
  const apart = !group.known && group.because === 'not comparable' ? group : null;
  const between = compareGrades(one, other);
  // Where evaluators never looked at the same carries, a difference of grades would be one of evaluators.
  const difference = <Value, Because extends string>(answer: Known<Value, Because>) =>
    apart === null || !answer.known ? answer : unknown('not comparable', 'Different evaluators marked the two.');
  const none = unknown('no marks', 'Not marked on any carry.');
  const differenceOf = (answer: (typeof between.traits)[string] | (typeof between.families)[string] | undefined) =>
    mapKnown(difference(answer ?? none), ({ difference: gap, low, high, chance, thin }) => ({
      difference: gap,
      low,
      high,
      chance,
      thin,
    }));
  const names = new Map(study.rows.all('evaluator').map(({ id, name }) => [id, name]));
  const view: SideBySideView = {
    rubric,
    first: first.side,
    second: second.side,
    overall: { difference: differenceOf(between.overall) },
    families: rubric.families.map((family) => ({
      key: family.key,
      name: family.name,
      first: gradeView(one.families[family.key] ?? none),
      second: gradeView(other.families[family.key] ?? none),
      difference: differenceOf(between.families[family.key]),
      traits: family.traits.map(({ key, name }) => ({
        key,
        name,
        first: gradeView(one.traits[key] ?? none),
        second: gradeView(other.traits[key] ?? none),
        difference: differenceOf(between.traits[key]),
        raw: rawOf(marks, key, firstId, secondId),
      })),
    })),
    success: mapKnown(
      rateDifference(countOf(first.side.success), countOf(second.side.success)),
      ({ difference: gap, low, high, first: own, second: others, small }) => ({
        difference: gap,
        low,
        high,
        first: own.n,
        second: others.n,
        small,
      }),
    ),
    delta: deltaDifference(first.counted, second.counted),
    pairs: pairsOf(first.counted, second.counted),
    cautions: [],
  };
  const notComparable = apart === null ? null : namesInWords(apart.detail, names);
  return known({ ...view, cautions: cautionsOf(view, notComparable) });
}

const namesInWords = (words: string, names: ReadonlyMap<string, string>): string =>
  [...names].reduce((said, [id, name]) => said.replaceAll(id, name), words);

function sideOf(
  study: Study,
  runner: Runner,
  evaluatorId: string | null,
  grades: RunnerGrades | undefined,
  marks: readonly GradeMark[],
) {
  const carries = readCarries(study, runner.id, evaluatorId);
  const counted = carries.filter(({ part }) => part.counts);
  const teams = new Map(study.rows.all('team').map(({ id, name }) => [id, name]));
  const evaluators = new Set(marks.filter((mark) => mark.runner === runner.id).map(({ evaluator }) => evaluator));
  const side: SideBySideView['first'] = {
    runner,
    team: runner.teamId === null ? null : (teams.get(runner.teamId) ?? null),
    overall: coveredView(grades?.overall ?? unknown('no marks', 'Nothing is marked on any carry.')),
    games: new Set(counted.map(({ game }) => game.id)).size,
    evaluators: study.rows
      .all('evaluator')
      .filter(({ id }) => evaluators.has(id))
      .map(({ name }) => name),
    success: rateOfCarries(counted),
    delta: deltaOfCarries(counted, study),
    carries: carries.map((carry): SideCarry => {
      const { marks: _marks, note: _note, ...view } = carryView(carry);
      return { ...view, game: gameLabel(carry.game, (id) => teams.get(id) ?? 'unknown team') };
    }),
  };
  return { side, counted };
}

const countOf = (share: SideBySideView['first']['success']): { hits: number; n: number } =>
  share.known ? { hits: share.value.hits, n: share.value.n } : { hits: 0, n: 0 };

function rawOf(marks: readonly GradeMark[], trait: string, firstId: string, secondId: string) {
  const valuesOf = (id: string) =>
    marks.filter((mark) => mark.runner === id && mark.trait === trait).map(({ value }) => value);
  const [first, second] = [valuesOf(firstId), valuesOf(secondId)];
  return mapKnown(cliffsDelta(first, second), ({ delta, low, high, size }) => ({
    delta,
    low,
    high,
    size,
    first: first.length,
    second: second.length,
  }));
}

function deltaDifference(one: readonly LoggedCarry[], other: readonly LoggedCarry[]): SideBySideView['delta'] {
  const [first, second] = [one, other].map((carries) => residualsOf(carries).map(({ delta }) => delta));
  if (first === undefined || second === undefined) throw new Error('a side is missing');
  return mapKnown(welch(first, second), ({ difference, low, high, chance }) => ({
    difference,
    low,
    high,
    chance,
    first: first.length,
    second: second.length,
    small: first.length < smallBelow || second.length < smallBelow,
  }));
}

function pairsOf(one: readonly LoggedCarry[], other: readonly LoggedCarry[]): SideBySideView['pairs'] {
  const byId = new Map([...one, ...other].map((carry) => [carry.part.id, carry]));
  return mapKnown(
    matchCarries(one.map(situationFor), other.map(situationFor)),
    ({ pairs, firstUnpaired, secondUnpaired }) => ({
      pairs: pairs.flatMap(({ first, second, cost }): CarryPair[] => {
        const [a, b] = [byId.get(first), byId.get(second)];
        return a === undefined || b === undefined ? [] : [carryPairOf(a, b, cost)];
      }),
      firstUnpaired,
      secondUnpaired,
    }),
  );
}
