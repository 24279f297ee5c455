import { openFrameServer, type FrameServer } from '../../film/frame-server/frame-server.ts';
import type { FrameTable } from '../../film/table/frame-table.ts';
import { fetchFrameTable } from '../link/fetch-frame-table.ts';

const cacheBytes = 384 * 1024 * 1024;
let server: FrameServer | null = null;
const tables = new Map<string, Promise<FrameTable>>();

/** The frame server of this room; both pictures share its cache. */
export const roomFrames = (): FrameServer => (server ??= openFrameServer({ budgetBytes: cacheBytes }));

/** Frees what the pictures held, when the room is left. */
export function closeRoomFrames(): void {
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
