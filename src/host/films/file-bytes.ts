import { open, stat } from 'node:fs/promises';
import { faultOf, FaultError } from '../../contract/faults.ts';
import type { FilmBytes } from '../../film/table/film-bytes.ts';

/** Reads stretches of a file on disk; `close` gives the file back. Throws a FaultError when it can't be opened. */
export async function fileBytes(path: string): Promise<FilmBytes & { close(): Promise<void> }> {
  // Looked at first: opening a pipe would wait for ever for somebody to write into it.
  const file = await stat(path).catch(() => null);
  if (file !== null && !file.isFile()) {
    throw new FaultError(
      faultOf('film-not-video', `A film is a file; ${path} is something else.`, 'Choose a film file.'),
    );
  }
  const handle = await open(path, 'r').catch((cause: unknown) => {
    throw new FaultError(
      faultOf(
        'film-missing',
        `The film ${path} can't be opened: ${cause instanceof Error ? cause.message : String(cause)}.`,
        'Check that the file is there and may be read.',
      ),
    );
  });
  const { size } = await handle.stat();
  return {
    size,
    async read(start, end) {
      const bytes = new Uint8Array(Math.max(0, end - start));
      let filled = 0;
      while (filled < bytes.length) {
        const { bytesRead } = await handle.read(bytes, filled, bytes.length - filled, start + filled);
        if (bytesRead === 0) break;
        filled += bytesRead;
      }
      return bytes.subarray(0, filled);
    },
    close: () => handle.close(),
  };
}
