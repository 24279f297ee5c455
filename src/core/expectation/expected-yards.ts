/** What a situation lets a run expect: the whole distribution of the gain and what follows from it. */
import { type Known, known, unknown } from '../known.ts';
import { type Situation, type SituationFault, situationFrom } from '../plays/situation.ts';
import { classicRule, type SuccessRule } from '../plays/success-rules.ts';
import { yardsNeeded } from '../plays/success.ts';
import { type GainChances, gainChances, type RunSituation } from './hazard.ts';
import { lowestGain, type YardsModel, yardsModels } from './yards-model.ts';

/** Expectation of one run. Chances from 0 to 1, yards from the line of scrimmage. */
export type ExpectedYards = {
  readonly mean: number;
  /** The smallest gain that half of runs do not pass, whole yards. */
  readonly median: number;
  /** Variance of the gain, yards squared (gains of -4 and below as their mean). */
  readonly variance: number;
  /** From -4, which stands for -4 and below, to the goal line. */
  readonly chances: GainChances;
  readonly chanceOfLoss: number;
  readonly chanceOfSuccess: number;
  /** Of reaching the line to gain, or the goal line where that comes first. */
  readonly chanceOfFirstDown: number;
  readonly chanceOfTouchdown: number;
  /** Yards a success needs by the rule asked for, and that rule's name. */
  readonly needed: number;
  readonly rule: string;
  /** Name of the fit that answered. */
  readonly model: string;
  /** What was taken from another fit, in words to show beside the figure; null when nothing was. */
  readonly borrowed: string | null;
};

/** Why no expectation can be given. */
export type ExpectationFault = Exclude<SituationFault, 'not charted'> | 'impossible box';

/** What may be chosen: the success rule (classic if not given), and whether to borrow the professional box effect. */
export type ExpectationChoices = { readonly rule?: SuccessRule; readonly borrowBox?: boolean };

/**
 * Expected yards of a run by a model. With `borrowBox`, a model without a box effect takes the professional one for a
 * charted box, relative to seven men, and says so in `borrowed`; it is an association, and the college fit is an average
 * over boxes that were not charted, so the borrowed figure is a comparison between boxes rather than a level.
 * Reasons: 'impossible down', 'impossible spot', 'impossible to go', 'to go past the goal line', 'impossible box'.
 * Throws RangeError on a rule that checkRule refuses. Form and figures: see hazard.ts and the model's own source.
 */
export function expectedYards(
  model: YardsModel,
  run: AnyRun,
  choices: ExpectationChoices = {},
): Known<ExpectedYards, ExpectationFault> {
  const situation = situationFrom(run);
  if (!situation.known) return situation;
  const box = run.box ?? null;
  if (box !== null && !(Number.isInteger(box) && box >= 0 && box <= 11)) {
    return unknown('impossible box', `A box holds 0 to 11 men, got ${box}.`);
  }
  const borrows = choices.borrowBox === true && box !== null && !model.features.includes('box');
  const lender = yardsModels['professional with box'];
  const chances = gainChances(model, { ...situation.value, shotgun: run.shotgun, box }, borrows ? lender : undefined);
  const rule = choices.rule ?? classicRule;
  const needed = yardsNeeded(situation.value, rule);
  return known({
    ...readChances(chances, situation.value, needed, model.meanOfLossesOfFourOrMore),
    chances,
    needed,
    rule: rule.name,
    model: model.name,
    borrowed: borrows ? `effect of ${box} in the box borrowed from: ${lender.name}` : null,
  });
}

/** What expectedYards reads of a run. */
export type AnyRun = Readonly<Omit<RunSituation, 'down'>> & { readonly down: number };

/**
 * expectedYards of one model and one set of choices, which works each situation out once: for a study's thousands of
 * carries. Answers, reasons and throws are those of expectedYards.
 */
export function rememberedExpectations(
  model: YardsModel,
  choices: ExpectationChoices = {},
): (run: AnyRun) => Known<ExpectedYards, ExpectationFault> {
  const made = new Map<string, Known<ExpectedYards, ExpectationFault>>();
  return (run) => {
    const key = `${run.down} ${run.toGo} ${run.yardsToGoal} ${run.shotgun ?? ''} ${run.box ?? ''}`;
    let answer = made.get(key);
    if (answer === undefined) made.set(key, (answer = expectedYards(model, run, choices)));
    return answer;
  };
}

function readChances(pmf: GainChances, situation: Situation, needed: number, lumpMean: number) {
  let mean = 0;
  let squares = 0;
  let below = 0;
  let median: number | null = null;
  let chanceOfLoss = 0;
  let short = 0;
  let shortOfSuccess = 0;
  for (const [at, chance] of pmf.chances.entries()) {
    const gain = pmf.from + at;
    const yards = gain === lowestGain ? lumpMean : gain;
    mean += chance * yards;
    squares += chance * yards * yards;
    below += chance;
    if (median === null && below >= 0.5) median = gain;
    if (gain < 0) chanceOfLoss += chance;
    if (gain < situation.toGo) short += chance;
    if (gain < needed) shortOfSuccess += chance;
  }
  return {
    mean,
    median: median ?? situation.yardsToGoal,
    variance: Math.max(0, squares - mean * mean),
    chanceOfLoss,
    chanceOfSuccess: Math.max(0, 1 - shortOfSuccess),
    chanceOfFirstDown: Math.max(0, 1 - short),
    chanceOfTouchdown: pmf.chances.at(-1) ?? 0,
  };
}
