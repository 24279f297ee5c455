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

type Weighed = { readonly key: string; readonly weight: number };

/** A group's weights on the sliders' scale: the rubric's own add up to 100, moved ones stand where they were put. */
function onSliders(rubric: readonly Weighed[], moved: Readonly<Record<string, number>>): Record<string, number> {
  const total = rubric.reduce((sum, { weight }) => sum + weight, 0);
  return Object.fromEntries(
    rubric.map(({ key, weight }) => [key, moved[key] ?? (total > 0 ? (100 * weight) / total : 0)]),
  );
}

/** Where each family's slider stands, 0 to 100. */
export const familySliders = (rubric: RubricBody, { families }: BoardChoice): Record<string, number> =>
  onSliders(rubric.families, families);

/** Where each slider of one family's traits stands, 0 to 100. */
export const traitSliders = (family: RubricBody['families'][number], { traits }: BoardChoice): Record<string, number> =>
  onSliders(family.traits, traits);

/** Moves a family's weight; its neighbours' stand from then on as they are shown. */
export function moveFamily(rubric: RubricBody, key: string, weight: number): void {
  const { choice } = useBoard.getState();
  choose({ families: { ...familySliders(rubric, choice), [key]: weight } });
}

/** Moves a trait's weight within its family. */
export function moveTrait(family: RubricBody['families'][number], key: string, weight: number): void {
  const { choice } = useBoard.getState();
  choose({ traits: { ...choice.traits, ...traitSliders(family, choice), [key]: weight } });
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
