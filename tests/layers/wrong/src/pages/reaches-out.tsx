// Wrong on purpose. Refused by: pages
import { join } from 'node:path';
import { createPortal } from 'react-dom';
import { create } from 'zustand';
import type { Host } from '../../../../../src/host/door.ts';
import type { Film } from '../film/film-thing.ts';
import type { Place } from '../ui/link/place-thing.ts';

export const reaches = [join, createPortal, create];
export type Reaches = [Host, Film, Place];
