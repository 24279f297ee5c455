import { FaultError, faultOf, type Fault } from '../../contract/faults.ts';
import { decodeFrameTable } from '../../film/table/frame-table-bytes.ts';
import type { FrameTable } from '../../film/table/frame-table.ts';

/** Fetches a film's frame table from the door; rejects with a FaultError. */
export async function fetchFrameTable(filmId: string): Promise<FrameTable> {
  const response = await fetch(`/frames/${filmId}`);
  if (response.headers.get('content-type')?.startsWith('application/json') === true) {
    const { fault } = (await response.json()) as { fault: Fault };
    throw new FaultError(fault);
  }
  const table = decodeFrameTable(new Uint8Array(await response.arrayBuffer()));
  if (!table.known) throw new FaultError(faultOf('internal', table.detail, 'Add the film again.'));
  return table.value;
}
