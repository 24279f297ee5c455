import { z } from 'zod';

/** The kinds of trouble the world can give, each of which the window knows how to act on. */
export const faultKinds = [
  'bad-input',
  'not-found',
  'refused',
  'forbidden',
  'too-large',
  'no-study',
  'study-missing',
  'study-locked',
  'study-newer',
  'study-damaged',
  'not-a-study',
  'read-only',
  'disk-full',
  'film-missing',
  'film-changed',
  'film-empty',
  'film-not-video',
  'film-truncated',
  'film-no-video-track',
  'film-unsupported',
  'film-interlaced',
  'undo-nothing',
  'undo-later-change',
  'no-printer',
  'internal',
] as const;
export type FaultKind = (typeof faultKinds)[number];

/** Trouble from the world, told as data: `says` is what, wanted and got; `next` is what a person can do. */
export const fault = z.strictObject({ fault: z.enum(faultKinds), says: z.string(), next: z.string() });
export type Fault = z.infer<typeof fault>;

/** Makes a fault: its kind, the sentence (what, wanted, got) and the next step. */
export function faultOf(kind: FaultKind, says: string, next: string): Fault {
  return { fault: kind, says, next };
}

/** Carries a fault through code that returns something else; the door turns it into data. */
export class FaultError extends Error {
  readonly fault: Fault;
  constructor(fault: Fault) {
    super(fault.says);
    this.name = 'FaultError';
    this.fault = fault;
  }
}
