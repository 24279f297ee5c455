import type { Fault } from '../../contract/faults.ts';
import type { FrameTable } from '../table/frame-table.ts';
import type { Picture } from './picture.ts';

/** What the page says to the worker. `ask` numbers a question so that its answer finds its way back. */
export type ToWorker =
  | {
      readonly kind: 'open';
      readonly ask: number;
      readonly film: string;
      readonly url: string;
      readonly table: FrameTable;
    }
  | { readonly kind: 'close'; readonly film: string }
  | {
      readonly kind: 'want';
      readonly ask: number;
      readonly film: string;
      readonly viewer: string;
      readonly frame: number;
      readonly direction: 1 | -1;
      readonly format: Picture['format'];
    }
  | { readonly kind: 'budget'; readonly bytes: number }
  | { readonly kind: 'report'; readonly ask: number };

/** What the worker holds and has done since it began. */
export type ServerReport = {
  readonly cachedBytes: number;
  readonly cachedFrames: number;
  readonly budgetBytes: number;
  /** Frames that came out of decoders. */
  readonly decoded: number;
  /** Times a decoder was started anew at a key frame. */
  readonly starts: number;
  readonly films: number;
};

/** What the worker says to the page. */
export type FromWorker =
  | { readonly kind: 'opened'; readonly ask: number }
  | { readonly kind: 'frame'; readonly ask: number; readonly frame: number; readonly picture: Picture }
  | { readonly kind: 'superseded'; readonly ask: number }
  | { readonly kind: 'not-decoded'; readonly ask: number; readonly detail: string }
  | { readonly kind: 'fault'; readonly ask: number; readonly fault: Fault }
  | { readonly kind: 'report'; readonly ask: number; readonly report: ServerReport };
