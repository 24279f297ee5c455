/** Weights: made to add up to 1, taken from a rubric, or made from a ranking. */
import { type Known, known, unknown } from '../known.ts';
import type { Rubric } from './rubric.ts';

/** A trait's share of the whole and of its family, both 0 to 1. */
export type TraitWeight = {
  readonly trait: string;
  readonly family: string;
  readonly inFamily: number;
  readonly overall: number;
};

/**
 * Scales weights (any length, each 0 or more, any unit) so that they add up to 1; multiplying all by one number
 * changes nothing. Reason 'no weight' when all are zero or none is given. Throws RangeError on a negative or
 * non-finite weight.
 */
export function normaliseWeights(weights: readonly number[]): Known<readonly number[], 'no weight'> {
  let largest = 0;
  for (const weight of weights) {
    if (!Number.isFinite(weight) || weight < 0) throw new RangeError(`a weight wants 0 or more, got ${weight}`);
    largest = Math.max(largest, weight);
  }
  if (largest === 0) return unknown('no weight', 'Every weight is zero; at least one must be above zero.');
  // Divided by the largest first, so that neither tiny nor huge weights lose or overflow their sum.
  const scaled = weights.map((weight) => weight / largest);
  const total = scaled.reduce((sum, weight) => sum + weight, 0);
  return known(scaled.map((weight) => weight / total));
}

/**
 * Lists each trait's share of its family and of the whole (both 0 to 1; the overall shares add up to 1), in the
 * rubric's order. Families of weight 0 are kept with share 0. Reason 'no weight' when the families, or the traits of a
 * family that has weight, weigh nothing. Throws RangeError on a negative or non-finite weight.
 */
export function traitWeights(rubric: Rubric): Known<readonly TraitWeight[], 'no weight'> {
  const families = normaliseWeights(rubric.families.map((family) => family.weight));
  if (!families.known) return families;
  const rows: TraitWeight[] = [];
  for (const [index, family] of rubric.families.entries()) {
    const share = families.value[index] ?? 0;
    const traits = normaliseWeights(family.traits.map((trait) => trait.weight));
    if (!traits.known && share > 0) return traits;
    for (const [at, trait] of family.traits.entries()) {
      const inFamily = traits.known ? (traits.value[at] ?? 0) : 0;
      rows.push({ trait: trait.key, family: family.key, inFamily, overall: share * inFamily });
    }
  }
  return known(rows);
}

/**
 * Weights of `count` things ranked from most to least important, by rank-order centroid: w_i = (1/n) sum over k from i
 * to n of 1/k; they add up to 1. Reason 'no weight' for a count of 0. Throws RangeError unless count is a whole number
 * from 0. Source: Edwards & Barron 1994, Organizational Behavior and Human Decision Processes 60:306-325.
 */
export function rankOrderCentroid(count: number): Known<readonly number[], 'no weight'> {
  return ranked(count, (index) => {
    let sum = 0;
    for (let k = count; k > index; k -= 1) sum += 1 / k;
    return sum / count;
  });
}

/**
 * Weights of `count` things ranked from most to least important, by rank sum: w_i = 2(n + 1 - i) / (n(n + 1)); they
 * add up to 1. Reason 'no weight' for a count of 0. Throws RangeError unless count is a whole number from 0.
 * Source: Stillwell, Seaver & Edwards 1981, same journal 28:62-77 (citation from memory).
 */
export function rankSum(count: number): Known<readonly number[], 'no weight'> {
  return ranked(count, (index) => (2 * (count - index)) / (count * (count + 1)));
}

function ranked(count: number, weight: (index: number) => number): Known<readonly number[], 'no weight'> {
  if (!Number.isInteger(count) || count < 0) throw new RangeError(`a count wants a whole number from 0, got ${count}`);
  if (count === 0) return unknown('no weight', 'Nothing was ranked.');
  return known(Array.from({ length: count }, (_, index) => weight(index)));
}
