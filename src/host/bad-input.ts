import type { z } from 'zod';
import { faultOf, type Fault } from '../contract/faults.ts';

const mostLetters = 60;

function gotAt(input: unknown, path: readonly PropertyKey[]): string {
  let at = input;
  for (const key of path) {
    if (typeof at !== 'object' || at === null || !Object.hasOwn(at, key)) return 'nothing';
    at = (at as Record<PropertyKey, unknown>)[key];
  }
  if (at === undefined) return 'nothing';
  const words = JSON.stringify(at) ?? typeof at;
  return words.length > mostLetters ? `${words.slice(0, mostLetters)}…` : words;
}

/** Turns a failed parse of `input` into a fault whose sentence names the place, what it wanted and what it got. */
export function badInput(what: string, error: z.ZodError, input: unknown): Fault {
  const [first] = error.issues;
  const path = first?.path ?? [];
  const where = path.length === 0 ? '' : ` at ${path.map(String).join('.')}`;
  const more = error.issues.length > 1 ? ` (and ${error.issues.length - 1} more)` : '';
  return faultOf(
    'bad-input',
    `That is not ${what}${where}: ${first?.message ?? 'it does not fit'}; got ${gotAt(input, path)}${more}.`,
    'Nothing was changed. Correct it and try again.',
  );
}
