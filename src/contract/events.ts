import { z } from 'zod';
import { line } from './words.ts';

/** What the door tells its windows unasked, as server-sent events. */
export const hostEvent = z.discriminatedUnion('event', [
  z.strictObject({ event: z.literal('changed'), entry: z.string(), touched: z.array(z.string()) }),
  z.strictObject({ event: z.literal('study'), path: z.string().nullable() }),
  z.strictObject({ event: z.literal('progress'), work: line, done: z.number().min(0).max(1), words: line }),
]);
export type HostEvent = z.infer<typeof hostEvent>;
