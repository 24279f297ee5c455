/** Weights that are themselves not sure: draws around the stated ones. */
import type { Random } from '../random.ts';

/**
 * Draws sets of weights from a Dirichlet with the given mean weights (0 or more, adding up to 1) and concentration (1
 * or more; a trait of weight w then varies with variance w(1 - w)/(concentration + 1)). Draw by draw, weight by weight;
 * a weight of 0 stays 0. Throws RangeError on a concentration below 1. Source: gamma construction, Devroye 1986,
 * Non-Uniform Random Variate Generation, ch. XI.4 (citation from memory).
 */
export function drawWeights(
  weights: readonly number[],
  concentration: number,
  draws: number,
  random: Random,
): Float64Array {
  if (!(concentration >= 1 && concentration < Infinity)) {
    throw new RangeError(`a concentration wants 1 or more, got ${concentration}`);
  }
  const width = weights.length;
  const drawn = new Float64Array(draws * width);
  for (let draw = 0; draw < draws; draw += 1) {
    let total = 0;
    for (let at = 0; at < width; at += 1) {
      const weight = weights[at] ?? 0;
      const value = weight > 0 ? random.gamma(concentration * weight) : 0;
      drawn[draw * width + at] = value;
      total += value;
    }
    for (let at = 0; at < width; at += 1) {
      // Gammas of tiny shape can all round to 0; the mean is then the only honest draw left.
      drawn[draw * width + at] = total > 0 ? (drawn[draw * width + at] ?? 0) / total : (weights[at] ?? 0);
    }
  }
  return drawn;
}
