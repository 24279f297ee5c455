import { create } from 'zustand';
import type { MomentName } from '../../contract/words.ts';

export type Which = 'first' | 'second';

/** What is shown of the two: kept while the window is open, so that the room is found as it was left. */
type SideState = {
  whose: 'own' | 'all';
  /** The carry shown of each, by part id; null: none chosen yet. */
  carry: Readonly<Record<Which, string | null>>;
  /** The moment both are locked on; null: the first both have. */
  moment: MomentName | null;
  /** Real seconds from that moment. */
  instant: number;
  playing: boolean;
  /** Film seconds a second. */
  speed: number;
  looping: boolean;
  /** Pictures shown as in a mirror, so that a run to the left can be laid beside one to the right. */
  mirrored: Readonly<Record<Which, boolean>>;
};

export const useSides = create<SideState>(() => ({
  whose: 'own',
  carry: { first: null, second: null },
  moment: null,
  instant: 0,
  playing: false,
  speed: 1,
  looping: true,
  mirrored: { first: false, second: false },
}));

/** Shows a carry of each, stopped at the moment they are locked on. */
export function showCarries(first: string | null, second: string | null): void {
  useSides.setState({ carry: { first, second }, instant: 0, playing: false });
}

/** Turns one picture over, left for right. */
export function turnMirror(which: Which): void {
  useSides.setState(({ mirrored }) => ({ mirrored: { ...mirrored, [which]: !mirrored[which] } }));
}

export const speeds = [0.1, 0.25, 0.5, 1] as const;

/** One speed slower or faster. */
export function turnSpeed(by: 1 | -1): void {
  useSides.setState(({ speed }) => ({ speed: speeds[speeds.findIndex((each) => each === speed) + by] ?? speed }));
}
