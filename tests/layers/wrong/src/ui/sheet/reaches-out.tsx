// Wrong on purpose. Refused by: ui-room
import { homedir } from 'node:os';
import type { Stage } from '../stage/index.tsx';
import type { Keys } from '../frame/reaches-in.tsx';
import type { Host } from '../../../../../../src/host/door.ts';
import type { Database } from 'better-sqlite3';
import { Input } from 'mediabunny';

export const reaches = [homedir, Input];
export type Reaches = [Stage, Keys, Host, Database];
