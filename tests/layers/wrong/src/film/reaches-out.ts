// Wrong on purpose. Refused by: film
import { openAsBlob } from 'node:fs';
import videojs from 'video.js';
import type { Host } from '../../../../../src/host/door.ts';
import type { Place } from '../ui/link/place-thing.ts';

export const player = videojs;
export const open = openAsBlob;
export type Reaches = [Host, Place];
