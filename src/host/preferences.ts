import { mkdirSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { dirname } from 'node:path';
import { z } from 'zod';

const shape = z.record(z.string(), z.json());
export type Preferences = z.infer<typeof shape>;

/** One person's window habits on one machine (theme, where each room was): a small JSON file, never part of a study. */
export type PreferenceFile = { read(): Preferences; write(set: Preferences): void };

/** Opens the file at `path`; a missing or spoilt one reads as empty, and writing replaces it whole. */
export function preferenceFile(path: string): PreferenceFile {
  const read = (): Preferences => {
    try {
      const parsed = shape.safeParse(JSON.parse(readFileSync(path, 'utf8')));
      return parsed.success ? parsed.data : {};
    } catch {
      return {};
    }
  };
  return {
    read,
    write(set) {
      mkdirSync(dirname(path), { recursive: true });
      const next = `${path}.next`;
      writeFileSync(next, `${JSON.stringify({ ...read(), ...set }, null, 2)}\n`);
      renameSync(next, path);
    },
  };
}
