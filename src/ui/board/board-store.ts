import { create } from 'zustand';
import { weighedRubric } from '../../contract/board-answer.ts';
import { plainChoice, type BoardChoice, type BoardColumn, type SavedBoard } from '../../contract/comparison-views.ts';
import type { RubricBody } from '../../contract/rows.ts';

/** What is chosen on the Board; kept while the window is open, so that the room is found as it was left. */
type BoardState = {
  whose: 'own' | 'all';
  choice: BoardChoice;
  columns: readonly BoardColumn[];
  /** Runners picked to be set side by side, at most two. */
  compare: readonly string[];
  /** The saved board shown; null once anything was changed. */
  savedId: string | null;
};

export const useBoard = create<BoardState>(() => ({
  whose: 'own',
  choice: plainChoice,
  columns: ['success', 'delta', 'carries'],
  compare: [],
  savedId: null,
}));

type Weighed = { readonly key: string; readonly weight: number };

/** Changes part of the choice. */
export function choose(part: Partial<BoardChoice>): void {
  useBoard.setState(({ choice }) => ({ choice: { ...choice, ...part }, savedId: null }));
}

/** Shows a saved board. */
export function showSaved({ id, choice, columns, compare }: SavedBoard): void {
  useBoard.setState({ choice, columns, compare, savedId: id });
}

/** Picks a runner to compare, or puts him back; of three the one picked first goes. */
export function turnCompare(runnerId: string): void {
  useBoard.setState(({ compare }) => ({
    compare: compare.includes(runnerId) ? compare.filter((id) => id !== runnerId) : [...compare, runnerId].slice(-2),
    savedId: null,
  }));
}

/** Shows a column of results, or hides it. */
export function turnColumn(column: BoardColumn, all: readonly BoardColumn[]): void {
  useBoard.setState(({ columns }) => ({
    columns: all.filter((each) => (each === column) !== columns.includes(each)),
    savedId: null,
  }));
}

/** A share of 100 % would leave the others nothing to keep their proportions by. */
const mostShare = 0.9999;

/**
 * A group's shares with one of them set (0 to 1) and the others filling up in the proportions they have, or, where they
 * have none, in equal parts.
 */
export function withShare(group: readonly Weighed[], key: string, share: number): Record<string, number> {
  const set = Math.min(mostShare, Math.max(0, share));
  const others = group.filter((each) => each.key !== key);
  const total = others.reduce((sum, { weight }) => sum + weight, 0);
  return Object.fromEntries(
    group.map((each) => {
      if (each.key === key) return [key, others.length === 0 ? 1 : set];
      return [each.key, (1 - set) * (total > 0 ? each.weight / total : 1 / others.length)];
    }),
  );
}

/** Moves a family to a share of the whole; the others keep their proportions. */
export function moveFamily(rubric: RubricBody, key: string, share: number): void {
  const { choice } = useBoard.getState();
  choose({ families: withShare(weighedRubric(rubric, choice).families, key, share) });
}

/** Moves a trait to a share of its family; the family's other traits keep their proportions. */
export function moveTrait(rubric: RubricBody, familyKey: string, key: string, share: number): void {
  const { choice } = useBoard.getState();
  const family = weighedRubric(rubric, choice).families.find((each) => each.key === familyKey);
  if (family !== undefined) choose({ traits: { ...choice.traits, ...withShare(family.traits, key, share) } });
}

/** True when every weight is the rubric's own. */
export const weightsUntouched = ({ families, traits }: BoardChoice): boolean =>
  Object.keys(families).length === 0 && Object.keys(traits).length === 0;

/** Each share as it counts now: families of the whole, traits of their family; 0 where a group weighs nothing. */
export function sharesNow(rubric: RubricBody, choice: BoardChoice): Readonly<Record<string, number>> {
  const weighed = weighedRubric(rubric, choice);
  const sharesOf = (group: readonly Weighed[], kind: string): [string, number][] => {
    const total = group.reduce((sum, { weight }) => sum + weight, 0);
    return group.map(({ key, weight }) => [`${kind} ${key}`, total > 0 ? weight / total : 0]);
  };
  return Object.fromEntries([
    ...sharesOf(weighed.families, 'family'),
    ...weighed.families.flatMap(({ traits }) => sharesOf(traits, 'trait')),
  ]);
}
