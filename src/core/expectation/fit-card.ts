/** The card that goes with a fitted model: what it is, what it was made of, how far it misses, what it must not be used for. */
import type { YardsFit } from './fit.ts';
import { carriesEach, ownersNeeded } from './fit-spread.ts';

/**
 * The model card as Markdown lines joined by line feeds. `skipped` counts the rows of the table that could not be read,
 * by reason.
 */
export function fitCard(fit: YardsFit, skipped: Readonly<Record<string, number>>): string {
  const { model, counts } = fit;
  const { heldOut, spread } = model;
  const left = Object.entries(skipped).map(([because, rows]) => `${rows} (${because})`);
  const seasons = heldOut === null || heldOut.seasons.length === 0 ? 'every fourth carry' : heldOut.seasons.join(', ');
  const scores =
    heldOut === null
      ? ['Not scored.']
      : [
          `Held out: ${seasons}; ${heldOut.carries} carries, fitted on ${heldOut.trainedOn}. Lower is better.`,
          '',
          '| score | one distribution for all | this model |',
          '| --- | --- | --- |',
          `| RMSE of the mean, yards | ${figure(heldOut.constant.rmse)} | ${figure(heldOut.model.rmse)} |`,
          `| CRPS, yards | ${figure(heldOut.constant.crps)} | ${figure(heldOut.model.crps)} |`,
          `| log score | ${figure(heldOut.constant.logScore)} | ${figure(heldOut.model.logScore)} |`,
          `| log-loss of success | ${figure(heldOut.constant.successLogLoss)} | ${figure(heldOut.model.successLogLoss)} |`,
        ];
  const spreadLine = spread.assumed
    ? `Spread between runners: assumed from the college fit (fewer than ${ownersNeeded} runners with ${carriesEach} carries each, or no spread to see).`
    : `Spread between runners: ${figure(spread.delta.betweenRunnersSd, 2)} yards a carry, so a mean is shrunk by ${Math.round(spread.delta.shrinkCarries)} carries.`;
  return [
    `# ${model.name}`,
    '',
    `Expected yards by a discrete hazard of the gain, fitted to ${model.carries} carries. Source: ${model.source}`,
    '',
    `- Reads: ${model.features.join(', ')}; shotgun known on ${counts.withShotgun}, box on ${counts.withBox}, runners named: ${counts.runners}.`,
    `- Rows left out: ${left.length === 0 ? 'none' : left.join(', ')}.`,
    `- Carries: mean ${figure(model.marginal.mean, 2)} yards, sd ${figure(model.marginal.sd, 2)}, success ${figure(model.marginal.success)} by the classic rule.`,
    `- ${fit.coefficients.length} coefficients in ${fit.steps} Newton steps.`,
    `- ${spreadLine}`,
    '',
    '## How far it misses',
    '',
    ...scores,
    '',
    '## What it is not',
    '',
    'The situation explains little of a single carry. The model knows nothing of the runner, the blocking or the defence',
    'beyond what it reads; effects are associations. It speaks of games like those it was fitted on and ages with them.',
    '',
  ].join('\n');
}

function figure(value: number, places = 3): string {
  return value.toFixed(places);
}
