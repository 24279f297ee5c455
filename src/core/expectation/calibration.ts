/** Whether a study's own carries went as the model expected. */
import { type Known, known, unknown } from '../known.ts';
import { type Rate, rateOf } from '../plays/success-rate.ts';
import { residualOf } from './delta.ts';
import type { ExpectedYards } from './expected-yards.ts';
import { crps, logLoss, logScore } from './scores.ts';
import type { HeldOutScores } from './yards-model.ts';

/** A carry with its expectation; gain in whole yards. */
export type ExpectedCarry = { readonly gain: number; readonly expected: ExpectedYards };

/** Carries alike in what was expected of them: means in yards, the error of the seen one by the model. */
export type YardsBin = {
  readonly n: number;
  readonly expected: number;
  readonly seen: number;
  readonly standardError: number;
};

/** Carries alike in their chance of success: the mean chance and what came. */
export type SuccessBin = { readonly expected: number; readonly seen: Rate };

/** The model's figures against what came, over all carries and in bins of equal size. */
export type Calibration = {
  readonly all: YardsBin;
  readonly success: SuccessBin;
  readonly yardsBins: readonly YardsBin[];
  readonly successBins: readonly SuccessBin[];
  readonly scores: HeldOutScores;
};

/**
 * Calibration of carries against their expectations, in `bins` bins of (nearly) equal size, 5 if not given; bins hold
 * at least one carry. Reasons: 'no carries'. Throws RangeError on bins that are not 1 to 100 and on impossible gains.
 */
export function calibrate(carries: readonly ExpectedCarry[], bins = 5): Known<Calibration, 'no carries'> {
  if (!(Number.isInteger(bins) && bins >= 1 && bins <= 100)) throw new RangeError(`bins want 1 to 100, got ${bins}`);
  if (carries.length === 0) return unknown('no carries', 'Calibration needs at least one carry, got none.');
  const byMean = [...carries].sort((a, b) => a.expected.mean - b.expected.mean || a.gain - b.gain);
  const byChance = [...carries].sort(
    (a, b) => a.expected.chanceOfSuccess - b.expected.chanceOfSuccess || a.gain - b.gain,
  );
  return known({
    all: yardsBin(byMean),
    success: successBin(byChance),
    yardsBins: cut(byMean, bins).map(yardsBin),
    successBins: cut(byChance, bins).map(successBin),
    scores: scoresOf(byMean),
  });
}

/** Mean scores of carries against their expectations; at least one carry, else throws RangeError. */
export function scoresOf(carries: readonly ExpectedCarry[]): HeldOutScores {
  if (carries.length === 0) throw new RangeError('scores want at least one carry, got none');
  let squares = 0;
  let ranked = 0;
  let logs = 0;
  let losses = 0;
  for (const { gain, expected } of carries) {
    squares += residualOf(gain, expected).delta ** 2;
    ranked += crps(expected.chances, gain);
    logs += logScore(expected.chances, gain);
    losses += logLoss(Math.min(1, expected.chanceOfSuccess), gain >= expected.needed);
  }
  const n = carries.length;
  return { rmse: Math.sqrt(squares / n), crps: ranked / n, logScore: logs / n, successLogLoss: losses / n };
}

function cut<Item>(sorted: readonly Item[], bins: number): readonly (readonly Item[])[] {
  const count = Math.min(bins, sorted.length);
  return Array.from({ length: count }, (_, at) =>
    sorted.slice(Math.floor((at * sorted.length) / count), Math.floor(((at + 1) * sorted.length) / count)),
  );
}

function yardsBin(carries: readonly ExpectedCarry[]): YardsBin {
  const n = carries.length;
  const total = (of: (carry: ExpectedCarry) => number) => carries.reduce((sum, carry) => sum + of(carry), 0);
  return {
    n,
    expected: total(({ expected }) => expected.mean) / n,
    seen: total(({ gain }) => gain) / n,
    standardError: Math.sqrt(total(({ expected }) => expected.variance)) / n,
  };
}

function successBin(carries: readonly ExpectedCarry[]): SuccessBin {
  const n = carries.length;
  const seen = rateOf({ hits: carries.filter(({ gain, expected }) => gain >= expected.needed).length, n });
  if (!seen.known) throw new RangeError(seen.detail);
  return { expected: carries.reduce((sum, { expected }) => sum + expected.chanceOfSuccess, 0) / n, seen: seen.value };
}
