/** Proper scores of a distribution of gains against the gain that came; lower is better. */
import type { GainChances } from './hazard.ts';

/** The least chance a logarithm is taken of, so that no score is infinite. */
const leastChance = 1e-12;

/** The gain as the distribution tells it apart: what lies below its first yard counts as that yard. */
function placeOf(pmf: GainChances, gain: number): number {
  const at = Math.max(0, gain - pmf.from);
  if (!(Number.isInteger(gain) && gain >= -110 && at < pmf.chances.length)) {
    const longest = pmf.from + pmf.chances.length - 1;
    throw new RangeError(`a gain wants whole yards from -110 to ${longest}, got ${gain}`);
  }
  return at;
}

/**
 * Continuous ranked probability score, yards, from 0: the sum over yards of (P(gain <= y) - [gain came by y])^2. For a
 * distribution that is sure of one gain it is the absolute error. Throws RangeError on a gain outside the distribution.
 * Source: Matheson & Winkler 1976, Management Science 22:1087-1096; Gneiting & Raftery 2007, J. Am. Stat. Assoc.
 * 102:359-378 (citations from memory).
 */
export function crps(pmf: GainChances, gain: number): number {
  const place = placeOf(pmf, gain);
  let below = 0;
  let score = 0;
  for (const [at, chance] of pmf.chances.entries()) {
    below += chance;
    const miss = below - (at >= place ? 1 : 0);
    score += miss * miss;
  }
  return score;
}

/** Minus the natural logarithm of the chance given to the gain that came, from 0 to 27.6. Throws as crps. */
export function logScore(pmf: GainChances, gain: number): number {
  return -Math.log(Math.max(leastChance, pmf.chances[placeOf(pmf, gain)] ?? 0));
}

/**
 * Minus the natural logarithm of the chance (0 to 1) given to what came (a success or not), from 0 to 27.6. Throws
 * RangeError on another chance.
 */
export function logLoss(chance: number, came: boolean): number {
  if (!(chance >= 0 && chance <= 1)) throw new RangeError(`a chance wants 0 to 1, got ${chance}`);
  return -Math.log(Math.max(leastChance, came ? chance : 1 - chance));
}
