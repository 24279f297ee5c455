import type { ChangeStep } from '../../contract/changes.ts';
import { call } from './call.ts';
import { usePlace } from './place.ts';

const own = new Set<string>();

/** True for a change this window made itself, whose effect it already shows. */
export const isOwnChange = (entry: string): boolean => own.has(entry);

let before: Promise<unknown> = Promise.resolve();

/**
 * Makes a change as the evaluator of this window; rejects with a FaultError, and then nothing was changed.
 * Changes reach the study in the order of the keys that made them: a half added to a mark never overtakes the mark.
 */
export async function makeChange(label: string, steps: readonly ChangeStep[]): Promise<void> {
  const change = { by: usePlace.getState().evaluatorId, label: label.slice(0, 200), steps: [...steps] };
  const made = before.then(() => call('change.make', change));
  before = made.catch(() => undefined);
  own.add((await made).entry);
}

/** A new row's name. */
export const newId = (): string => crypto.randomUUID();
