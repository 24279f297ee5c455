import { frameCount, keyFor, type FrameTable } from '../table/frame-table.ts';
import { copyPicture } from './copy-picture.ts';
import { startRun, type DecodeRun } from './decode-run.ts';
import type { FilmSource } from './film-source.ts';
import type { FrameCache } from './frame-cache.ts';
import type { Picture } from './picture.ts';

/** How bringing a frame into the cache ended. */
export type Produced = 'cached' | 'crowded-out' | 'interrupted' | 'lost';

/** Brings frames of one film into the cache. */
export type FilmDecoder = {
  /**
   * Decodes until the frame is in the cache. `interrupted` is asked after each step. `crowded-out` when it was decoded
   * but the cache has no room for it beside frames wanted more. `lost` when the film's bytes
   * do not yield the frame. Rejects with a FaultError when the film can't be read any more.
   */
  readonly produce: (frame: number, interrupted: () => boolean) => Promise<Produced>;
  /** Frames that came out of decoders, and decoders started, since the film was opened. */
  readonly counts: () => { readonly decoded: number; readonly starts: number };
  /** Frames known to be lost. */
  readonly lost: ReadonlySet<number>;
  readonly close: () => void;
};

/** How many key packets further back a decoder is tried when it refuses to begin at the nearest one. */
const triesBack = 3;

/** Opens a decoder for a film; decoded pictures go to `cache` under the film's id, into `spare` memory where it fits. */
export function openFilmDecoder(
  film: string,
  source: FilmSource,
  table: FrameTable,
  cache: FrameCache<Picture>,
  spare: Uint8Array<ArrayBuffer>[],
): FilmDecoder {
  const lost = new Set<number>();
  let run: DecodeRun | null = null;
  let closed = false;
  let decoded = 0;
  let starts = 0;

  const startOf = (frame: number): number => table.keyDecode[keyFor(table, frame)] ?? 0;

  async function take(frame: number, picture: VideoFrame): Promise<void> {
    decoded += 1;
    try {
      if (closed || cache.has(film, frame)) return;
      const copied = await copyPicture(picture, spare.pop());
      if (!closed) cache.put(film, frame, copied, copied.data.byteLength);
    } finally {
      picture.close();
    }
  }

  function begin(key: number): DecodeRun {
    run?.close();
    starts += 1;
    run = startRun({ source, table, key, startOf, take });
    return run;
  }

  /** Marks a frame as lost; after a decoder's error also those that come after it in its group of pictures. */
  function giveUp(frame: number, key: number, ended: DecodeRun): void {
    lost.add(frame);
    if (ended.failed() === null) return;
    const place = table.decode[frame] ?? 0;
    const end = table.keyDecode[key + 1] ?? table.packets;
    for (let later = place; later < end; later += 1) {
      const shown = source.frames[later] ?? -1;
      if (shown >= 0 && !ended.brought(shown) && keyFor(table, shown) === key) lost.add(shown);
    }
  }

  async function produce(frame: number, interrupted: () => boolean): Promise<Produced> {
    if (frame < 0 || frame >= frameCount(table)) throw new Error(`The film has no frame ${frame}.`);
    if (cache.has(film, frame)) return 'cached';
    if (lost.has(frame)) return 'lost';
    const wantedKey = keyFor(table, frame);
    let tries = 0;
    const retry = (): void => {
      begin(wantedKey - tries);
      tries += 1;
    };
    if (run === null || !run.reaches(frame)) retry();
    for (;;) {
      if (closed) return 'interrupted';
      if (cache.has(film, frame)) return 'cached';
      if (interrupted()) return 'interrupted';
      const current = run;
      if (current === null) {
        retry();
      } else if (tries > 0 && current.brought(frame)) {
        return 'crowded-out';
      } else if (current.failed() === null && !current.missed(frame)) {
        await current.step();
      } else if (tries === 0 || (current.outputs() === 0 && tries <= triesBack && tries <= wantedKey)) {
        // A run begun for another frame says nothing of this one; a decoder that refused its key packet (an I-frame
        // of an open group on some machines) is begun at an earlier one.
        retry();
      } else {
        run = null;
        current.close();
        giveUp(frame, wantedKey, current);
        return 'lost';
      }
    }
  }

  return {
    produce,
    counts: () => ({ decoded, starts }),
    lost,
    close() {
      closed = true;
      run?.close();
      run = null;
      source.close();
      cache.dropFilm(film);
    },
  };
}
