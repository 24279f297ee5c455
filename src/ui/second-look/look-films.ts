import { openFrameServer, type FrameServer } from '../../film/frame-server/frame-server.ts';
import type { FrameTable } from '../../film/table/frame-table.ts';
import { fetchFrameTable } from '../link/fetch-frame-table.ts';

const cacheBytes = 256 * 1024 * 1024;
let server: FrameServer | null = null;
const tables = new Map<string, Promise<FrameTable>>();

/** The frame server of this room. */
export const lookFrames = (): FrameServer => (server ??= openFrameServer({ budgetBytes: cacheBytes }));

/** Frees what the picture held, when the room is left. */
export function closeLookFrames(): void {
  server?.close();
  server = null;
  tables.clear();
}

/** A film's frame table, read once a visit; rejects with a FaultError, and is then asked for anew the next time. */
export function tableOf(filmId: string): Promise<FrameTable> {
  let table = tables.get(filmId);
  if (table === undefined) {
    table = fetchFrameTable(filmId);
    tables.set(filmId, table);
    table.catch(() => tables.delete(filmId));
  }
  return table;
}
