import { call } from '../link/call.ts';

/** Asks with the system's own dialog where the shell has one; null: show the program's own file browser. */
export function pickWithSystem(want: 'film' | 'study'): Promise<string[] | null> {
  return call('files.pick', { want, many: want === 'film' });
}

/** The paths of dropped files that lie in allowed folders; a page is told only names and sizes. */
export async function droppedPaths(files: readonly File[]): Promise<string[]> {
  const found = await Promise.all(files.map((file) => call('files.find', { name: file.name, bytes: file.size })));
  return found.flatMap((paths) => paths.slice(0, 1));
}
