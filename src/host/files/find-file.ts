import { readdirSync, statSync } from 'node:fs';
import { join } from 'node:path';

const deepest = 3;
const mostFolders = 4000;

/** Finds files of a name and size (bytes) in the given folders and three folders deep; hidden folders and links are passed over. */
export function findFile(name: string, bytes: number, folders: readonly string[]): string[] {
  const found = new Set<string>();
  const waiting = folders.map((folder) => ({ folder, depth: 0 }));
  for (let looked = 0; waiting.length > 0 && looked < mostFolders; looked += 1) {
    const next = waiting.shift();
    if (next === undefined) break;
    let entries;
    try {
      entries = readdirSync(next.folder, { withFileTypes: true });
    } catch {
      continue;
    }
    for (const entry of entries) {
      const path = join(next.folder, entry.name);
      if (entry.isFile() && entry.name === name && statSync(path).size === bytes) found.add(path);
      if (entry.isDirectory() && next.depth < deepest && !entry.name.startsWith('.') && entry.name !== 'node_modules') {
        waiting.push({ folder: path, depth: next.depth + 1 });
      }
    }
  }
  return [...found];
}
