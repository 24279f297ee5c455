/**
 * Who made the yards, in three figures that answer different questions and are never mixed: the line's share by a
 * published rule, yards cleared before a free defender could act, and yards before and after first contact. Yards before
 * contact depend on the runner's path too, so they are never called blocking.
 */
import { mean } from 'simple-statistics';
import { type Known, known, unknown } from '../known.ts';

/**
 * Yards of a gain credited to the line: each yard lost counts 1.2, each of the first four gained 1, the fifth to tenth
 * 0.5, those beyond 0 (marginal: a gain of 7 credits 5.5). Gain in whole yards; the answer runs from 1.2 x gain to 7.
 * Throws RangeError on a gain that is not whole or beyond 110 either way.
 * Source: the adjusted line yards rule of a statistics publisher, as quoted in two secondary articles.
 */
export function lineShare(gain: number): number {
  if (!(Number.isInteger(gain) && Math.abs(gain) <= 110)) {
    throw new RangeError(`a gain wants whole yards, at most 110 either way, got ${gain}`);
  }
  if (gain <= 0) return gain === 0 ? 0 : (gain * 12) / 10;
  return Math.min(gain, 4) + Math.max(0, Math.min(gain, 10) - 4) / 2;
}

/** What credit reads of a carry: gain in whole yards; clearedYards and contactAt in yards past the line, null uncharted. */
export type CreditCarry = {
  readonly gain: number;
  readonly clearedYards: number | null;
  readonly contactAt: number | null;
};

/** A mean in yards a carry and the carries it rests on; `of` counts those it could have rested on. */
export type CreditMean = { readonly mean: number; readonly n: number; readonly of: number };

/** Each figure as what it is, with its own n; or why there is none. */
export type Credit = {
  readonly lineShare: Known<CreditMean, 'no carries'>;
  readonly cleared: Known<CreditMean, 'no carries' | 'not charted'>;
  readonly beforeContact: Known<CreditMean, 'no carries' | 'not charted'>;
  readonly afterContact: Known<CreditMean, 'no carries' | 'not charted'>;
};

/**
 * The four means of a set of carries. Before and after contact rest on the same carries and add up to their mean gain.
 * Reasons: 'no carries', 'not charted'. Throws RangeError on a number that is not finite or a gain that is not whole.
 */
export function credit(carries: readonly CreditCarry[]): Credit {
  const of = carries.length;
  for (const { clearedYards, contactAt } of carries) {
    for (const charted of [clearedYards, contactAt]) {
      if (charted !== null && !(Math.abs(charted) <= 110))
        throw new RangeError(`yards want a number, at most 110 either way, got ${charted}`);
    }
  }
  const meanOf = (values: readonly number[], what: string): Known<CreditMean, 'no carries' | 'not charted'> => {
    if (of === 0) return unknown('no carries', 'Credit needs at least one carry, got none.');
    if (values.length === 0) return unknown('not charted', `${what} is charted on none of ${of} carries.`);
    return known({ mean: mean([...values]), n: values.length, of });
  };
  const contacts = carries.flatMap(({ gain, contactAt }) => (contactAt === null ? [] : [{ gain, contactAt }]));
  return {
    lineShare:
      of === 0
        ? unknown('no carries', 'Credit needs at least one carry, got none.')
        : known({ mean: mean(carries.map(({ gain }) => lineShare(gain))), n: of, of }),
    cleared: meanOf(
      carries.flatMap(({ clearedYards }) => (clearedYards === null ? [] : [clearedYards])),
      'How far the way was cleared',
    ),
    beforeContact: meanOf(
      contacts.map(({ contactAt }) => contactAt),
      'First contact',
    ),
    afterContact: meanOf(
      contacts.map(({ gain, contactAt }) => gain - contactAt),
      'First contact',
    ),
  };
}
