/** How an evaluator's own lane estimates fare against what the lanes taken gained. */
import { type Known, known, unknown } from '../known.ts';
import type { GainChances } from '../expectation/hazard.ts';
import { crps } from '../expectation/scores.ts';
import { type Rate, rateOf } from '../plays/success-rate.ts';
import type { Lane } from './lane.ts';

/** A taken lane with its distribution, what the model alone expected of the run, and the gain that came (whole yards). */
export type TakenLane = {
  readonly lane: Lane;
  readonly gains: GainChances;
  readonly model: GainChances;
  readonly gain: number;
};

/** Estimates against results. */
export type EstimateCalibration = {
  /** Gains from low to high, both counted; and the share the lanes' own distributions put there. */
  readonly within: Rate;
  readonly withinExpected: number;
  /** Gains under low and over high: a tenth each is meant. */
  readonly under: Rate;
  readonly over: Rate;
  /** Mean gain less mean estimate, yards a carry, and its standard error by the estimates' own spread. */
  readonly bias: number;
  readonly biasError: number;
  /** Mean CRPS in yards of the estimates and of the model that saw no lanes; lower is better. */
  readonly crps: number;
  readonly modelCrps: number;
};

/**
 * Calibration of an evaluator's lanes over carries whose result is known. Reason 'no results'. Throws RangeError on a
 * gain that is not whole or goes past the goal line.
 */
export function estimateCalibration(taken: readonly TakenLane[]): Known<EstimateCalibration, 'no results'> {
  const n = taken.length;
  const count = (holds: (one: TakenLane) => boolean) => rateOf({ hits: taken.filter(holds).length, n });
  // A lane may be thought longer than the field: the goal line cuts low and high as it cuts the gain.
  const within = count(({ lane, gain, gains }) => gain >= cut(lane.low, gains) && gain <= lane.high);
  const under = count(({ lane, gain, gains }) => gain < cut(lane.low, gains));
  const over = count(({ lane, gain }) => gain > lane.high);
  if (!within.known || !under.known || !over.known) {
    return unknown('no results', 'No taken lane has both its yards and a result.');
  }
  const total = (of: (one: TakenLane) => number) => taken.reduce((sum, one) => sum + of(one), 0);
  return known({
    within: within.value,
    withinExpected: total(({ lane, gains }) => between(gains, cut(lane.low, gains), lane.high)) / n,
    under: under.value,
    over: over.value,
    bias: total(({ gain, gains }) => gain - moments(gains).mean) / n,
    biasError: Math.sqrt(total(({ gains }) => moments(gains).variance)) / n,
    crps: total(({ gain, gains }) => crps(gains, gain)) / n,
    modelCrps: total(({ gain, model }) => crps(model, gain)) / n,
  });
}

function cut(yards: number, gains: GainChances): number {
  return Math.min(yards, gains.from + gains.chances.length - 1);
}

function between(gains: GainChances, low: number, high: number): number {
  return gains.chances.reduce((sum, chance, at) => {
    const gain = gains.from + at;
    return gain >= low && gain <= high ? sum + chance : sum;
  }, 0);
}

function moments(gains: GainChances): { readonly mean: number; readonly variance: number } {
  let mean = 0;
  let squares = 0;
  for (const [at, chance] of gains.chances.entries()) {
    const gain = gains.from + at;
    mean += chance * gain;
    squares += chance * gain * gain;
  }
  return { mean, variance: Math.max(0, squares - mean * mean) };
}
