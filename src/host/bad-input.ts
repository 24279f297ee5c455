import type { z } from 'zod';
import { faultOf, type Fault } from '../contract/faults.ts';

/** Turns a failed parse into a fault whose sentence names the place, what it wanted and what it got. */
export function badInput(what: string, error: z.ZodError): Fault {
  const [first] = error.issues;
  const where = first === undefined || first.path.length === 0 ? '' : ` at ${first.path.map(String).join('.')}`;
  const more = error.issues.length > 1 ? ` (and ${error.issues.length - 1} more)` : '';
  return faultOf(
    'bad-input',
    `That is not ${what}${where}: ${first?.message ?? 'it does not fit'}${more}.`,
    'Nothing was changed. Correct it and try again.',
  );
}
