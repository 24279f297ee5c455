import * as first from './0010-first.ts';

/** Every migration, oldest first. A released one never changes; the next is numbered ten higher. */
export const migrations: readonly { readonly version: number; readonly sql: string }[] = [first];

/** The version this program writes. */
export const newestVersion = 10;
