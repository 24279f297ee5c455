/** Grades of a class, or of one runner against a class already pooled: the one posterior, for thin and rich alike. */
import { type Known, known, unknown } from '../known.ts';
import { normaliseWeights } from '../rubric/weights.ts';
import type { Rubric } from '../rubric/rubric.ts';
import { type CellTable, cellTable } from './cell-table.ts';
import { gameStatistics } from './game-statistics.ts';
import {
  type CoveredGrade,
  effectiveMarks,
  type Evidence,
  type Grade,
  gradeFrom,
  type GradeRules,
  gradeRules,
  tReach,
} from './grade.ts';
import type { GradeMark } from './grade-mark.ts';
import { jointPosterior, type JointPosterior } from './joint-posterior.ts';
import { poolTable } from './pool-class.ts';
import { assumedPool, assumedTogether, type Pooled, type TraitPool } from './pooled.ts';
import { runnerMoments, type RunnerMoments } from './runner-moments.ts';

/** Why a trait has no grade. */
export type NoTraitGrade = 'no marks';
/** Why a family, or the whole, has none. */
export type NoCoveredGrade = 'no marks' | 'too little covered' | 'no weight';

/** One runner's grades; records are by trait key and family key. */
export type RunnerGrades = {
  readonly traits: Readonly<Record<string, Known<Grade, NoTraitGrade>>>;
  readonly families: Readonly<Record<string, Known<CoveredGrade, NoCoveredGrade>>>;
  readonly overall: Known<CoveredGrade, NoCoveredGrade>;
  readonly joint: JointPosterior;
};

/** A class's grades by runner id, and the model they were read against. */
export type ClassGrades = {
  readonly runners: Readonly<Record<string, RunnerGrades>>;
  readonly pooled: Pooled;
  /** Marks of traits the rubric does not have, by trait: not used. */
  readonly setAside: Readonly<Record<string, number>>;
};

/** Rules to change, and runners to list even without a mark. */
export type GradeOptions = Partial<GradeRules> & { readonly runners?: readonly string[] };

/**
 * Grades every runner of a class from marks (1 to 5 in halves, any order) against a rubric. Linear in marks. A trait
 * without marks has the reason 'no marks'; a family or the whole 'too little covered' under 60 % of its weight, 'no
 * weight' when it weighs nothing. Throws RangeError on a mark or weight out of range. The model is that of docs/method.md
 * section 5: normal marks in games in runners, moments after DerSimonian & Laird 1986, shrinkage after Morris 1983.
 */
export function gradeClass(marks: readonly GradeMark[], rubric: Rubric, options: GradeOptions = {}): ClassGrades {
  const table = cellTable(marks, traitKeys(rubric));
  const { pooled, moments } = poolTable(table, gameStatistics(table));
  const grade = graderOf(rubric, pooled, options);
  const runners: [string, RunnerGrades][] = table.runners.map((runner, at) => {
    const own = moments[at];
    return [runner, own === undefined ? grade(emptyTable(rubric), 0) : grade(table, at, own)];
  });
  const graded = new Set(table.runners);
  for (const runner of options.runners ?? []) {
    if (!graded.has(runner)) runners.push([runner, grade(emptyTable(rubric), 0)]);
  }
  return { runners: Object.fromEntries(runners), pooled, setAside: table.setAside };
}

/**
 * Grades one runner against a class that was pooled before, from his marks alone: the answer while an evaluator marks.
 * Marks are as for gradeClass; those of other runners are an error and throw. Traits missing from `pooled` are read
 * against the assumed class.
 */
export function gradeRunner(
  marks: readonly GradeMark[],
  pooled: Pooled,
  rubric: Rubric,
  options: Partial<GradeRules> = {},
): RunnerGrades {
  const table = cellTable(marks, traitKeys(rubric), pooled.leniency);
  if (table.runners.length > 1) throw new RangeError(`one runner's marks wanted, got ${table.runners.length} runners'`);
  const grade = graderOf(rubric, pooled, options);
  if (table.runners.length === 0) return grade(emptyTable(rubric), 0);
  return grade(table, 0, runnerMoments(table, gameStatistics(table), 0, poolsOf(rubric, pooled)));
}

/** The rubric's trait keys in order; the order of every array by trait in this folder. */
export function traitKeys(rubric: Rubric): readonly string[] {
  return rubric.families.flatMap((family) => family.traits.map((trait) => trait.key));
}

/** The pooled model of each trait in the rubric's order, assumed where the pool has none. */
export function poolsOf(rubric: Rubric, pooled: Pooled): readonly TraitPool[] {
  return traitKeys(rubric).map((key) => (Object.hasOwn(pooled.traits, key) ? pooled.traits[key] : undefined) ?? noPool);
}

const noPool: TraitPool = {
  ...assumedPool,
  runners: 0,
  games: 0,
  assumed: ['class mean', 'spread between runners', 'spread between games', 'spread within a game'],
};

/** Pooled values for a study without marks: everything assumed. */
export const assumedPooled: Pooled = { traits: {}, together: assumedTogether, leniency: [] };

const emptyTable = (rubric: Rubric) => cellTable([], traitKeys(rubric));

type Group = { readonly members: readonly number[]; readonly weights: Known<readonly number[], 'no weight'> };

/** Everything that does not depend on the runner, then one runner at a time (all his games, or those given). */
export function graderOf(rubric: Rubric, pooled: Pooled, options: Partial<GradeRules>) {
  const rules: GradeRules = { ...gradeRules, ...options };
  const keys = traitKeys(rubric);
  const names = rubric.families.flatMap((family) => family.traits.map((trait) => trait.name));
  const pools = poolsOf(rubric, pooled);
  const reach = tReach(rules.confidence);
  const families = familyGroups(rubric);
  const whole = wholeGroup(rubric, families);
  return (table: CellTable, runner: number, moments = noMoments(keys.length), games = gamesOf(table, runner)) => {
    const joint = jointPosterior(moments, pooled, keys, pools);
    const traits = keys.map((key, at): [string, Known<Grade, NoTraitGrade>] => {
      if (joint.marked[at] !== true) return [key, unknown('no marks', `${names[at]} is not marked on any carry.`)];
      const information = moments.information[at] ?? 0;
      const evidence: Evidence = {
        information,
        effective: effectiveMarks(information, moments.informationSquares[at] ?? 0),
        marks: marksIn(table, at, games),
        carries: moments.carries[at] ?? 0,
        games: moments.games[at] ?? 0,
        assumed: pools[at]?.assumed ?? [],
      };
      const posterior = {
        mean: joint.mean[at] ?? 0,
        sd: Math.sqrt(joint.covariance[at]?.[at] ?? 0),
        df: joint.df[at] ?? 1,
      };
      return [key, known(gradeFrom(posterior, evidence, rubric.bars, rules, reach))];
    });
    const covered = (group: Group, what: string): Known<CoveredGrade, NoCoveredGrade> => {
      if (!group.weights.known) return unknown('no weight', `${what} has no weight in this rubric.`);
      const weights = group.weights.value;
      let coverage = 0;
      let mean = 0;
      let variance = 0;
      let df = Infinity;
      const assumed = new Set<string>();
      for (const [one, member] of group.members.entries()) {
        const weight = weights[one] ?? 0;
        if (weight === 0) continue;
        mean += weight * (joint.mean[member] ?? 0);
        df = Math.min(df, joint.df[member] ?? 1);
        for (const part of pools[member]?.assumed ?? []) assumed.add(part);
        if (joint.marked[member] === true) coverage += weight;
        else assumed.add(`${names[member]} as the class`);
        for (const [other, with_] of group.members.entries()) {
          variance += weight * (weights[other] ?? 0) * (joint.covariance[member]?.[with_] ?? 0);
        }
      }
      coverage = Math.min(1, coverage);
      if (!group.members.some((member) => joint.marked[member] === true)) {
        return unknown('no marks', `${what} is not marked on any carry.`);
      }
      if (coverage < rules.coverageNeeded - 1e-9) {
        const share = Math.floor(coverage * 100);
        const wanted = Math.round(rules.coverageNeeded * 100);
        return unknown('too little covered', `${what} is marked in ${share} % of its weight, wanted ${wanted} %.`);
      }
      if (pooled.together.assumed && group.members.length > 1) assumed.add('traits leaning together');
      const evidence = { ...groupEvidence(table, group.members, games), assumed: [...assumed] };
      const posterior = { mean, sd: Math.sqrt(Math.max(0, variance)), df };
      return known({ ...gradeFrom(posterior, evidence, rubric.bars, rules, reach), coverage });
    };
    return {
      traits: Object.fromEntries(traits),
      families: Object.fromEntries(
        rubric.families.map((family, at) => [family.key, covered(families[at] ?? whole, family.name)]),
      ),
      overall: covered(whole, 'The whole'),
      joint,
    };
  };
}

function familyGroups(rubric: Rubric): readonly Group[] {
  let next = 0;
  return rubric.families.map((family) => {
    const members = family.traits.map(() => next++);
    return { members, weights: normaliseWeights(family.traits.map((trait) => trait.weight)) };
  });
}

function wholeGroup(rubric: Rubric, families: readonly Group[]): Group {
  const shares = normaliseWeights(rubric.families.map((family) => family.weight));
  const members = families.flatMap((family) => family.members);
  if (!shares.known) return { members, weights: shares };
  const weights: number[] = [];
  for (const [at, family] of families.entries()) {
    const share = shares.value[at] ?? 0;
    if (!family.weights.known && share > 0) return { members, weights: family.weights };
    for (const one of family.members.keys()) {
      weights.push(share * (family.weights.known ? (family.weights.value[one] ?? 0) : 0));
    }
  }
  return { members, weights: known(weights) };
}

type Games = { readonly from: number; readonly to: number };

const gamesOf = (table: CellTable, runner: number): Games => ({
  from: table.gamesFrom[runner] ?? 0,
  to: table.gamesFrom[runner + 1] ?? 0,
});

/** Over several traits a carry tells what its clearest mark tells: eight marks of one carry are one carry. */
function groupEvidence(table: CellTable, members: readonly number[], games: Games) {
  const width = table.traits.length;
  let information = 0;
  let squares = 0;
  let carries = 0;
  let gamesMarked = 0;
  for (let game = games.from; game < games.to; game += 1) {
    const before = carries;
    for (let carry = table.carriesFrom[game] ?? 0; carry < (table.carriesFrom[game + 1] ?? 0); carry += 1) {
      let clearest = 0;
      for (const member of members) clearest = Math.max(clearest, table.weight[carry * width + member] ?? 0);
      if (clearest === 0) continue;
      carries += 1;
      information += clearest;
      squares += clearest * clearest;
    }
    if (carries > before) gamesMarked += 1;
  }
  let marks = 0;
  for (const member of members) marks += marksIn(table, member, games);
  return { information, effective: effectiveMarks(information, squares), marks, carries, games: gamesMarked };
}

function marksIn(table: CellTable, trait: number, games: Games): number {
  let marks = 0;
  for (let game = games.from; game < games.to; game += 1) {
    marks += table.marks[game * table.traits.length + trait] ?? 0;
  }
  return marks;
}

function noMoments(width: number): RunnerMoments {
  const none = new Float64Array(width);
  const counts = new Int32Array(width);
  const unit = new Float64Array(width * width);
  return {
    estimate: none,
    variance: none,
    information: none,
    informationSquares: none,
    carries: counts,
    games: counts,
    shares: none,
    carryUnit: unit,
    gameUnit: unit,
    leniencyVariance: 0,
  };
}
