/** The thread where SQLite works: one message in, one answer out; film ranges never wait for it. */
import { parentPort, workerData } from 'node:worker_threads';
import { faultOf, FaultError, type Fault } from '../../contract/faults.ts';
import { studyHandlers, type StudySurroundings } from './handlers.ts';
import { storageFault } from './storage-fault.ts';

export type WorkerRequest = { readonly id: number; readonly name: string; readonly input: unknown };
export type WorkerAnswer =
  | { readonly id: number; readonly ok: true; readonly value: unknown }
  | { readonly id: number; readonly ok: false; readonly fault: Fault; readonly stack: string | null };

const handlers: Record<string, (input: never) => unknown> = studyHandlers(workerData as StudySurroundings, Date.now);

function answer({ id, name, input }: WorkerRequest): WorkerAnswer {
  try {
    const handle = Object.hasOwn(handlers, name) ? handlers[name] : undefined;
    if (handle === undefined) throw new Error(`the study worker has no call ${name}`);
    return { id, ok: true, value: handle(input as never) };
  } catch (thrown) {
    const cause = storageFault(thrown);
    if (cause instanceof FaultError) return { id, ok: false, fault: cause.fault, stack: null };
    const stack = cause instanceof Error ? (cause.stack ?? cause.message) : String(cause);
    const says = cause instanceof Error ? cause.message : String(cause);
    return {
      id,
      ok: false,
      fault: faultOf(
        'internal',
        `Creasebook made a mistake: ${says}.`,
        'Nothing was half-written. Please keep the log and tell us.',
      ),
      stack,
    };
  }
}

parentPort?.on('message', (request: WorkerRequest) => parentPort?.postMessage(answer(request)));
