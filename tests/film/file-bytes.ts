import { open } from 'node:fs/promises';
import type { Fault } from '../../src/contract/faults.ts';
import type { FilmBytes } from '../../src/film/table/film-bytes.ts';
import type { FrameTable } from '../../src/film/table/frame-table.ts';
import { readFrameTable, type ReadTableOptions } from '../../src/film/table/read-frame-table.ts';

/** Opens a file's bytes for `use` and closes it afterwards. */
export async function withFileBytes<Result>(path: string, use: (bytes: FilmBytes) => Promise<Result>): Promise<Result> {
  const file = await open(path);
  try {
    const { size } = await file.stat();
    return await use({
      size,
      async read(start, end) {
        const { bytesRead, buffer } = await file.read(new Uint8Array(end - start), 0, end - start, start);
        return buffer.subarray(0, bytesRead);
      },
    });
  } finally {
    await file.close();
  }
}

/** Reads the frame table of a file. */
export function readTableOf(path: string, options?: ReadTableOptions): Promise<FrameTable | Fault> {
  return withFileBytes(path, (bytes) => readFrameTable(bytes, options));
}
