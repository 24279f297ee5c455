/** The mean of delta after each carry, in the order in which they were run. */
import { cumsum } from 'd3-array';
import type { CarryView, DeltaView } from '../contract/views.ts';
import { deltasOf } from './delta-bins.ts';
import { marginOf } from './in-figures.ts';

/** After `n` carries: their mean delta and half the width of its 95 % interval, in yards. */
export type RunningPoint = { readonly n: number; readonly mean: number; readonly margin: number };

/**
 * One point a counted carry that has a delta. The margin uses the spread of a single carry that the sheet's own error
 * implies (standard error times the root of n), so that the last point's margin is the one printed beside the mean.
 */
export function runningMean(carries: readonly CarryView[], delta: DeltaView): readonly RunningPoint[] {
  const spread = delta.standardError * Math.sqrt(delta.n);
  const sums = cumsum(deltasOf(carries));
  return Array.from(sums, (sum, at) => ({
    n: at + 1,
    mean: sum / (at + 1),
    margin: marginOf(spread / Math.sqrt(at + 1)),
  }));
}
