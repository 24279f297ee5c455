/** One mark as the grades read it, and how much its clearness makes it tell. */

/** How well the carry can be seen where it was marked. */
export type MarkClearness = 'clear' | 'partial' | 'obscured';

/**
 * One evaluator's mark of one trait on one carry. The ids are opaque; a carry's id needs to be unique only within its
 * runner and game. `value` is 1 to 5 in halves.
 */
export type GradeMark = {
  readonly runner: string;
  readonly game: string;
  readonly carry: string;
  readonly evaluator: string;
  readonly trait: string;
  readonly value: number;
  readonly clearness: MarkClearness;
};

/**
 * What a mark of each clearness tells, in clear marks: its variance is the pooled one divided by this, so forty
 * obscured marks tell as much as twelve clear ones. The program's own convention, no source.
 */
export const clearnessWeight: Readonly<Record<MarkClearness, number>> = { clear: 1, partial: 0.6, obscured: 0.3 };

/** Throws RangeError unless the mark's value is one of 1, 1.5, ... 5 and its clearness is one of the three words. */
export function checkMark(mark: GradeMark): void {
  if (!(mark.value >= 1 && mark.value <= 5 && Number.isInteger(mark.value * 2))) {
    throw new RangeError(`a mark wants 1 to 5 in halves, got ${mark.value} for ${mark.trait}`);
  }
  if (!Object.hasOwn(clearnessWeight, mark.clearness)) {
    throw new RangeError(`a clearness wants clear, partial or obscured, got ${mark.clearness}`);
  }
}
