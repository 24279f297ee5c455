/** Plain description of weighted marks, to set beside a grade that is shrunk towards the class. */
import { type Known, known, unknown } from '../known.ts';

/** Weighted mean and standard deviation, in the values' unit; `values` counts those with weight. */
export type WeightedSpread = { readonly mean: number; readonly sd: number; readonly values: number };

/**
 * Weighted mean, and standard deviation with divisor (n - 1)/n times the sum of weights, n the values with a weight above
 * 0: the same spread that is pooled within games, for weights of mean 1. Reason 'fewer than two' values with weight.
 * Throws RangeError when lengths differ, a value is not finite or a weight is below 0.
 * Source: NIST Dataplot Reference Manual, Weighted Standard Deviation, 2-66.
 */
export function weightedSpread(
  values: readonly number[],
  weights: readonly number[],
): Known<WeightedSpread, 'fewer than two'> {
  if (values.length !== weights.length) {
    throw new RangeError(`a weight for each value wanted, got ${values.length} and ${weights.length}`);
  }
  let sum = 0;
  let weighted = 0;
  let count = 0;
  for (const [at, value] of values.entries()) {
    const weight = weights[at] ?? 0;
    if (!Number.isFinite(value) || !(weight >= 0 && weight < Infinity)) {
      throw new RangeError(`a finite value with a weight from 0 wanted, got ${value} with ${weight}`);
    }
    sum += weight;
    weighted += weight * value;
    if (weight > 0) count += 1;
  }
  if (count < 2) return unknown('fewer than two', `A spread needs two values with weight, got ${count}.`);
  const mean = weighted / sum;
  const squares = values.reduce((total, value, at) => total + (weights[at] ?? 0) * (value - mean) ** 2, 0);
  return known({ mean, sd: Math.sqrt(squares / (((count - 1) / count) * sum)), values: count });
}
