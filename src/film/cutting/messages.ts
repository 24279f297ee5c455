import type { Fault } from '../../contract/faults.ts';
import type { SpanProposal } from '../../core/cutting/propose-spans.ts';
import type { Transition } from '../../core/cutting/transition.ts';
import type { FrameTable } from '../table/frame-table.ts';

/** What a film is proposed to be cut into. Frames count from 0. */
export type CutProposals = {
  readonly transitions: readonly Transition[];
  readonly spans: readonly SpanProposal[];
  /** Frames that could not be decoded and were stepped over. */
  readonly lost: number;
};

/** What the page says to the cutting worker. */
export type ToCutter = { readonly kind: 'cut'; readonly url: string; readonly table: FrameTable };

/** What the cutting worker says: how far it is (0 to 1), what it found, or why it stopped. */
export type FromCutter =
  | { readonly kind: 'progress'; readonly done: number }
  | { readonly kind: 'proposals'; readonly proposals: CutProposals }
  | { readonly kind: 'fault'; readonly fault: Fault };
