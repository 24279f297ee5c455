/** Fitting the hazard model to a user's own carries. */
import { type Known, known, unknown } from '../known.ts';
import type { FitCarry } from './fit-carry.ts';
import { type Coefficient, fitDesign, type FitFeature } from './fit-design.ts';
import { constantScores, expectations, holdOut, modelScores, succeeded } from './fit-held-out.ts';
import { fitCoefficients } from './fit-newton.ts';
import { spreadOf } from './fit-spread.ts';
import { alphaRanges, type Feature, lowestGain, type YardsModel, yardsModels } from './yards-model.ts';

/** What a model is to be called and where its carries come from, in words to show beside every figure. */
export type FitNames = { readonly key: string; readonly name: string; readonly source: string };

/** One coefficient with its estimate and standard error, on the logit scale. */
export type CoefficientLine = { readonly coefficient: Coefficient; readonly value: number; readonly error: number };

/** A fitted model and what stands behind it. */
export type YardsFit = {
  readonly model: YardsModel;
  readonly coefficients: readonly CoefficientLine[];
  readonly steps: number;
  /** Counts that the reader of the model should know of. */
  readonly counts: {
    readonly carries: number;
    readonly withShotgun: number;
    readonly withBox: number;
    readonly runners: number;
  };
};

/** Fewer carries than this are not fitted. Own convention, no source. */
export const carriesNeeded = 1000;

/**
 * Fits the model to carries: first on those not held out, for the scores; then on all. Shotgun and box enter when at
 * least half of the carries have them. Spread between runners is estimated where runners are named, otherwise the college
 * figures stand, marked as assumed. Reasons: 'too few carries' (under 1,000), 'does not settle'.
 * Form: hazard.ts; estimation: fit-newton.ts.
 */
export function fitYardsModel(
  carries: readonly FitCarry[],
  names: FitNames,
): Known<YardsFit, 'too few carries' | 'does not settle'> {
  if (carries.length < carriesNeeded) {
    return unknown('too few carries', `A fit wants at least ${carriesNeeded} carries, got ${carries.length}.`);
  }
  const withShotgun = carries.filter(({ shotgun }) => shotgun !== null).length;
  const withBox = carries.filter(({ box }) => box !== null).length;
  const extra: FitFeature[] = [];
  if (withShotgun * 2 >= carries.length) extra.push('shotgun');
  if (withBox * 2 >= carries.length) extra.push('box');
  const split = holdOut(carries);
  const trained = fitOnce(split.fitOn, extra, names);
  if (!trained.known) return trained;
  const full = fitOnce(carries, extra, names);
  if (!full.known) return full;
  const spread = spreads(full.value.model, carries);
  return known({
    ...full.value,
    model: {
      ...full.value.model,
      heldOut: {
        carries: split.scoreOn.length,
        trainedOn: split.fitOn.length,
        seasons: split.seasons,
        constant: constantScores(split.fitOn, split.scoreOn),
        model: modelScores(trained.value.model, split.scoreOn),
      },
      spread,
    },
    counts: {
      carries: carries.length,
      withShotgun,
      withBox,
      runners: new Set(carries.flatMap(({ runner }) => (runner === null ? [] : [runner]))).size,
    },
  });
}

function fitOnce(carries: readonly FitCarry[], extra: readonly FitFeature[], names: FitNames) {
  const design = fitDesign(carries, extra);
  const fitted = fitCoefficients(design);
  if (!fitted.known) return fitted;
  const lines = design.coefficients.map((coefficient, at) => ({
    coefficient,
    value: fitted.value.values[at] ?? 0,
    error: fitted.value.errors[at] ?? 0,
  }));
  const reached = new Set(design.rows.map(({ columns }) => columns[0]));
  const alpha: Record<string, number> = {};
  let last = 0;
  for (const [at, { key }] of alphaRanges.entries()) {
    // Yards no carry reached say nothing: they go on as the yards before them.
    if (reached.has(at)) last = lines[at]?.value ?? 0;
    alpha[key] = last;
  }
  const beta: Record<string, Partial<Record<Feature, Record<string, number>>>> = {};
  const sticks = { oneShort: 0, atSticks: 0 };
  for (const { coefficient, value } of lines) {
    if (coefficient.kind === 'beta') {
      const effects = (beta[coefficient.segment] ??= {});
      (effects[coefficient.feature] ??= {})[coefficient.level] = value;
    } else if (coefficient.kind === 'sticks') sticks[coefficient.at] = value;
  }
  const lumped = carries.filter(({ gain }) => gain <= lowestGain);
  const model: YardsModel = {
    format: 'creasebook expected yards 1',
    ...names,
    carries: carries.length,
    features: ['down', 'toGo', 'yardsToGoal', ...extra],
    alpha,
    beta,
    sticks,
    meanOfLossesOfFourOrMore: lumped.length === 0 ? lowestGain : meanOf(lumped.map(({ gain }) => gain)),
    marginal: marginalOf(carries),
    heldOut: null,
    spread: { ...yardsModels.college.spread, assumed: true },
  };
  return known({ model, coefficients: lines, steps: fitted.value.steps });
}

function marginalOf(carries: readonly FitCarry[]): YardsModel['marginal'] {
  const mean = meanOf(carries.map(({ gain }) => gain));
  const variance = meanOf(carries.map(({ gain }) => (gain - mean) ** 2));
  return { mean, sd: Math.sqrt(variance), success: carries.filter(succeeded).length / carries.length };
}

function spreads(model: YardsModel, carries: readonly FitCarry[]): YardsModel['spread'] {
  const expectation = expectations(model);
  const owned = carries.flatMap((carry) => {
    if (carry.runner === null) return [];
    const expected = expectation(carry);
    const owner = `${carry.runner} ${carry.season ?? ''}`;
    return [
      {
        owner,
        delta: carry.gain - expected.mean,
        success: (succeeded(carry) ? 1 : 0) - expected.chanceOfSuccess,
      },
    ];
  });
  const delta = spreadOf(owned.map(({ owner, delta: residual }) => ({ owner, residual })));
  const success = spreadOf(owned.map(({ owner, success: residual }) => ({ owner, residual })));
  if (delta === null || success === null) return model.spread;
  return { delta, success, assumed: false };
}

function meanOf(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}
