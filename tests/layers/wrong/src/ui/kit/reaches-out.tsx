// Wrong on purpose. Refused by: ui-kit
import { readFileSync } from 'node:fs';
import type { CallName } from '../../../../../../src/contract/calls.ts';
import type { Place } from '../link/place-thing.ts';
import type { Stage } from '../stage/index.tsx';
import { z } from 'zod';

export const reaches = [readFileSync, z];
export type Reaches = [CallName, Place, Stage];
