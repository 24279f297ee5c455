import { Worker } from 'node:worker_threads';
import type { CallInput, CallOutput } from '../../contract/calls.ts';
import { FaultError } from '../../contract/faults.ts';
import type { StudyCall, StudySurroundings } from './handlers.ts';
import type { InnerCalls, InnerName } from './inner-calls.ts';
import type { WorkerAnswer, WorkerRequest } from './worker.ts';

type InputOf<Name extends StudyCall | InnerName> = Name extends StudyCall
  ? CallInput<Name>
  : Name extends InnerName
    ? InnerCalls[Name]['input']
    : never;
type OutputOf<Name extends StudyCall | InnerName> = Name extends StudyCall
  ? CallOutput<Name>
  : Name extends InnerName
    ? InnerCalls[Name]['output']
    : never;

/** The study as seen from the door: every call goes to the worker thread and comes back as a promise. */
export type StudyClient = {
  /** Rejects with a FaultError for trouble from the world, with an Error for a bug (already logged). */
  call<Name extends StudyCall | InnerName>(name: Name, input: InputOf<Name>): Promise<OutputOf<Name>>;
  close(): Promise<void>;
};

/** Starts the study worker; `log` hears of bugs with their stack. */
export function startStudyWorker(surroundings: StudySurroundings, log: (line: string) => void): StudyClient {
  // From source (tests) and built alike: the worker is the file beside this one.
  const file = import.meta.url.endsWith('.ts') ? './worker.ts' : './worker.js';
  const worker = new Worker(new URL(file, import.meta.url), { workerData: surroundings });
  const waiting = new Map<number, { resolve: (value: unknown) => void; reject: (cause: unknown) => void }>();
  let next = 0;
  let ended: Error | null = null;
  worker.on('message', (answer: WorkerAnswer) => {
    const waiter = waiting.get(answer.id);
    waiting.delete(answer.id);
    if (waiter === undefined) return;
    if (answer.ok) {
      waiter.resolve(answer.value);
    } else {
      if (answer.stack !== null) log(answer.stack);
      waiter.reject(new FaultError(answer.fault));
    }
  });
  const end = (cause: Error): void => {
    ended = cause;
    log(cause.stack ?? cause.message);
    for (const { reject } of waiting.values()) reject(cause);
    waiting.clear();
  };
  worker.on('error', end);
  worker.on('exit', (code) => {
    if (code !== 0 && ended === null) end(new Error(`the study worker ended with code ${code}`));
  });
  const send = (name: string, input: unknown): Promise<unknown> =>
    new Promise((resolve, reject) => {
      if (ended !== null) {
        reject(ended);
        return;
      }
      next += 1;
      waiting.set(next, { resolve, reject });
      const request: WorkerRequest = { id: next, name, input };
      worker.postMessage(request);
    });
  return {
    call: (name, input) => send(name, input) as Promise<OutputOf<typeof name>>,
    async close() {
      if (ended === null) await send('inner.close', null);
      ended ??= new Error('the study worker is closed');
      await worker.terminate();
    },
  };
}
