/**
 * The three fits against vectors computed from the same coefficients by two independent readings, to 2e-4.
 * Sources of the figures: see `source` in src/core/expectation/data/yards-models.json.
 */
import { describe, expect, test } from 'vitest';
import { expectedYards } from '../../src/core/expectation/expected-yards.ts';
import { yardsModels } from '../../src/core/expectation/yards-model.ts';
import vectors from './data/yards-model-vectors.json' with { type: 'json' };

const fits = {
  college_rb_2014_2020: yardsModels.college,
  nfl_nonqb_2009_2019: yardsModels.professional,
  nfl_nonqb_box_2016_2019: yardsModels['professional with box'],
};

const close = (value: number, wanted: number) => expect(Math.abs(value - wanted)).toBeLessThan(2e-4);

describe('expected yards', () => {
  test.each(vectors)('agree with the vector $model $down and $ydstogo, $yardline_100 to the goal line', (vector) => {
    const model = fits[vector.model as keyof typeof fits];
    const answer = expectedYards(model, {
      down: vector.down,
      toGo: vector.ydstogo,
      yardsToGoal: vector.yardline_100,
      box: vector.box,
      shotgun: vector.shotgun === null ? null : vector.shotgun === 1,
    });
    if (!answer.known) throw new Error(answer.detail);
    const got = answer.value;
    const tenPlus = got.chances.chances.reduce(
      (sum, chance, at) => sum + (got.chances.from + at >= 10 ? chance : 0),
      0,
    );
    close(got.mean, vector.mean);
    expect(got.median).toBe(vector.median);
    expect(got.needed).toBe(vector.need);
    close(got.chanceOfSuccess, vector.p_success);
    close(got.chanceOfLoss, vector.p_loss);
    close(tenPlus, vector.p_10plus);
    close(got.chanceOfFirstDown, vector.p_first_down);
    close(got.chanceOfTouchdown, vector.p_td);
    close(
      got.chances.chances.reduce((sum, chance) => sum + chance, 0),
      vector.sum,
    );
  });
});
