import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { opponentAdjusted, overTeammates } from '../../../src/core/expectation/adjustments.ts';
import { calibrate } from '../../../src/core/expectation/calibration.ts';
import {
  deltaSummary,
  reliabilityOf,
  residualOf,
  runningDelta,
  successOverExpected,
} from '../../../src/core/expectation/delta.ts';
import { type ExpectedYards, expectedYards } from '../../../src/core/expectation/expected-yards.ts';
import { crps, logLoss, logScore } from '../../../src/core/expectation/scores.ts';
import { yardsModelFrom, yardsModels } from '../../../src/core/expectation/yards-model.ts';
import { collegeRule } from '../../../src/core/plays/success-rules.ts';
import type { Situation } from '../../../src/core/plays/situation.ts';
import { randomFrom } from '../../../src/core/random.ts';
import { situations } from '../plays/situations.ts';
import { drawGain } from './draw-carry.ts';

const models = fc.constantFrom(...Object.values(yardsModels));
const runs = fc.tuple(situations, fc.option(fc.boolean()), fc.option(fc.integer({ min: 0, max: 11 })));

function expectation(situation: Situation, model = yardsModels.college): ExpectedYards {
  const answer = expectedYards(model, situation);
  if (!answer.known) throw new Error(answer.detail);
  return answer.value;
}

describe('expected yards', () => {
  test('of any snap are chances that sum to 1 and end at the goal line', () => {
    fc.assert(
      fc.property(models, runs, fc.boolean(), (model, [situation, shotgun, box], borrowBox) => {
        const answer = expectedYards(model, { ...situation, shotgun, box }, { borrowBox });
        if (!answer.known) throw new Error(answer.detail);
        const { chances, mean, median, variance } = answer.value;
        expect(chances.from + chances.chances.length - 1).toBe(situation.yardsToGoal);
        expect(chances.chances.reduce((sum, chance) => sum + chance, 0)).toBeCloseTo(1, 12);
        for (const chance of chances.chances) expect(chance).toBeGreaterThanOrEqual(0);
        expect(mean).toBeGreaterThan(-6);
        expect(mean).toBeLessThanOrEqual(situation.yardsToGoal);
        expect(median).toBeLessThanOrEqual(situation.yardsToGoal);
        expect(variance).toBeGreaterThan(0);
        const { chanceOfTouchdown, chanceOfFirstDown, chanceOfSuccess, chanceOfLoss } = answer.value;
        expect(chanceOfTouchdown).toBeLessThanOrEqual(chanceOfFirstDown + 1e-12);
        expect(chanceOfFirstDown).toBeLessThanOrEqual(chanceOfSuccess + 1e-12);
        expect(chanceOfSuccess + chanceOfLoss).toBeLessThanOrEqual(1 + 1e-12);
      }),
    );
  });

  test.each([
    [{ down: 5, toGo: 10, yardsToGoal: 60 }, 'impossible down'],
    [{ down: 1, toGo: 10, yardsToGoal: 0 }, 'impossible spot'],
    [{ down: 1, toGo: 10, yardsToGoal: 100 }, 'impossible spot'],
    [{ down: 1, toGo: 0, yardsToGoal: 60 }, 'impossible to go'],
    [{ down: 1, toGo: 10, yardsToGoal: 9 }, 'to go past the goal line'],
    [{ down: 1, toGo: 10, yardsToGoal: 60, box: 12 }, 'impossible box'],
  ])('of %o are refused because of: %s', (run, because) => {
    expect(expectedYards(yardsModels.college, run)).toMatchObject({ known: false, because });
  });

  test('borrow the professional effect of the box only on request, and say so', () => {
    const run = Object.freeze({ down: 1, toGo: 10, yardsToGoal: 60, box: 8 });
    const plain = expectedYards(yardsModels.college, run);
    const asked = expectedYards(yardsModels.college, run, { borrowBox: true });
    const seven = expectedYards(yardsModels.college, { ...run, box: 7 }, { borrowBox: true });
    const own = expectedYards(yardsModels['professional with box'], run, { borrowBox: true });
    if (!plain.known || !asked.known || !seven.known || !own.known) throw new Error('all four are possible');
    expect(plain.value.borrowed).toBeNull();
    expect(asked.value.borrowed).toMatch(/8 in the box borrowed/);
    expect(own.value.borrowed).toBeNull();
    expect(asked.value.mean).toBeLessThan(plain.value.mean);
    expect(seven.value.mean).toBeCloseTo(plain.value.mean, 12);
  });

  test('answer by the success rule asked for', () => {
    const run = { down: 1, toGo: 10, yardsToGoal: 60 };
    const answer = expectedYards(yardsModels.college, run, { rule: collegeRule });
    expect(answer).toMatchObject({ value: { needed: 5, rule: 'college', model: yardsModels.college.name } });
  });
});

describe('a model file', () => {
  test('is refused with the first thing wrong in it', () => {
    const good = yardsModels.college;
    const wrong: readonly (readonly [unknown, RegExp])[] = [
      [null, /wants an object/],
      [{ ...good, format: 'else' }, /format wants/],
      [{ ...good, name: '' }, /name wants words/],
      [{ ...good, features: ['weather'] }, /features want/],
      [{ ...good, alpha: { ...good.alpha, '3': 'x' } }, /alpha wants a value at 3/],
      [{ ...good, beta: { loss: { down: { '7': 1 } } } }, /known levels of down, got 7/],
      [{ ...good, beta: { later: {} } }, /beta wants segments/],
      [{ ...good, sticks: {} }, /sticks are missing/],
      [{ ...good, meanOfLossesOfFourOrMore: 3 }, /-4 or below/],
      [{ ...good, spread: { delta: good.spread.delta } }, /spread of success/],
    ];
    for (const [parsed, words] of wrong) {
      const answer = yardsModelFrom(parsed);
      expect(answer).toMatchObject({ known: false, because: 'not a model file' });
      expect(!answer.known && answer.detail).toMatch(words);
    }
    expect(yardsModelFrom(good)).toEqual({ known: true, value: good });
  });

  test('of any JSON value is known or refused, never broken', () => {
    fc.assert(
      fc.property(fc.jsonValue(), (parsed) => {
        expect(yardsModelFrom(parsed).known).toBe(false);
      }),
    );
  });
});

describe('delta', () => {
  test('is gain less mean, with the model variance behind its error, and shrinks by n / (n + k)', () => {
    const expected = expectation({ down: 1, toGo: 10, yardsToGoal: 75 });
    const residuals = Array.from({ length: 40 }, (_, at) => residualOf(at % 9, expected));
    const summary = deltaSummary(residuals, yardsModels.college.spread.delta);
    if (!summary.known) throw new Error(summary.detail);
    const { mean, shrunk, standardError, reliability, n, small } = summary.value;
    expect(mean).toBeCloseTo(residuals.reduce((sum, { delta }) => sum + delta, 0) / 40, 12);
    expect(shrunk).toBeCloseTo((mean * 40) / 152, 12);
    expect(reliability).toBeCloseTo(40 / 152, 12);
    expect(standardError).toBeCloseTo(Math.sqrt(expected.variance / 40), 12);
    // In open field a carry's spread is 9.2 yards; over a season's situations it is the 7.9 of the model's file.
    expect(Math.sqrt(expected.variance)).toBeCloseTo(9.18, 2);
    expect([n, small]).toEqual([40, false]);
    expect(deltaSummary([], yardsModels.college.spread.delta)).toMatchObject({ because: 'no carries' });
    expect(runningDelta(residuals).at(-1)?.mean).toBeCloseTo(mean, 12);
    expect(runningDelta([])).toEqual([]);
  });

  test('and success over expected average to nothing on carries drawn from the model, inside their intervals', () => {
    const random = randomFrom(31);
    const worlds = 400;
    let inside = 0;
    let insideSuccess = 0;
    for (let world = 0; world < worlds; world += 1) {
      const residuals = Array.from({ length: 60 }, (_, at) => {
        const expected = expectation({ down: 1, toGo: 10, yardsToGoal: 40 + (at % 40) });
        return residualOf(drawGain(expected.chances, random), expected);
      });
      const delta = deltaSummary(residuals, yardsModels.college.spread.delta);
      const success = successOverExpected(residuals, yardsModels.college.spread.success);
      if (!delta.known || !success.known) throw new Error('carries give a mean');
      if (Math.abs(delta.value.mean) <= 1.96 * delta.value.standardError) inside += 1;
      if (Math.abs(success.value.mean) <= 1.96 * success.value.standardError) insideSuccess += 1;
    }
    expect(inside / worlds).toBeGreaterThan(0.92);
    expect(inside / worlds).toBeLessThan(0.98);
    expect(insideSuccess / worlds).toBeGreaterThan(0.92);
    expect(insideSuccess / worlds).toBeLessThan(0.98);
  });

  test('refuses a gain past the goal line', () => {
    const expected = expectation({ down: 1, toGo: 5, yardsToGoal: 5 });
    expect(() => residualOf(6, expected)).toThrow(/from -110 to 5/);
    expect(() => residualOf(0.5, expected)).toThrow(RangeError);
    expect(() => reliabilityOf(3, 0)).toThrow(RangeError);
  });
});

describe('adjusted deltas', () => {
  const spread = yardsModels.college.spread.delta;
  const expected = expectation({ down: 1, toGo: 10, yardsToGoal: 75 });
  const own = Array.from({ length: 10 }, () => residualOf(8, expected));
  const others = Array.from({ length: 50 }, () => residualOf(5, expected));

  test("take out the team's other carries", () => {
    const answer = overTeammates(own, others, spread);
    if (!answer.known) throw new Error(answer.detail);
    expect(answer.value.difference).toBeCloseTo(3, 12);
    expect(answer.value.standardError).toBeCloseTo(Math.sqrt(expected.variance * (1 / 10 + 1 / 50)), 12);
    expect(overTeammates(own, [], spread)).toMatchObject({ because: 'no other carries' });
  });

  test('take out what each defence allows, shrunk, and say how many defences are known', () => {
    const table = new Map([['rich', { delta: 1, carries: 400 }]]);
    const carries = own.map((residual, at) => ({ residual, defence: at < 6 ? 'rich' : at < 8 ? 'poor' : null }));
    const answer = opponentAdjusted(carries, table, spread);
    if (!answer.known) throw new Error(answer.detail);
    const { plain, adjusted } = answer.value;
    expect(plain.mean - adjusted.mean).toBeCloseTo((0.6 * 400) / 512, 12);
    expect(adjusted.standardError).toBeGreaterThan(plain.standardError);
    expect([answer.value.known, answer.value.unknown]).toEqual([6, 4]);
    expect(opponentAdjusted(carries, new Map(), spread)).toMatchObject({ because: 'no defence known' });
  });
});

describe('scores', () => {
  test('of a sure gain are its absolute error, and nothing when it came', () => {
    const sure = { from: 0, chances: [0, 0, 0, 1] };
    expect(crps(sure, 3)).toBe(0);
    expect(crps(sure, 1)).toBe(2);
    expect(logScore(sure, 3)).toBeCloseTo(0, 12);
    expect(Number.isFinite(logScore(sure, 1))).toBe(true);
    expect(logLoss(0.25, true)).toBeCloseTo(Math.log(4), 12);
    expect(() => crps(sure, 4)).toThrow(RangeError);
    expect(() => logLoss(1.1, true)).toThrow(RangeError);
  });

  test('are best, on average, for the distribution that the gains come from', () => {
    const random = randomFrom(8);
    const truth = expectation({ down: 1, toGo: 10, yardsToGoal: 60 }).chances;
    const other = expectation({ down: 3, toGo: 1, yardsToGoal: 60 }).chances;
    let difference = 0;
    let logs = 0;
    for (let at = 0; at < 5000; at += 1) {
      const gain = drawGain(truth, random);
      difference += crps(other, gain) - crps(truth, gain);
      logs += logScore(other, gain) - logScore(truth, gain);
    }
    expect(difference).toBeGreaterThan(0);
    expect(logs).toBeGreaterThan(0);
  });
});

describe('calibration of a study', () => {
  test('puts every carry in a bin and finds the model calibrated on its own carries', () => {
    const random = randomFrom(77);
    const carries = Array.from({ length: 3000 }, () => {
      const yardsToGoal = 1 + random.below(99);
      const expected = expectation({ down: 1, toGo: Math.min(10, yardsToGoal), yardsToGoal });
      return { gain: drawGain(expected.chances, random), expected };
    });
    const answer = calibrate(carries, 6);
    if (!answer.known) throw new Error(answer.detail);
    const { all, success, yardsBins, successBins } = answer.value;
    expect(yardsBins.reduce((sum, { n }) => sum + n, 0)).toBe(3000);
    expect(successBins.reduce((sum, { seen }) => sum + seen.n, 0)).toBe(3000);
    expect(Math.abs(all.seen - all.expected)).toBeLessThan(3 * all.standardError);
    expect(success.expected).toBeGreaterThan(success.seen.low - 0.02);
    expect(success.expected).toBeLessThan(success.seen.high + 0.02);
    for (const bin of yardsBins) expect(Math.abs(bin.seen - bin.expected)).toBeLessThan(4 * bin.standardError);
    expect(calibrate([])).toMatchObject({ because: 'no carries' });
    expect(() => calibrate(carries, 0)).toThrow(RangeError);
  });
});
