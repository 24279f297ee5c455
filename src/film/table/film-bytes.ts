import { CustomSource, type Source } from 'mediabunny';

/**
 * A film's bytes wherever they lie: their number, and any stretch of them.
 * `read` gives bytes `start` (included) to `end` (not included), 0 <= start < end <= size, and fewer only when the
 * file has shrunk. On Node: a file handle's `read`; in a page: a Blob's `slice` or a range request.
 */
export type FilmBytes = {
  readonly size: number;
  readonly read: (start: number, end: number) => Promise<Uint8Array>;
};

/** Presents a film's bytes as the media library's source, with a cache of at most 16 MiB. */
export function sourceOf(bytes: FilmBytes): Source {
  return new CustomSource({
    getSize: () => bytes.size,
    read: (start, end) => bytes.read(start, end),
    maxCacheSize: 16 * 2 ** 20,
    prefetchProfile: 'fileSystem',
  });
}
