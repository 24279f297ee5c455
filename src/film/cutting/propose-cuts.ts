import { FaultError } from '../../contract/faults.ts';
import type { FrameTable } from '../table/frame-table.ts';
import type { CutProposals, FromCutter, ToCutter } from './messages.ts';

/** How to cut: called back with 0 to 1 as it goes, and stopped by the signal. */
export type ProposeCutsOptions = {
  readonly url: string;
  readonly table: FrameTable;
  readonly onProgress?: (done: number) => void;
  readonly signal?: AbortSignal;
};

/**
 * Looks through a whole film in a worker and proposes its cuts and what each shot is. `url` answers range requests
 * with the page's cookies. Rejects with a FaultError when the film is gone or can't be decoded, and with the signal's
 * reason when it is stopped.
 */
export function proposeCuts({ url, table, onProgress, signal }: ProposeCutsOptions): Promise<CutProposals> {
  return new Promise((resolve, reject) => {
    signal?.throwIfAborted();
    const worker = new Worker(new URL('./worker.ts', import.meta.url), { type: 'module', name: 'cutting' });
    const stop = (): void => {
      worker.terminate();
      reject(signal?.reason instanceof Error ? signal.reason : new Error('Cutting was stopped.'));
    };
    signal?.addEventListener('abort', stop, { once: true });
    worker.addEventListener('message', ({ data }: MessageEvent<FromCutter>) => {
      if (data.kind === 'progress') {
        onProgress?.(data.done);
        return;
      }
      signal?.removeEventListener('abort', stop);
      worker.terminate();
      if (data.kind === 'proposals') {
        onProgress?.(1);
        resolve(data.proposals);
      } else {
        reject(new FaultError(data.fault));
      }
    });
    const message: ToCutter = { kind: 'cut', url: new URL(url, location.href).href, table };
    // oxlint-disable-next-line unicorn/require-post-message-target-origin -- a worker has no origin to name
    worker.postMessage(message);
  });
}
