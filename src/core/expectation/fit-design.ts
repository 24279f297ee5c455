/** The columns of the fit and the yards reached by carries, counted in cells that share their columns. */
import { hasSticks, levelOf, segmentOf } from './hazard.ts';
import type { FitCarry } from './fit-carry.ts';
import { alphaRanges, type Feature, featureLevels, longestShortGain, lowestGain, segments } from './yards-model.ts';

/** One coefficient: a baseline yard (or range), an effect in a segment, or a pull of the line to gain. */
export type Coefficient =
  | { readonly kind: 'alpha'; readonly key: string }
  | { readonly kind: 'beta'; readonly segment: string; readonly feature: Feature; readonly level: string }
  | { readonly kind: 'sticks'; readonly at: 'oneShort' | 'atSticks' };

/** Bernoulli rows that share their columns: `reached` runs got to that yard, `ended` of them ended there. */
export type CountedRow = { readonly columns: readonly number[]; reached: number; ended: number };

export type FitDesign = { readonly coefficients: readonly Coefficient[]; readonly rows: readonly CountedRow[] };

/** Features that the model reads besides those every fit has. */
export type FitFeature = 'shotgun' | 'box';

/**
 * One Bernoulli row for each yard a carry reached, from -4 to where it ended, counted by equal columns. A carry that
 * reached the goal line ended nowhere before it. Features beyond down, to go and spot enter as asked.
 */
export function fitDesign(carries: readonly FitCarry[], extra: readonly FitFeature[]): FitDesign {
  const features: readonly Feature[] = ['down', 'toGo', 'yardsToGoal', ...extra, 'shortYardageLateDown'];
  const coefficients: Coefficient[] = alphaRanges.map(({ key }) => ({ kind: 'alpha', key }));
  const alphaAt = new Map<number, number>();
  for (const [at, { from, to }] of alphaRanges.entries()) for (let g = from; g <= to; g += 1) alphaAt.set(g, at);
  const betaAt = new Map<string, number>();
  for (const segment of segments) {
    for (const feature of features) {
      for (const level of featureLevels[feature].others) {
        betaAt.set(`${segment} ${feature} ${level}`, coefficients.length);
        coefficients.push({ kind: 'beta', segment, feature, level });
      }
    }
  }
  const oneShort = coefficients.length;
  coefficients.push({ kind: 'sticks', at: 'oneShort' }, { kind: 'sticks', at: 'atSticks' });

  const cells = new Map<
    string,
    { readonly carry: FitCarry; readonly ended: Int32Array; readonly reached: Int32Array }
  >();
  const yards = longestShortGain - lowestGain + 1;
  for (const carry of carries) {
    const levels = features.map((feature) => levelOf(feature, carry));
    const key = `${levels.join(' ')} ${hasSticks(carry) ? carry.toGo : 0}`;
    let cell = cells.get(key);
    if (cell === undefined) {
      cell = { carry, ended: new Int32Array(yards), reached: new Int32Array(yards) };
      cells.set(key, cell);
    }
    const end = Math.max(lowestGain, carry.gain) - lowestGain;
    const scored = carry.gain >= carry.yardsToGoal;
    const last = scored ? carry.yardsToGoal - lowestGain - 1 : end;
    for (let at = 0; at <= last && at < yards; at += 1) cell.reached[at] = (cell.reached[at] ?? 0) + 1;
    if (!scored && end < yards) cell.ended[end] = (cell.ended[end] ?? 0) + 1;
  }
  const rows = new Map<string, CountedRow>();
  for (const { carry, ended, reached } of cells.values()) {
    const levels = features.map((feature) => ({ feature, level: levelOf(feature, carry) }));
    for (let at = 0; at < yards; at += 1) {
      if ((reached[at] ?? 0) === 0) continue;
      const gain = at + lowestGain;
      const segment = segmentOf(gain);
      const columns = [alphaAt.get(gain) ?? 0];
      for (const { feature, level } of levels) {
        const column = betaAt.get(`${segment} ${feature} ${level}`);
        if (column !== undefined) columns.push(column);
      }
      if (hasSticks(carry) && gain === carry.toGo - 1) columns.push(oneShort);
      if (hasSticks(carry) && gain === carry.toGo) columns.push(oneShort + 1);
      const key = columns.join(' ');
      const row = rows.get(key);
      if (row === undefined) rows.set(key, { columns, reached: reached[at] ?? 0, ended: ended[at] ?? 0 });
      else {
        row.reached += reached[at] ?? 0;
        row.ended += ended[at] ?? 0;
      }
    }
  }
  return { coefficients, rows: [...rows.values()] };
}
