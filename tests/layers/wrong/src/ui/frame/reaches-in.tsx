// Wrong on purpose. Refused by: ui-frame
import { platform } from 'node:os';
import type { Inner } from '../stage/inner.tsx';
import type { Host } from '../../../../../../src/host/door.ts';
import { Hono } from 'hono';

export type Keys = Inner;
export const reaches = [platform, Hono];
export type Reaches = Host;
