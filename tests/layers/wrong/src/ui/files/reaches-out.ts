// Wrong on purpose. Refused by: ui-shared
import { readdirSync } from 'node:fs';
import type { Film } from '../../film/film-thing.ts';
import type { Host } from '../../../../../../src/host/door.ts';
import type { Stage } from '../stage/index.tsx';

export const reaches = readdirSync;
export type Reaches = [Film, Host, Stage];
