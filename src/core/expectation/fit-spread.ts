/** How far runners differ beyond chance, from residuals of carries whose runner is known. */
import type { Spread } from './yards-model.ts';

/** A residual and the runner (and season) it belongs to. */
export type OwnedResidual = { readonly owner: string; readonly residual: number };

/** Runners (or runner-seasons) needed, each with this many carries, before their spread is estimated. Own convention. */
export const ownersNeeded = 30;
export const carriesEach = 20;

/**
 * Spread of residuals within and between runners by the one-way random-effects analysis of variance with unequal
 * numbers: between^2 = (MSB - MSW) / n0, k = within^2 / between^2. Null when fewer than 30 runners have 20 carries or
 * nothing is left between them.
 * Source: Searle, Casella & McCulloch 1992, Variance Components, ch. 3 (citation from memory).
 */
export function spreadOf(residuals: readonly OwnedResidual[]): Spread | null {
  const owners = [...Map.groupBy(residuals, ({ owner }) => owner)]
    .filter(([, own]) => own.length >= carriesEach)
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([, own]) => own.map(({ residual }) => residual));
  if (owners.length < ownersNeeded) return null;
  const all = owners.reduce((sum, own) => sum + own.length, 0);
  const grand = owners.reduce((sum, own) => sum + total(own), 0) / all;
  let within = 0;
  let between = 0;
  let squares = 0;
  for (const own of owners) {
    const mean = total(own) / own.length;
    within += own.reduce((sum, value) => sum + (value - mean) ** 2, 0);
    between += own.length * (mean - grand) ** 2;
    squares += own.length ** 2;
  }
  const meanWithin = within / (all - owners.length);
  const meanBetween = between / (owners.length - 1);
  const typical = (all - squares / all) / (owners.length - 1);
  const variance = (meanBetween - meanWithin) / typical;
  if (!(variance > 0 && meanWithin > 0)) return null;
  return {
    carrySd: Math.sqrt(meanWithin),
    betweenRunnersSd: Math.sqrt(variance),
    shrinkCarries: meanWithin / variance,
    splitHalf: null,
  };
}

function total(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0);
}
