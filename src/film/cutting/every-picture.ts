import type { FilmSource } from '../frame-server/film-source.ts';
import { copyPicture } from '../frame-server/copy-picture.ts';
import type { Picture } from '../frame-server/picture.ts';
import type { FrameTable } from '../table/frame-table.ts';

/** Chunks in a decoder at once, and pictures being copied at once. */
const chunksInFlight = 32;
const copiesInFlight = 8;

/**
 * Decodes a film from its first key frame to its last, handing each shown picture over in order. `use` must be done
 * with a picture before it returns: its memory is used again for a later one. Frames that can't be decoded are stepped over: decoding goes on at the next key
 * frame. Gives the number of pictures handed over. Rejects with a FaultError when the film can't be read.
 */
export async function everyPicture(
  source: FilmSource,
  table: FrameTable,
  use: (picture: Picture, frame: number) => void,
  from = 0,
  to = Infinity,
): Promise<number> {
  let key = from;
  let used = 0;
  while (key < table.keyDecode.length && key <= to) {
    const stopped = await oneRun(source, table, key, to, (picture, frame) => {
      used += 1;
      use(picture, frame);
    });
    if (stopped === null) break;
    key = Math.max(key + 1, stopped);
  }
  return used;
}

/** One decoder from a key packet on; null when it came to the end, else the key packet after the one that failed. */
async function oneRun(
  source: FilmSource,
  table: FrameTable,
  key: number,
  to: number,
  use: (picture: Picture, frame: number) => void,
): Promise<number | null> {
  const ready = new Map<number, Picture>();
  // Pictures are looked at and gone: their memory is used again.
  const spare: Uint8Array<ArrayBuffer>[] = [];
  let failed = false;
  let change = Promise.withResolvers<void>();
  const changed = (): void => {
    change.resolve();
    change = Promise.withResolvers<void>();
  };
  let turn = 0;
  let nextTurn = 0;
  let copies = 0;
  const frames: number[] = [];
  const decoder = new VideoDecoder({
    output(picture) {
      const frame = picture.timestamp;
      if (frame < 0) {
        picture.close();
        return;
      }
      const mine = turn;
      turn += 1;
      copies += 1;
      frames[mine] = frame;
      void copyPicture(picture, spare.pop())
        .then((copied) => ready.set(mine, copied))
        .catch(() => (failed = true))
        .finally(() => {
          picture.close();
          copies -= 1;
          for (let next = ready.get(nextTurn); next !== undefined; next = ready.get(nextTurn)) {
            ready.delete(nextTurn);
            use(next, frames[nextTurn] ?? 0);
            spare.push(next.data);
            nextTurn += 1;
          }
          changed();
        });
    },
    error() {
      failed = true;
      changed();
    },
  });
  const copying = (): boolean => copies > 0;
  const busy = (): boolean => !failed && (decoder.decodeQueueSize >= chunksInFlight || copies >= copiesInFlight);
  decoder.configure(source.config);
  decoder.addEventListener('dequeue', changed);
  const start = table.keyDecode[key] ?? 0;
  const end = table.keyDecode[to + 1] ?? Infinity;
  const keyTime = table.keyTimes[key] ?? 0;
  const leadingEnd = table.keyDecode[key + 1] ?? Infinity;
  let place = start;
  try {
    for await (const { packet, place: at } of source.from(key)) {
      if (at >= end) break;
      place = at;
      if (key > 0 && at < leadingEnd && packet.timestamp < keyTime - 1e-9) continue;
      const frame = source.frames[at] ?? -1;
      const type = at === start ? 'key' : packet.type;
      while (busy()) await change.promise;
      if (failed) break;
      decoder.decode(new EncodedVideoChunk({ type, timestamp: frame < 0 ? -1 - at : frame, data: packet.data }));
    }
    if (!failed) await decoder.flush().catch(() => (failed = true));
    while (copying()) await change.promise;
  } finally {
    if (decoder.state !== 'closed') decoder.close();
  }
  if (!failed) return null;
  const next = table.keyDecode.findIndex((keyPlace) => keyPlace > place);
  return next < 0 ? table.keyDecode.length : next;
}
