// Wrong on purpose. Refused by: host
import { BrowserWindow } from 'electron';
import { createRoot } from 'react-dom/client';
import { serve } from '@hono/node-server';
import { Command } from 'commander';
import type { Film } from '../film/film-thing.ts';
import type { Served } from '../../../../../src/loopback/serve.ts';
import type { Place } from '../ui/link/place-thing.ts';

export const reaches = [BrowserWindow, createRoot, serve, Command];
export type Reaches = [Film, Served, Place];
