import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { gainChances } from '../../../src/core/expectation/hazard.ts';
import { estimateCalibration } from '../../../src/core/lanes/estimate-calibration.ts';
import type { Lane } from '../../../src/core/lanes/lane.ts';
import { laneGains } from '../../../src/core/lanes/lane-gains.ts';
import { ledger } from '../../../src/core/lanes/ledger.ts';
import { proposedMark } from '../../../src/core/lanes/proposed-mark.ts';
import { runnerDecisions } from '../../../src/core/lanes/runner-decisions.ts';
import { splitNormalCdf, splitNormalFrom } from '../../../src/core/lanes/split-normal.ts';
import { type ValuedLane, valueLeft } from '../../../src/core/lanes/value-left.ts';
import { randomFrom } from '../../../src/core/random.ts';
import { drawGain } from '../expectation/draw-carry.ts';
import { situations } from '../plays/situations.ts';
import { choices, lane, ledgerAt } from './decisions.ts';

const threeFigures = fc
  .tuple(fc.integer({ min: -8, max: 15 }), fc.integer({ min: -8, max: 15 }), fc.integer({ min: -8, max: 30 }))
  .map((yards) => yards.toSorted((a, b) => a - b));
const lanes: fc.Arbitrary<Lane> = threeFigures.map(([low = 0, likely = 0, high = 0]) => lane('one', low, likely, high));
const lists = fc
  .array(lanes, { minLength: 2, maxLength: 5 })
  .map(([first, ...rest]) => [...(first === undefined ? [] : [{ ...first, name: 'taken', taken: true }]), ...rest]);

const valued = (points: number, standardError: number, taken: boolean): ValuedLane => ({
  lane: lane('any', 0, 1, 2, taken),
  yards: points,
  points,
  standardError,
  chanceOfLoss: 0.1,
});

const cost = (yardsToGoal: number) => {
  const toGo = Math.min(10, yardsToGoal);
  const [held, lost] = ledgerAt(1, toGo, yardsToGoal, [lane('held', 0, 0, 0), lane('lost', -1, -1, -1)]).lines;
  return (held?.points ?? 0) - (lost?.points ?? 0);
};

const decision = (points: number, safer: boolean) => {
  const left = valueLeft([{ ...valued(points, 0.1, true), chanceOfLoss: safer ? 0 : 0.5 }, valued(2, 0.1, false)]);
  if (!left.known) throw new Error(left.detail);
  return left.value;
};

const mark = (own: number, other: number) =>
  proposedMark(valueLeft([valued(own, 0.2, true), valued(other, 0.2, false)]));

describe("a lane's body", () => {
  test('puts a tenth under low, a tenth over high, and its mode at likely', () => {
    fc.assert(
      fc.property(threeFigures, ([low = 0, likely = 0, high = 0]) => {
        const body = splitNormalFrom(low, likely, high);
        if (low === high) {
          expect([splitNormalCdf(body, likely - 0.5), splitNormalCdf(body, likely)]).toEqual([0, 1]);
          return;
        }
        // With likely at an end, that end's tenth lies at the mode itself.
        expect(splitNormalCdf(body, low)).toBeCloseTo(0.1, 6);
        expect(splitNormalCdf(body, high)).toBeCloseTo(0.9, 6);
        expect(body.mode).toBe(likely);
      }),
    );
  });

  test('is the normal distribution when likely lies in the middle', () => {
    const body = splitNormalFrom(-2, 3, 8);
    expect(body.below).toBeCloseTo(0.5, 12);
    expect(body.spreadBelow).toBeCloseTo(5 / 1.2815515655446004, 9);
    expect(body.spreadAbove).toBeCloseTo(body.spreadBelow, 9);
  });
});

describe("a lane's gains", () => {
  test('sum to 1, stop at the goal line and the own goal line, and have low and high as tenths in whole yards', () => {
    fc.assert(
      fc.property(situations, lanes, (situation, one) => {
        const gains = laneGains(one, situation, gainChances(choices.model, situation));
        expect(gains.chances.reduce((sum, chance) => sum + chance, 0)).toBeCloseTo(1, 9);
        expect(gains.from + gains.chances.length - 1).toBe(situation.yardsToGoal);
        expect(gains.from).toBeGreaterThanOrEqual(situation.yardsToGoal - 100);
        for (const chance of gains.chances) expect(chance).toBeGreaterThanOrEqual(0);
        const under = gains.chances.reduce((sum, chance, at) => (gains.from + at < one.low ? sum + chance : sum), 0);
        const over = gains.chances.reduce((sum, chance, at) => (gains.from + at > one.high ? sum + chance : sum), 0);
        expect(over).toBeLessThanOrEqual(0.1 + 1e-9);
        if (one.low <= situation.yardsToGoal) expect(under).toBeLessThanOrEqual(0.1 + 1e-9);
      }),
    );
  });

  test('go on beyond high as the model does, so that a breakaway keeps its worth', () => {
    const situation = { down: 1, toGo: 10, yardsToGoal: 70 } as const;
    const model = gainChances(choices.model, situation);
    const gains = laneGains(lane('press', 1, 3, 8), situation, model);
    const at = (pmf: typeof gains, gain: number) => pmf.chances[gain - pmf.from] ?? 0;
    const ratio = at(gains, 9) / at(model, 9);
    for (const gain of [10, 15, 30, 69, 70]) expect(at(gains, gain) / at(model, gain)).toBeCloseTo(ratio, 9);
    const body = splitNormalFrom(1, 3, 8);
    const beyond = gains.chances.reduce((sum, chance, i) => (gains.from + i > 8 ? sum + chance : sum), 0);
    expect(beyond).toBeCloseTo(1 - splitNormalCdf(body, 8.5), 12);
  });

  test('of three equal figures are one sure gain', () => {
    const situation = { down: 1, toGo: 10, yardsToGoal: 50 } as const;
    const gains = laneGains(lane('sure', 3, 3, 3), situation, gainChances(choices.model, situation));
    expect(gains.chances[3 - gains.from]).toBe(1);
  });
});

describe('the ledger', () => {
  test('does not depend on the order of the lanes, and is not worsened by listing equal ones', () => {
    fc.assert(
      fc.property(situations, lists, fc.nat(), (situation, list, turn) => {
        const { down, toGo, yardsToGoal } = situation;
        const one = ledgerAt(down, toGo, yardsToGoal, list);
        const turned = [...list.slice(turn % list.length), ...list.slice(0, turn % list.length)];
        const other = ledgerAt(down, toGo, yardsToGoal, turned);
        if (!one.left.known || !other.left.known) throw new Error('a lane is taken');
        expect(other.left).toEqual(one.left);
        for (const line of one.lines) {
          expect(Number.isFinite(line.points) && Number.isFinite(line.standardError)).toBe(true);
          expect(line.points).toBeGreaterThanOrEqual(-7);
          expect(line.points).toBeLessThanOrEqual(7);
          const more = ledgerAt(down, toGo, yardsToGoal, [...list, { ...line.lane, name: 'again', taken: false }]);
          if (!more.left.known) throw new Error('a lane is taken');
          expect(more.left.value.points).toBe(one.left.value.points);
          expect(more.left.value.beyondChance).toBeLessThanOrEqual(one.left.value.beyondChance + 1e-9);
        }
      }),
      { numRuns: 40 },
    );
  });

  test('never values a lane less for gaining more', () => {
    fc.assert(
      fc.property(situations, threeFigures, (situation, [low = 0, likely = 0, high = 0]) => {
        const { lines } = ledgerAt(situation.down, situation.toGo, situation.yardsToGoal, [
          lane('less', low, likely, high),
          lane('more', low + 1, likely + 1, high + 1),
        ]);
        expect((lines[1]?.points ?? 0) - (lines[0]?.points ?? 0)).toBeGreaterThan(-1e-9);
      }),
      { numRuns: 60 },
    );
  });

  test('says where low, likely and high lead, at the goal line, at its own, and on fourth down', () => {
    const goal = ledgerAt(1, 4, 4, [lane('in', 1, 4, 9)]).lines[0];
    expect(goal?.leadsTo.likely).toEqual({ kind: 'touchdown' });
    expect(goal?.leadsTo.low).toEqual({ kind: 'next down', down: 2, toGo: 3, yardsToGoal: 3 });
    const own = ledgerAt(2, 9, 99, [lane('back', -3, 1, 3)]).lines[0];
    expect(own?.leadsTo.low).toEqual({ kind: 'safety' });
    expect(own?.leadsTo.likely).toEqual({ kind: 'next down', down: 3, toGo: 8, yardsToGoal: 98 });
    expect(own?.chanceOfLoss).toBeGreaterThan(0.1);
    const fourth = ledgerAt(4, 1, 40, [lane('push', 0, 1, 3)]).lines[0];
    expect(fourth?.leadsTo.low).toEqual({ kind: 'turnover on downs', down: 1, toGo: 10, yardsToGoal: 60 });
    expect(fourth?.leadsTo.likely).toEqual({ kind: 'first down', down: 1, toGo: 10, yardsToGoal: 39 });
  });

  test.each([
    [{ snap: { down: 5, toGo: 10, yardsToGoal: 60 }, lanes: [lane('a', 1, 2, 3)] }, 'impossible down'],
    [{ snap: { down: 1, toGo: 10, yardsToGoal: 60 }, lanes: [] }, 'no lanes'],
    [{ snap: { down: 1, toGo: 10, yardsToGoal: 60 }, lanes: [lane('a', 3, 2, 5)] }, 'yards out of order'],
    [{ snap: { down: 1, toGo: 10, yardsToGoal: 60 }, lanes: [lane('a', 0.5, 2, 5)] }, 'impossible yards'],
    [
      {
        snap: { down: 1, toGo: 10, yardsToGoal: 60 },
        lanes: [lane('a', 1, 2, 3)],
        clock: { quarter: 2, clockSeconds: 60 },
      },
      'end of half',
    ],
    [
      {
        snap: { down: 1, toGo: 10, yardsToGoal: 60 },
        lanes: [lane('a', 1, 2, 3)],
        clock: { quarter: 4, clockSeconds: 60 },
      },
      'end of game',
    ],
    [
      {
        snap: { down: 1, toGo: 10, yardsToGoal: 60 },
        lanes: [lane('a', 1, 2, 3)],
        clock: { quarter: 5, clockSeconds: 600 },
      },
      'overtime',
    ],
  ])('of %o is refused because of: %s', (decision, because) => {
    expect(ledger(decision, choices)).toMatchObject({ known: false, because });
  });

  test('knows no value left without a choice', () => {
    expect(ledgerAt(1, 10, 60, [lane('a', 1, 2, 3, true)]).left).toMatchObject({ because: 'one lane' });
    expect(ledgerAt(1, 10, 60, [lane('a', 1, 2, 3), lane('b', 1, 2, 4)]).left).toMatchObject({ because: 'none taken' });
    const two = [lane('a', 1, 2, 3, true), lane('b', 1, 2, 4, true)];
    expect(ledgerAt(1, 10, 60, two).left).toMatchObject({ because: 'several taken' });
  });
});

describe('two facts of the trade (common practice, no source)', () => {
  test('near the goal on first down a sure short gain is worth more than an equal-mean wide run that risks losing three', () => {
    for (const yardsToGoal of [1, 2, 3]) {
      const [sure, wide] = ledgerAt(1, yardsToGoal, yardsToGoal, [lane('sure', 1, 2, 3), lane('wide', -3, 2, 7)]).lines;
      expect(sure?.points).toBeGreaterThan(wide?.points ?? 7);
      expect(sure?.chanceOfLoss).toBeLessThan(wide?.chanceOfLoss ?? 0);
    }
  });

  test('a lost yard costs less at midfield than at either goal line', () => {
    expect(cost(50)).toBeGreaterThan(0);
    for (const nearGoal of [1, 2, 3, 4, 5]) expect(cost(nearGoal)).toBeGreaterThan(1.5 * cost(50));
    for (const ownGoal of [98, 99]) expect(cost(ownGoal)).toBeGreaterThan(cost(50));
  });
});

describe('value left', () => {
  test('beyond chance is nothing on average for a runner who chooses at will among equals, however many are listed', () => {
    const random = randomFrom(19);
    for (const errors of [
      [0.2, 0.2],
      [0.1, 0.3, 0.2],
      [0.3, 0.3, 0.3, 0.3, 0.3, 0.3],
    ]) {
      const decisions = Array.from({ length: 6000 }, () => {
        const own = random.below(errors.length);
        const left = valueLeft(errors.map((error, at) => valued(2 + error * random.normal(), error, at === own)));
        if (!left.known) throw new Error(left.detail);
        return left.value;
      });
      const answer = runnerDecisions(decisions);
      if (!answer.known || !answer.value.beyondChance.known) throw new Error('many decisions have a mean');
      expect(Math.abs(answer.value.beyondChance.value.mean)).toBeLessThan(0.012);
      expect(answer.value.left).toBeGreaterThan(0.05);
    }
  });

  test('over a runner has an interval, and says how often the best and the safer lane was taken', () => {
    const answer = runnerDecisions([decision(2.5, true), decision(1.5, false), decision(1.9, true)]);
    if (!answer.known || !answer.value.beyondChance.known) throw new Error('three decisions have a mean');
    expect(answer.value.left).toBeCloseTo(0.2, 12);
    expect(answer.value.best).toMatchObject({ hits: 1, n: 3, small: true });
    expect(answer.value.safer).toMatchObject({ hits: 2, n: 3 });
    expect(answer.value.beyondChance.value.low).toBeLessThan(answer.value.beyondChance.value.mean);
    expect(runnerDecisions([])).toMatchObject({ because: 'no decisions' });
    expect(runnerDecisions([decision(1, true)])).toMatchObject({
      value: { beyondChance: { because: 'one decision' } },
    });
  });

  test('proposes a mark in words, or passes on why it cannot', () => {
    expect(mark(2, 1)).toMatchObject({ value: { mark: 5 } });
    expect(mark(2, 1.6)).toMatchObject({ value: { mark: 4 } });
    expect(mark(2, 1.9)).toMatchObject({ value: { mark: 3 } });
    expect(mark(2, 2.1)).toMatchObject({ value: { mark: 3 } });
    expect(mark(2, 2.4)).toMatchObject({ value: { mark: 2 } });
    expect(mark(2, 3)).toMatchObject({ value: { mark: 1 } });
    expect(proposedMark(valueLeft([]))).toMatchObject({ because: 'one lane' });
  });
});

describe("an evaluator's estimates", () => {
  test('are found calibrated when the gains come from the lanes themselves, and not when lanes are drawn too narrow', () => {
    const random = randomFrom(23);
    const situation = { down: 1, toGo: 10, yardsToGoal: 65 } as const;
    const model = gainChances(choices.model, situation);
    const taken = (shown: Lane) =>
      Array.from({ length: 1500 }, () => {
        const truth = lane('true', 0, 3, 9, true);
        return {
          lane: shown,
          gains: laneGains(shown, situation, model),
          model,
          gain: drawGain(laneGains(truth, situation, model), random),
        };
      });
    const honest = estimateCalibration(taken(lane('shown', 0, 3, 9, true)));
    const narrow = estimateCalibration(taken(lane('shown', 2, 3, 4, true)));
    if (!honest.known || !narrow.known) throw new Error('results are there');
    expect(honest.value.within.low).toBeLessThan(honest.value.withinExpected);
    expect(honest.value.within.high).toBeGreaterThan(honest.value.withinExpected);
    expect(Math.abs(honest.value.bias)).toBeLessThan(3 * honest.value.biasError);
    expect(honest.value.crps).toBeLessThan(honest.value.modelCrps);
    expect(narrow.value.within.high).toBeLessThan(narrow.value.withinExpected);
    expect(narrow.value.crps).toBeGreaterThan(honest.value.crps);
    expect(estimateCalibration([])).toMatchObject({ because: 'no results' });
  });
});
