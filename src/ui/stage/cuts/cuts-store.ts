import { create } from 'zustand';
import type { Span } from '../../../contract/rows.ts';
import { useStage } from '../stage-store.ts';
import { type Cut, type CutState, stateOf } from './cut-list.ts';

/** A film being looked through, or its proposals under review. Nothing of it is in the study. */
export type CutsState = {
  readonly filmId: string | null;
  /** How far the look through the film is, 0 to 1; null: it is not under way. */
  readonly done: number | null;
  readonly stop: AbortController | null;
  /** Null: nothing is under review. */
  readonly cuts: readonly Cut[] | null;
  readonly chosenId: string | null;
  /** The end that the arrow keys move. */
  readonly end: 'in' | 'out';
  /** Frames that could not be decoded. */
  readonly lost: number;
  /** Whose carry each accepted play is; null: nobody's yet. */
  readonly runnerId: string | null;
};

export const noCuts: CutsState = {
  filmId: null,
  done: null,
  stop: null,
  cuts: null,
  chosenId: null,
  end: 'in',
  lost: 0,
  runnerId: null,
};

export const useCuts = create<CutsState>(() => noCuts);

/** Spans of the reviewed film in the game shown. */
export function spansOnFilm(filmId: string | null): Span[] {
  return (useStage.getState().game?.spans ?? []).filter((span) => span.filmId === filmId);
}

/** How each cut stands now. */
export function cutStates(cuts: readonly Cut[], spans: readonly Span[]): Map<string, CutState> {
  return new Map(cuts.map((cut) => [cut.id, stateOf(cut, spans)]));
}
