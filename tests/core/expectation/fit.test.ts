import { describe, expect, test } from 'vitest';
import { fitTable } from '../../../src/core/expectation/fit-carry.ts';
import { fitCard } from '../../../src/core/expectation/fit-card.ts';
import { holdOut } from '../../../src/core/expectation/fit-held-out.ts';
import { spreadOf } from '../../../src/core/expectation/fit-spread.ts';
import { recoveryMisses } from './recovery-misses.ts';
import { fitYardsModel, type YardsFit } from '../../../src/core/expectation/fit.ts';
import { type YardsModel, yardsModelFrom, yardsModels } from '../../../src/core/expectation/yards-model.ts';
import { randomFrom } from '../../../src/core/random.ts';
import { drawCarries } from './draw-carry.ts';

const names = { key: 'drawn', name: 'Drawn carries', source: 'drawn from a known model' };

function fitted(model: YardsModel, count: number, seed: number): YardsFit {
  const fit = fitYardsModel(drawCarries(model, count, randomFrom(seed)), names);
  if (!fit.known) throw new Error(fit.detail);
  return fit.value;
}

describe('a fit to carries drawn from a known model', () => {
  // Of 144 or 186 coefficients one in 22 lies beyond two standard errors by chance alone; all of them inside would be a
  // sign of errors stated too large. Over three draws the share inside is .95 with a spread of about .015.
  test.each([
    { name: 'college', model: yardsModels.college, coefficients: 144, seeds: [1, 2, 3] },
    { name: 'professional with box', model: yardsModels['professional with box'], coefficients: 186, seeds: [4] },
  ])('of 200,000 finds the $name coefficients within twice their standard errors', ({ model, coefficients, seeds }) => {
    const away = seeds.flatMap((seed) => recoveryMisses(model, 200_000, seed));
    expect(away).toHaveLength(coefficients * seeds.length);
    expect(away.filter((miss) => miss <= 2).length / away.length).toBeGreaterThan(0.91);
    expect(Math.max(...away)).toBeLessThan(4.5);
  });

  test('scores better on held-out carries than one distribution for all', () => {
    const { heldOut } = fitted(yardsModels.college, 30_000, 9).model;
    if (heldOut === null) throw new Error('a fit is scored');
    expect(heldOut.seasons).toEqual(['2018', '2019']);
    expect(heldOut.carries + heldOut.trainedOn).toBe(30_000);
    for (const score of ['rmse', 'crps', 'logScore', 'successLogLoss'] as const) {
      expect(heldOut.model[score]).toBeLessThan(heldOut.constant[score]);
    }
  });

  test('does not depend on the order of the carries beyond rounding', () => {
    const carries = drawCarries(yardsModels.college, 3000, randomFrom(3)).map((carry) => ({ ...carry, season: 'one' }));
    const one = fitYardsModel(carries, names);
    const other = fitYardsModel(carries.toReversed(), names);
    if (!one.known || !other.known) throw new Error('both fits settle');
    for (const [key, value] of Object.entries(one.value.model.alpha)) {
      expect(other.value.model.alpha[key]).toBeCloseTo(value, 9);
    }
  });

  test('makes a model file that reads back, and a card that says what was assumed', () => {
    const fit = fitted(yardsModels.college, 2000, 4);
    const read = yardsModelFrom(JSON.parse(JSON.stringify(fit.model)));
    expect(read).toEqual({ known: true, value: fit.model });
    const card = fitCard(fit, { 'impossible gain': 3 });
    expect(card).toMatch(/3 \(impossible gain\)/);
    expect(card).toMatch(/assumed from the college fit/);
    expect(card).not.toMatch(/NaN|undefined|Infinity/);
  });

  test('is refused for fewer than a thousand carries', () => {
    const answer = fitYardsModel(drawCarries(yardsModels.college, 999, randomFrom(1)), names);
    expect(answer).toMatchObject({ known: false, because: 'too few carries' });
  });
});

describe("a user's table", () => {
  const row = { Down: '1', 'To go': '10', yards_to_goal: '60', GAIN: '4', Shotgun: 'yes', season: '2024', other: 'x' };

  test('is read whatever the case and spacing of its headings', () => {
    expect(fitTable([row])).toEqual({
      known: true,
      value: {
        carries: [
          { down: 1, toGo: 10, yardsToGoal: 60, gain: 4, shotgun: true, box: null, season: '2024', runner: null },
        ],
        skipped: {},
      },
    });
    expect(fitTable([{ down: '2', to_go: '3', spot: '40', gain: '-2' }])).toMatchObject({
      value: { carries: [{ yardsToGoal: 60, gain: -2 }] },
    });
  });

  test('counts the rows it must skip, by reason', () => {
    const answer = fitTable([
      row,
      { ...row, Down: '5' },
      { ...row, GAIN: '61' },
      { ...row, GAIN: '' },
      { ...row, Shotgun: 'perhaps' },
      { ...row, 'To go': '70' },
    ]);
    expect(answer).toMatchObject({
      value: {
        skipped: { 'impossible down': 1, 'impossible gain': 2, 'unclear shotgun': 1, 'to go past the goal line': 1 },
      },
    });
  });

  test('is refused without its columns or without a carry', () => {
    expect(fitTable([])).toMatchObject({ because: 'no carries' });
    expect(fitTable([{ down: '1' }])).toMatchObject({ because: 'missing columns' });
    expect(fitTable([{ ...row, Down: 'first' }])).toMatchObject({ because: 'no carries' });
  });
});

describe('carries held out', () => {
  test('are the last seasons that make up a fifth, or every fourth carry where seasons are missing', () => {
    const carries = drawCarries(yardsModels.college, 600, randomFrom(2));
    expect(holdOut(carries).seasons).toEqual(['2018', '2019']);
    const bare = carries.map((carry) => ({ ...carry, season: null }));
    const split = holdOut(bare);
    expect([split.fitOn.length, split.scoreOn.length, split.seasons]).toEqual([450, 150, []]);
  });
});

describe('spread between runners', () => {
  test('is found again from residuals drawn with a known one', () => {
    const random = randomFrom(12);
    const residuals = Array.from({ length: 400 }, (_, owner) => {
      const own = 0.9 * random.normal();
      return Array.from({ length: 60 + random.below(120) }, () => ({
        owner: String(owner),
        residual: own + 7.9 * random.normal(),
      }));
    }).flat();
    const spread = spreadOf(residuals);
    expect(spread?.carrySd).toBeCloseTo(7.9, 1);
    expect(Math.abs((spread?.betweenRunnersSd ?? 0) - 0.9)).toBeLessThan(0.15);
    expect(spreadOf(residuals.filter(({ owner }) => Number(owner) < 20))).toBeNull();
  });
});
