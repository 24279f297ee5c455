/** Carries set apart from a fit, and how far the model and a constant miss on them. */
import { classicRule } from '../plays/success-rules.ts';
import { yardsNeeded } from '../plays/success.ts';
import { scoresOf } from './calibration.ts';
import { type ExpectedYards, rememberedExpectations } from './expected-yards.ts';
import type { FitCarry } from './fit-carry.ts';
import { crps, logLoss, logScore } from './scores.ts';
import { type HeldOutScores, longestShortGain, lowestGain, type YardsModel } from './yards-model.ts';

/** Carries to fit on, carries to score on, and the seasons the latter are from (empty: every fourth carry). */
export type HeldOutSplit = {
  readonly fitOn: readonly FitCarry[];
  readonly scoreOn: readonly FitCarry[];
  readonly seasons: readonly string[];
};

/**
 * Sets carries apart: where every carry has a season and there are two or more, the last seasons (by name) that make up
 * a fifth of the carries; otherwise every fourth carry. At least one season stays to fit on.
 */
export function holdOut(carries: readonly FitCarry[]): HeldOutSplit {
  const bySeason = Map.groupBy(carries, ({ season }) => season);
  const names = [...bySeason.keys()].flatMap((name) => (name === null ? [] : [name])).sort();
  if (bySeason.has(null) || names.length < 2) {
    return {
      fitOn: carries.filter((_, at) => at % 4 !== 3),
      scoreOn: carries.filter((_, at) => at % 4 === 3),
      seasons: [],
    };
  }
  const seasons: string[] = [];
  let held = 0;
  for (const name of names.slice(1).reverse()) {
    if (held * 5 >= carries.length) break;
    seasons.unshift(name);
    held += bySeason.get(name)?.length ?? 0;
  }
  const apart = new Set<string | null>(seasons);
  return {
    fitOn: carries.filter(({ season }) => !apart.has(season)),
    scoreOn: carries.filter(({ season }) => apart.has(season)),
    seasons,
  };
}

/** The model's scores on carries (at least one, else throws RangeError). */
export function modelScores(model: YardsModel, carries: readonly FitCarry[]): HeldOutScores {
  const expectation = expectations(model);
  return scoresOf(carries.map((carry) => ({ gain: carry.gain, expected: expectation(carry) })));
}

/** A function from a carry to its expectation that works each situation out once; throws RangeError where there is none. */
export function expectations(model: YardsModel): (carry: FitCarry) => ExpectedYards {
  const remembered = rememberedExpectations(model);
  return (carry) => {
    const answer = remembered(carry);
    if (!answer.known) throw new RangeError(answer.detail);
    return answer.value;
  };
}

/** Scores of one distribution for every carry, that of the carries fitted on (half a carry added at each yard). */
export function constantScores(fitOn: readonly FitCarry[], scoreOn: readonly FitCarry[]): HeldOutScores {
  const yards = longestShortGain + 1 - lowestGain + 1;
  const counts = Array.from({ length: yards }, () => 0.5);
  for (const { gain } of fitOn) {
    const at = Math.max(lowestGain, gain) - lowestGain;
    counts[at] = (counts[at] ?? 0) + 1;
  }
  const all = fitOn.length + yards / 2;
  const pmf = { from: lowestGain, chances: counts.map((count) => count / all) };
  const mean = fitOn.reduce((sum, { gain }) => sum + gain, 0) / fitOn.length;
  const success = fitOn.filter(succeeded).length / fitOn.length;
  let squares = 0;
  let ranked = 0;
  let logs = 0;
  let losses = 0;
  for (const carry of scoreOn) {
    squares += (carry.gain - mean) ** 2;
    ranked += crps(pmf, carry.gain);
    logs += logScore(pmf, carry.gain);
    losses += logLoss(success, succeeded(carry));
  }
  const n = scoreOn.length;
  return { rmse: Math.sqrt(squares / n), crps: ranked / n, logScore: logs / n, successLogLoss: losses / n };
}

/** Success by the classic rule. */
export function succeeded(carry: FitCarry): boolean {
  return carry.gain >= yardsNeeded(carry, classicRule);
}
