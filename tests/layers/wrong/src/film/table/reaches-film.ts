// Wrong on purpose. Refused by: film-table
import { open } from 'node:fs/promises';
import type { Film } from '../film-thing.ts';
import type { Host } from '../../../../../../src/host/door.ts';

export const read = open;
export type Reaches = [Film, Host];
