// Wrong on purpose. Refused by: cli
import SQLite from 'better-sqlite3';
import type { Served } from '../../../../../src/loopback/serve.ts';
import type { Known } from '../../../../../src/core/known.ts';

export const reaches = SQLite;
export type Reaches = [Served, Known<number, string>];
