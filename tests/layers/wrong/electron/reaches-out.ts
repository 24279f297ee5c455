// Wrong on purpose. Refused by: electron
import { serve } from '@hono/node-server';
import type { Guard } from '../../../../src/loopback/guard.ts';
import type { Known } from '../../../../src/core/known.ts';
import type { Place } from '../src/ui/link/place-thing.ts';

export const reaches = serve;
export type Reaches = [Guard, Known<number, string>, Place];
