// Wrong on purpose. Refused by the compiler of: src/film with 2591, 2307 (there is no Node)
import { readFileSync } from 'node:fs';

export const read = (path: string): string => readFileSync(path, 'utf8');
