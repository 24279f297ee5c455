/** How often an evaluator falls back on halves: marks between two written anchors. */
import { type Interval, wilson } from '../intervals/wilson.ts';
import { type Known, known } from '../known.ts';

/** Halves out of marks, and their share (0 to 1) with its Wilson interval. */
export type HalfMarks = Interval & { readonly halves: number; readonly marks: number; readonly share: number };

/**
 * Share of half marks per evaluator id; evaluators without a mark are not listed. Throws RangeError on a mark that is not
 * a multiple of one half.
 */
export function halfMarkShares(
  marks: readonly { readonly evaluator: string; readonly value: number }[],
): Readonly<Record<string, Known<HalfMarks, 'no trials'>>> {
  const counts = new Map<string, { halves: number; marks: number }>();
  for (const { evaluator, value } of marks) {
    if (!Number.isInteger(value * 2)) throw new RangeError(`a mark wants halves, got ${value}`);
    const count = counts.get(evaluator) ?? { halves: 0, marks: 0 };
    count.marks += 1;
    if (!Number.isInteger(value)) count.halves += 1;
    counts.set(evaluator, count);
  }
  return Object.fromEntries(
    [...counts]
      .sort(([a], [b]) => (a < b ? -1 : 1))
      .map(([evaluator, { halves, marks }]) => {
        const interval = wilson({ hits: halves, n: marks });
        return [
          evaluator,
          interval.known ? known({ halves, marks, share: halves / marks, ...interval.value }) : interval,
        ];
      }),
  );
}
