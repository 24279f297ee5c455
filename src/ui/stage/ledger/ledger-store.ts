import { create } from 'zustand';
import type { Lane } from '../../../contract/rows.ts';
import type { LaneYards } from './yard-strip.ts';

/** A corner of a path in film pixels. */
export type Corner = readonly [number, number];

/** What the hands are in the middle of at the ledger. */
type LedgerState = {
  open: boolean;
  laneId: string | null;
  /** A path being drawn: its corners so far, and where the next would be set. */
  drawing: { readonly laneId: string; readonly corners: readonly Corner[]; readonly at: Corner } | null;
  /** Yards of a lane while a handle is held; kept as one change when it is let go. */
  dragged: { readonly laneId: string; readonly yards: LaneYards } | null;
  /** Decisions whose proposed mark was ignored. */
  ignored: readonly string[];
};

export const useLedger = create<LedgerState>(() => ({
  open: false,
  laneId: null,
  drawing: null,
  dragged: null,
  ignored: [],
}));

/** The lanes as they look now: the one whose handle is held with its yards of the moment. */
export function lanesNow(lanes: readonly Lane[], dragged: LedgerState['dragged']): Lane[] {
  return lanes.map((lane) => (lane.id === dragged?.laneId ? { ...lane, ...dragged.yards } : lane));
}
