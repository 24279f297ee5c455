import { type Coefficient, fitDesign, type FitFeature } from '../../../src/core/expectation/fit-design.ts';
import { fitCoefficients } from '../../../src/core/expectation/fit-newton.ts';
import type { YardsModel } from '../../../src/core/expectation/yards-model.ts';
import { randomFrom } from '../../../src/core/random.ts';
import { drawCarries } from './draw-carry.ts';

/** How many standard errors each fitted coefficient lies from the one the carries were drawn with. */
export function recoveryMisses(truth: YardsModel, carries: number, seed: number): readonly number[] {
  const extra = (['shotgun', 'box'] as const).filter((feature: FitFeature) => truth.features.includes(feature));
  const design = fitDesign(drawCarries(truth, carries, randomFrom(seed)), extra);
  const fitted = fitCoefficients(design);
  if (!fitted.known) throw new Error(fitted.detail);
  const { values, errors } = fitted.value;
  return design.coefficients.map((coefficient, at) => {
    return Math.abs((values[at] ?? 0) - trueValue(truth, coefficient)) / (errors[at] ?? 1);
  });
}

function trueValue(truth: YardsModel, coefficient: Coefficient): number {
  if (coefficient.kind === 'alpha') return truth.alpha[coefficient.key] ?? 0;
  if (coefficient.kind === 'sticks') return truth.sticks[coefficient.at];
  return truth.beta[coefficient.segment]?.[coefficient.feature]?.[coefficient.level] ?? 0;
}
