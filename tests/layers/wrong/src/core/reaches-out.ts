// Wrong on purpose. Refused by: core
import { readFileSync } from 'node:fs';
import { z } from 'zod';
import type { CallName } from '../../../../../src/contract/calls.ts';
import type { HostEvent } from '../../../../../src/contract/events.ts';
import type { Host } from '../../../../../src/host/door.ts';
import type { ReactNode } from 'react';

export const lines = (path: string): number => readFileSync(path, 'utf8').split('\n').length;
export const shape = z.string();
export type Reaches = [CallName, HostEvent, Host, ReactNode];
