/** Marks that two or more evaluators gave the same trait of the same carry, laid out for the agreement measures. */
import type { GradeMark } from '../grades/grade-mark.ts';

/** A trait of a carry, marked by both. */
export type MarkPair = {
  readonly runner: string;
  readonly game: string;
  readonly carry: string;
  readonly trait: string;
  readonly first: number;
  readonly second: number;
};

/**
 * Pairs of marks by two evaluators of the same trait on the same carry, in order of runner, game, carry and trait; of
 * repeated marks the last counts. Empty when they share none.
 */
export function markPairs(marks: readonly GradeMark[], first: string, second: string): readonly MarkPair[] {
  const items = byItem(marks);
  return [...items.keys()].sort().flatMap((key) => {
    const item = items.get(key);
    const one = item?.values.get(first);
    const other = item?.values.get(second);
    if (item === undefined || one === undefined || other === undefined) return [];
    const { runner, game, carry, trait } = item.mark;
    return [{ runner, game, carry, trait, first: one, second: other }];
  });
}

/** A table with gaps for Krippendorff's alpha: a row an evaluator (sorted), a column a trait of a carry. */
export function ratingsOf(marks: readonly GradeMark[]): {
  readonly evaluators: readonly string[];
  readonly ratings: readonly (readonly (number | null)[])[];
} {
  const items = byItem(marks);
  const keys = [...items.keys()].sort();
  const evaluators = [...new Set(marks.map((mark) => mark.evaluator))].sort();
  const ratings = evaluators.map((evaluator) => keys.map((key) => items.get(key)?.values.get(evaluator) ?? null));
  return { evaluators, ratings };
}

function byItem(marks: readonly GradeMark[]) {
  const items = new Map<string, { readonly mark: GradeMark; readonly values: Map<string, number> }>();
  for (const mark of marks) {
    const key = JSON.stringify([mark.runner, mark.game, mark.carry, mark.trait]);
    const item = items.get(key);
    if (item === undefined) items.set(key, { mark, values: new Map([[mark.evaluator, mark.value]]) });
    else item.values.set(mark.evaluator, mark.value);
  }
  return items;
}
