/** The frame server's worker. The page starts it with `new Worker(new URL('./worker.ts', import.meta.url))`. */
import type { FromWorker, ToWorker } from './messages.ts';
import { frameServer } from './serve-frames.ts';

/** What a worker's global scope offers; the compiler's library for pages has no name for it. */
type WorkerScope = {
  addEventListener: (kind: 'message', heard: (event: { readonly data: ToWorker }) => void) => void;
  postMessage: (message: FromWorker, transfer: Transferable[]) => void;
};

const startBudget = 192 * 2 ** 20;
const scope = globalThis as unknown as WorkerScope;
const handle = frameServer((message, transfer) => scope.postMessage(message, transfer), startBudget);
scope.addEventListener('message', (event) => handle(event.data));
