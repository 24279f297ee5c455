import type { ChangeStep } from '../../contract/changes.ts';
import { call } from './call.ts';
import { usePlace } from './place.ts';

const own = new Set<string>();

/** True for a change this window made itself, whose effect it already shows. */
export const isOwnChange = (entry: string): boolean => own.has(entry);

/** Makes a change as the evaluator of this window; rejects with a FaultError, and then nothing was changed. */
export async function makeChange(label: string, steps: readonly ChangeStep[]): Promise<void> {
  const made = await call('change.make', {
    by: usePlace.getState().evaluatorId,
    label: label.slice(0, 200),
    steps: [...steps],
  });
  own.add(made.entry);
}

/** A new row's name. */
export const newId = (): string => crypto.randomUUID();
