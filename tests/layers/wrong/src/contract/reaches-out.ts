// Wrong on purpose. Refused by: contract
import { createHash } from 'node:crypto';
import { mean } from 'simple-statistics';
import type { Host } from '../../../../../src/host/door.ts';
import type { Film } from '../film/film-thing.ts';
import type { Database } from 'better-sqlite3';

export const hash = (text: string): string => createHash('sha256').update(text).digest('hex');
export const middle = (values: number[]): number => mean(values);
export type Reaches = [Host, Film, Database];
