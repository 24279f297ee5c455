/**
 * Wild numbers into the exports of plays, intervals, expectation and lanes: each answers with finite numbers, a reason in
 * words or a RangeError that says what it wanted.
 */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { opponentAdjusted, overTeammates, shrunkAllowance } from '../../../src/core/expectation/adjustments.ts';
import { calibrate } from '../../../src/core/expectation/calibration.ts';
import {
  deltaSummary,
  reliabilityOf,
  residualOf,
  runningDelta,
  successOverExpected,
} from '../../../src/core/expectation/delta.ts';
import { clockAllows, expectedPoints } from '../../../src/core/expectation/expected-points.ts';
import {
  type ExpectedYards,
  expectedYards,
  rememberedExpectations,
} from '../../../src/core/expectation/expected-yards.ts';
import { fitTable } from '../../../src/core/expectation/fit-carry.ts';
import { gainChances, hasSticks, segmentOf } from '../../../src/core/expectation/hazard.ts';
import { pointsAfter, stateAfter } from '../../../src/core/expectation/next-state.ts';
import { surfaceError } from '../../../src/core/expectation/points-error.ts';
import { pointsSurface, surfacePoints } from '../../../src/core/expectation/points-surface.ts';
import { crps, logLoss, logScore } from '../../../src/core/expectation/scores.ts';
import { yardsModels } from '../../../src/core/expectation/yards-model.ts';
import { newcombe } from '../../../src/core/intervals/newcombe.ts';
import { normalTwoSided, wilson } from '../../../src/core/intervals/wilson.ts';
import { estimateCalibration } from '../../../src/core/lanes/estimate-calibration.ts';
import type { Lane } from '../../../src/core/lanes/lane.ts';
import { laneGains } from '../../../src/core/lanes/lane-gains.ts';
import { largestOfEquals } from '../../../src/core/lanes/largest-of-equals.ts';
import { ledger } from '../../../src/core/lanes/ledger.ts';
import { proposedMark } from '../../../src/core/lanes/proposed-mark.ts';
import { runnerDecisions } from '../../../src/core/lanes/runner-decisions.ts';
import { splitNormalCdf, splitNormalFrom } from '../../../src/core/lanes/split-normal.ts';
import { valueLeft } from '../../../src/core/lanes/value-left.ts';
import { completeness, unlogged } from '../../../src/core/plays/completeness.ts';
import { credit, lineShare } from '../../../src/core/plays/credit.ts';
import { isDecided } from '../../../src/core/plays/decided-game.ts';
import { distanceBand, fieldZone, isGoalToGo } from '../../../src/core/plays/situation-facts.ts';
import { type Situation, situationFrom, situationOf } from '../../../src/core/plays/situation.ts';
import { classicRule, ownRule } from '../../../src/core/plays/success-rules.ts';
import { rateDifference, rateOf, successRate } from '../../../src/core/plays/success-rate.ts';
import { isSuccess, yardsNeeded } from '../../../src/core/plays/success.ts';

/** Mostly sensible numbers, so that deep paths are reached, and now and then a wild one. */
const numbers = fc.oneof(
  { weight: 12, arbitrary: fc.integer({ min: -5, max: 99 }) },
  { weight: 3, arbitrary: fc.integer({ min: 1, max: 4 }) },
  { weight: 1, arbitrary: fc.constantFrom(NaN, Infinity, -Infinity, 0, -0, 0.5, 1e308, -1e308, 5e-324, 2 ** 53) },
  { weight: 1, arbitrary: fc.double() },
);
const six = fc.tuple(numbers, numbers, numbers, numbers, numbers, numbers);

/** Every number anywhere in an answer, however deep. */
function everyNumber(answer: unknown): readonly number[] {
  if (typeof answer === 'number') return [answer];
  if (Array.isArray(answer)) return answer.flatMap(everyNumber);
  if (typeof answer === 'object' && answer !== null) return Object.values(answer).flatMap(everyNumber);
  return [];
}

const ordinary = expectedYards(yardsModels.college, { down: 1, toGo: 10, yardsToGoal: 60 });
if (!ordinary.known) throw new Error(ordinary.detail);
const expected: ExpectedYards = ordinary.value;
const spread = yardsModels.college.spread.delta;
const choices = { model: yardsModels.college, surface: pointsSurface };
const snapOf = (down: number, toGo: number, yardsToGoal: number) => ({ down, toGo, yardsToGoal }) as Situation;
const laneOf = (low: number, likely: number, high: number, taken: boolean): Lane => ({
  name: 'any',
  state: 'closing',
  low,
  likely,
  high,
  taken,
});
const residual = (delta: number, variance: number) => ({ delta, variance, successOver: delta, chance: 0.5 });
const left = (points: number, byChance: number) => ({
  points,
  yards: points,
  standardError: byChance,
  byChance,
  beyondChance: points - byChance,
  takenIsBest: points === 0,
  margin: -points,
  marginError: byChance,
  takenIsSafer: true,
});

const valued = (points: number, standardError: number, taken: boolean) => ({
  lane: laneOf(0, 1, 2, taken),
  yards: points,
  points,
  standardError,
  chanceOfLoss: 0.1,
});

type Six = readonly [number, number, number, number, number, number];
const calls: Readonly<Record<string, (n: Six) => unknown>> = {
  wilson: ([a, b, c]) => wilson({ hits: a, n: b }, c),
  normalTwoSided: ([a]) => normalTwoSided(a),
  newcombe: ([a, b, c, d]) => newcombe({ hits: a, n: b }, { hits: c, n: d }),
  situationFrom: ([a, b, c]) => situationFrom({ down: a, toGo: b, yardsToGoal: c }),
  situationOf: ([a, b, c]) => situationOf({ down: a, toGo: b, spot: c }),
  facts: ([a, b, c]) => [isGoalToGo, distanceBand, fieldZone].map((fact) => fact(snapOf(a, b, c))),
  ownRule: ([a, b, c, d]) => ownRule('own', [a, b, c, d]),
  yardsNeeded: ([a, b, c]) => yardsNeeded(snapOf(a, b, c), classicRule),
  isSuccess: ([a, b, c, d]) => isSuccess({ situation: snapOf(a, b, c), gain: d }, classicRule),
  successRate: ([a, b, c, d]) => successRate([{ situation: snapOf(a, b, c), gain: d }], classicRule),
  rateOf: ([a, b]) => rateOf({ hits: a, n: b }),
  rateDifference: ([a, b, c, d]) => rateDifference({ hits: a, n: b }, { hits: c, n: d }),
  isDecided: ([a, b, c, d, e]) =>
    isDecided({ quarter: a, scoreFor: b, scoreAgainst: c }, { lines: [{ quarter: d, margin: e }] }),
  completeness: ([a, b, c, d]) => completeness([{ logged: a, loggedYards: b, official: c, officialYards: d }]),
  unlogged: ([a, b, c, d]) => unlogged([{ logged: a, loggedYards: b, official: c, officialYards: d }]),
  lineShare: ([a]) => lineShare(a),
  credit: ([a, b, c]) => credit([{ gain: a, clearedYards: b, contactAt: c }]),
  expectedYards: ([a, b, c, d]) =>
    expectedYards(yardsModels.college, { down: a, toGo: b, yardsToGoal: c, box: d }, { borrowBox: true }),
  rememberedExpectations: ([a, b, c]) => rememberedExpectations(yardsModels.professional)(snapOf(a, b, c)),
  gainChances: ([a, b, c]) => gainChances(yardsModels.college, snapOf(a, b, c)),
  segmentOf: ([a, b, c]) => [segmentOf(a), hasSticks(snapOf(a, b, c))],
  residualOf: ([a]) => residualOf(a, expected),
  deltaSummary: ([a, b, c, d]) => deltaSummary([residual(a, b), residual(c, d)], spread),
  successOverExpected: ([a, b]) => successOverExpected([residual(a, b)], spread),
  runningDelta: ([a, b, c, d]) => runningDelta([residual(a, b), residual(c, d)]),
  reliabilityOf: ([a, b]) => reliabilityOf(a, b),
  overTeammates: ([a, b, c, d]) => overTeammates([residual(a, b)], [residual(c, d)], spread),
  shrunkAllowance: ([a, b]) => shrunkAllowance({ delta: a, carries: b }, spread),
  opponentAdjusted: ([a, b, c, d]) =>
    opponentAdjusted([{ residual: residual(a, b), defence: 'x' }], new Map([['x', { delta: c, carries: d }]]), spread),
  calibrate: ([a, b, c]) =>
    calibrate(
      [
        { gain: a, expected },
        { gain: b, expected },
      ],
      c,
    ),
  scores: ([a]) => [crps(expected.chances, a), logScore(expected.chances, a)],
  logLoss: ([a]) => logLoss(a, true),
  fitTable: ([a, b, c, d]) => fitTable([{ down: `${a}`, 'to go': `${b}`, spot: `${c}`, gain: `${d}` }]),
  clockAllows: ([a, b]) => clockAllows({ quarter: a, clockSeconds: b }),
  expectedPoints: ([a, b, c, d, e]) =>
    expectedPoints(pointsSurface, { down: a, toGo: b, yardsToGoal: c }, { quarter: d, clockSeconds: e }),
  surface: ([a, b, c]) => {
    const place = { down: a, toGo: b, yardsToGoal: c };
    return [surfacePoints(pointsSurface, place), surfaceError(pointsSurface, place)];
  },
  nextState: ([a, b, c, d]) => [stateAfter(snapOf(a, b, c), d), pointsAfter(pointsSurface, snapOf(a, b, c), d)],
  splitNormal: ([a, b, c, d]) => splitNormalCdf(splitNormalFrom(a, b, c), d),
  laneGains: ([a, b, c, d, e, f]) => laneGains(laneOf(a, b, c, true), snapOf(d, e, f), expected.chances),
  largestOfEquals: ([a, b, c]) => largestOfEquals([a, b, c]),
  ledger: ([a, b, c, d, e, f]) =>
    ledger(
      { snap: { down: a, toGo: b, yardsToGoal: c }, lanes: [laneOf(d, e, f, true), laneOf(1, 2, 3, false)] },
      choices,
    ),
  valueLeft: ([a, b, c, d]) => {
    return proposedMark(valueLeft([valued(a, b, true), valued(c, d, false)]));
  },
  runnerDecisions: ([a, b, c, d]) => runnerDecisions([left(a, b), left(c, d)]),
  estimateCalibration: ([a, b, c, d]) =>
    estimateCalibration([{ lane: laneOf(a, b, c, true), gains: expected.chances, model: expected.chances, gain: d }]),
};

test.each(Object.entries(calls))('%s answers, gives a reason or refuses, and never breaks', (_, call) => {
  fc.assert(
    fc.property(six, (wild) => {
      let answer: unknown;
      try {
        answer = call(wild);
      } catch (error) {
        expect(error).toBeInstanceOf(RangeError);
        expect(String(error)).toMatch(/want|got|at most|needs|is a|lies|holds/);
        return;
      }
      expect(answer).toBeDefined();
      for (const number of everyNumber(answer))
        if (!Number.isFinite(number)) expect.fail(`${number} in ${JSON.stringify(answer)}`);
    }),
    { numRuns: 400 },
  );
});
