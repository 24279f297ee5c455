/** Sections 1 to 4 of docs/method.md against the code. Other sections have their own method-*.test.ts beside this one. */
import { describe, expect, test } from 'vitest';
import { opponentAdjusted, overTeammates } from '../../src/core/expectation/adjustments.ts';
import { deltaSummary, residualOf } from '../../src/core/expectation/delta.ts';
import { expectedPoints } from '../../src/core/expectation/expected-points.ts';
import { type ExpectationChoices, expectedYards } from '../../src/core/expectation/expected-yards.ts';
import { pointsAfter } from '../../src/core/expectation/next-state.ts';
import { pointsSurface } from '../../src/core/expectation/points-surface.ts';
import { crps, logScore } from '../../src/core/expectation/scores.ts';
import { yardsModels } from '../../src/core/expectation/yards-model.ts';
import type { Known } from '../../src/core/known.ts';
import type { Lane } from '../../src/core/lanes/lane.ts';
import { largestOfEquals } from '../../src/core/lanes/largest-of-equals.ts';
import { ledger } from '../../src/core/lanes/ledger.ts';
import { proposedMark } from '../../src/core/lanes/proposed-mark.ts';
import { splitNormalFrom } from '../../src/core/lanes/split-normal.ts';
import { lineShare } from '../../src/core/plays/credit.ts';
import { situationFrom } from '../../src/core/plays/situation.ts';
import { classicRule, collegeRule } from '../../src/core/plays/success-rules.ts';
import { rateDifference, rateOf } from '../../src/core/plays/success-rate.ts';
import { yardsNeeded } from '../../src/core/plays/success.ts';
import { asPrinted, workedBlocks, type WorkedFigures } from './worked-blocks.ts';

function valueOf<Value>(answer: Known<Value>): Value {
  if (!answer.known) throw new Error(answer.detail);
  return answer.value;
}

const snap = (down: number, toGo: number, yardsToGoal: number) => valueOf(situationFrom({ down, toGo, yardsToGoal }));
const after = (gain: number) => pointsAfter(pointsSurface, snap(1, 10, 54), gain);
const college = yardsModels.college;
const secondAndSeven = { down: 2, toGo: 7, yardsToGoal: 66 };
const expected = (run = secondAndSeven, choices: ExpectationChoices = {}) =>
  valueOf(expectedYards(college, run, choices));
const lane = (name: string, low: number, likely: number, high: number, taken: boolean): Lane => ({
  name,
  state: 'open',
  low,
  likely,
  high,
  taken,
});
const openField = () =>
  valueOf(
    ledger(
      {
        snap: { down: 1, toGo: 10, yardsToGoal: 54 },
        lanes: [lane('press', 1, 3, 6, true), lane('bounce', -3, 1, 12, false), lane('cut back', 0, 4, 9, false)],
      },
      { model: college, surface: pointsSurface },
    ),
  );
const nearTheGoal = () =>
  valueOf(
    ledger(
      {
        snap: { down: 1, toGo: 3, yardsToGoal: 3 },
        lanes: [lane('dive', 1, 2, 3, true), lane('wide', -3, 2, 7, false)],
      },
      { model: college, surface: pointsSurface },
    ),
  );

const worked: Readonly<Record<string, () => WorkedFigures>> = {
  'success-need': () => ({
    'second and 7, classic': yardsNeeded(snap(2, 7, 66), classicRule),
    'second and 7, college': yardsNeeded(snap(2, 7, 66), collegeRule),
    'first and goal at the 5, classic': yardsNeeded(snap(1, 5, 5), classicRule),
  }),
  'success-rate': () => {
    const rate = valueOf(rateOf({ hits: 21, n: 40 }));
    const other = valueOf(rateDifference({ hits: 21, n: 40 }, { hits: 26, n: 60 }));
    return {
      rate: rate.rate,
      low: rate.low,
      high: rate.high,
      difference: other.difference,
      'difference low': other.low,
      'difference high': other.high,
    };
  },
  'yards-situation': () => {
    const run = expected();
    return {
      'chance of losing 4 or more': run.chances.chances[0] ?? 0,
      mean: run.mean,
      median: run.median,
      'chance of a loss': run.chanceOfLoss,
      'chance of success (5 needed)': run.chanceOfSuccess,
      'chance of a first down': run.chanceOfFirstDown,
      'chance of a touchdown': run.chanceOfTouchdown,
    };
  },
  'yards-box': () => ({
    'not charted': expected().mean,
    'six in the box': expected({ ...secondAndSeven, box: 6 } as typeof secondAndSeven, { borrowBox: true }).mean,
    'eight in the box': expected({ ...secondAndSeven, box: 8 } as typeof secondAndSeven, { borrowBox: true }).mean,
  }),
  'yards-delta': () => {
    const run = expected();
    const residuals = Array.from({ length: 40 }, (_, at) => residualOf(at % 4 === 3 ? 12 : 4, run));
    const summary = valueOf(deltaSummary(residuals, college.spread.delta));
    return {
      'delta of a gain of 5': residualOf(5, run).delta,
      mean: summary.mean,
      'standard error': summary.standardError,
      shrunk: summary.shrunk,
      reliability: summary.reliability,
    };
  },
  'yards-adjusted': () => {
    const run = expected();
    const own = Array.from({ length: 40 }, (_, at) => residualOf(at % 4 === 3 ? 12 : 4, run));
    const others = Array.from({ length: 100 }, (_, at) => residualOf(at % 5 === 4 ? 10 : 4, run));
    const table = new Map([['them', { delta: 0.5, carries: 300 }]]);
    const adjusted = valueOf(
      opponentAdjusted(
        own.map((residual) => ({ residual, defence: 'them' })),
        table,
        college.spread.delta,
      ),
    );
    const over = valueOf(overTeammates(own, others, college.spread.delta));
    return {
      'as it is': adjusted.plain.mean,
      'opponents taken out': adjusted.adjusted.mean,
      'over teammates': over.difference,
      'over teammates, standard error': over.standardError,
    };
  },
  'yards-scores': () => ({
    CRPS: crps(expected().chances, 5),
    'log score': logScore(expected().chances, 5),
  }),
  'points-states': () => {
    const before = valueOf(expectedPoints(pointsSurface, { down: 1, toGo: 10, yardsToGoal: 54 }));
    return {
      before: before.points,
      'standard error': before.standardError,
      'after a gain of 3': after(3),
      'after a loss of 5': after(-5),
      'after a gain of 20': after(20),
    };
  },
  'lane-body': () => {
    const body = splitNormalFrom(-3, 1, 12);
    return { 'share below likely': body.below, 'spread below': body.spreadBelow, 'spread above': body.spreadAbove };
  },
  'lane-ledger': () => {
    const { lines, left: answer } = openField();
    const left = valueOf(answer);
    const [press, bounce, cutBack] = lines;
    return {
      'press, points': press?.points ?? 0,
      'press, standard error': press?.standardError ?? 0,
      'press, yards': press?.yards ?? 0,
      'press, chance of a loss': press?.chanceOfLoss ?? 0,
      'bounce, points': bounce?.points ?? 0,
      'bounce, chance of a loss': bounce?.chanceOfLoss ?? 0,
      'cut back, points': cutBack?.points ?? 0,
      left: left.points,
      'left, standard error': left.standardError,
      'by chance': left.byChance,
      'beyond chance': left.beyondChance,
      'proposed mark': valueOf(proposedMark(answer)).mark,
    };
  },
  'lane-equals': () => ({
    'two lanes': largestOfEquals([0.3, 0.3]),
    'four lanes': largestOfEquals([0.3, 0.3, 0.3, 0.3]),
  }),
  'lane-goal': () => {
    const [dive, wide] = nearTheGoal().lines;
    return {
      'dive, points': dive?.points ?? 0,
      'dive, chance of a score': dive?.chanceOfScore ?? 0,
      'wide, points': wide?.points ?? 0,
      'wide, chance of a loss': wide?.chanceOfLoss ?? 0,
    };
  },
  'credit-line': () => ({
    'loss of 3': lineShare(-3),
    'gain of 4': lineShare(4),
    'gain of 7': lineShare(7),
    'gain of 25': lineShare(25),
  }),
};

describe('the worked examples of sections 1 to 4', () => {
  const blocks = workedBlocks().filter(({ section }) => section >= 1 && section <= 4);

  test('are all known to this test, and all there', () => {
    expect(blocks.map(({ id }) => id).sort()).toEqual(Object.keys(worked).sort());
  });

  test.each(blocks)('$id prints what the code gives', (block) => {
    const figures = worked[block.id]?.() ?? {};
    expect(Object.fromEntries(block.figures)).toEqual(asPrinted(block, figures));
  });
});
