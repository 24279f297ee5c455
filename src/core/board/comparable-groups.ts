/** Which runners were marked on the same terms: by the same evaluators, or by evaluators who share carries. */
import { type LeniencyGroup, sharedNeeded } from '../agreement/leniency.ts';
import type { GradeMark } from '../grades/grade-mark.ts';
import { type Known, known, unknown } from '../known.ts';

/** Runners that can be set in one order, and who marked them; both sorted. */
export type ComparableGroup = { readonly evaluators: readonly string[]; readonly runners: readonly string[] };

/**
 * Sorts runners into groups that can be compared: two runners can when the evaluators of both fall into the same sets of
 * evaluators joined by shared carries (`leniency` from the pooled class). One group means that everyone can be ranked.
 * Groups by first runner; an empty list for no marks.
 */
export function comparableGroups(
  marks: readonly Pick<GradeMark, 'runner' | 'evaluator'>[],
  leniency: readonly LeniencyGroup[],
): readonly ComparableGroup[] {
  const groupOf = new Map(leniency.flatMap((group, at) => group.evaluators.map((name) => [name, at] as const)));
  const byRunner = new Map<string, Set<string>>();
  for (const { runner, evaluator } of marks) {
    const seen = byRunner.get(runner);
    if (seen === undefined) byRunner.set(runner, new Set([evaluator]));
    else seen.add(evaluator);
  }
  const groups = new Map<string, { evaluators: Set<string>; runners: string[] }>();
  for (const runner of [...byRunner.keys()].sort()) {
    const evaluators = byRunner.get(runner) ?? new Set();
    const sets = new Set([...evaluators].map((name) => groupOf.get(name) ?? `alone: ${name}`));
    const key = JSON.stringify([...sets].map(String).sort());
    const group = groups.get(key) ?? { evaluators: new Set<string>(), runners: [] };
    for (const name of evaluators) group.evaluators.add(name);
    group.runners.push(runner);
    groups.set(key, group);
  }
  return [...groups.values()].map((group) => ({ evaluators: [...group.evaluators].sort(), runners: group.runners }));
}

/** The one group when there is one; otherwise the reason 'not comparable', naming who would have to share carries. */
export function comparable(groups: readonly ComparableGroup[]): Known<ComparableGroup, 'not comparable' | 'no marks'> {
  const [first, second] = groups;
  if (first === undefined) return unknown('no marks', 'No runner is marked.');
  if (second === undefined) return known(first);
  const people = (group: ComparableGroup) => group.evaluators.join(', ');
  return unknown(
    'not comparable',
    `Different evaluators marked different runners (${people(first)}; ${people(second)}) and share too few carries: ` +
      `${sharedNeeded} marks of the same trait on the same carry join two evaluators.`,
  );
}
