// Wrong on purpose. Refused by: ui-link
import { request } from 'node:http';
import { useState } from 'react';
import type { Film } from '../../film/film-thing.ts';
import type { Host } from '../../../../../../src/host/door.ts';
import type { Stage } from '../stage/index.tsx';

export const reaches = [request, useState];
export type Reaches = [Film, Host, Stage];
