import * as first from './0010-first.ts';

/** One step of the study's shape: the version it leads to and the SQL that leads there. */
export type Migration = { readonly version: number; readonly sql: string };

/** Every migration, oldest first. A released one never changes; the next is numbered ten higher. */
export const migrations: readonly Migration[] = [first];

/** The version this program writes. */
export const newestVersion = 10;
