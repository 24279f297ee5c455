// Wrong on purpose. Refused by: loopback
import { app } from 'electron';
import { Hono } from 'hono';
import type { Known } from '../../../../../src/core/known.ts';
import type { Film } from '../film/film-thing.ts';

export const reaches = [app, Hono];
export type Reaches = [Known<number, string>, Film];
