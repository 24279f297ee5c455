import type { FilmSource } from './film-source.ts';
import type { FrameTable } from '../table/frame-table.ts';

/** Chunks a decoder is given before it has worked off earlier ones. */
const chunksInFlight = 12;
/** What starting a decoder anew costs, in packets decoded: so far is it cheaper to decode on to a later key packet. */
const startCost = 16;
/** Frames being copied at once; a decoder stalls while many of its frames are held (w3c/webcodecs issue 612). */
const copiesInFlight = 6;

/** A decoder on its way through a film from one key packet, always forwards. */
export type DecodeRun = {
  /** Place in `keyDecode` where it began. */
  readonly key: number;
  /** Place in decode order of the next packet it will be given. */
  readonly next: () => number;
  /** True while going on will bring the frame out, at no more cost than beginning anew at its own key packet. */
  readonly reaches: (frame: number) => boolean;
  /** True when the frame has come out, whether or not the cache still holds it. */
  readonly brought: (frame: number) => boolean;
  /** True once later frames have come out without this one: it will not come. */
  readonly missed: (frame: number) => boolean;
  /** Goes one step on: gives the decoder a packet, or waits until something changes. */
  readonly step: () => Promise<void>;
  readonly failed: () => Error | null;
  /** How many frames have come out. */
  readonly outputs: () => number;
  readonly close: () => void;
};

export type RunOptions = {
  readonly source: FilmSource;
  readonly table: FrameTable;
  readonly key: number;
  /** Where decoding must begin for a frame, as a place in decode order. */
  readonly startOf: (frame: number) => number;
  /** Takes a frame that came out, and closes it. */
  readonly take: (frame: number, picture: VideoFrame) => Promise<void>;
};

/**
 * Frames of the same time come out in an order only the decoder knows: the first one out is taken for the first of
 * those a run from `start` in decode order can bring. Gives each frame number its number in that order.
 */
function sameTimeOrder({ times, decode }: FrameTable, start: number): (frame: number) => number {
  const out = new Map<number, number>();
  return (frame) => {
    if (times[frame - 1] !== times[frame] && times[frame + 1] !== times[frame]) return frame;
    let first = frame;
    while (first > 0 && times[first - 1] === times[frame] && (decode[first - 1] ?? 0) >= start) first -= 1;
    const before = out.get(first) ?? 0;
    out.set(first, before + 1);
    return first + before;
  };
}

/** Starts a decoder at a key packet of a film. Timestamps given to it are frame numbers, so none is ever rounded. */
export function startRun({ source, table, key, startOf, take }: RunOptions): DecodeRun {
  const packets = source.from(key);
  const keyTime = table.keyTimes[key] ?? 0;
  const start = table.keyDecode[key] ?? 0;
  const leadingEnd = table.keyDecode[key + 1] ?? Infinity;
  const sameTime = sameTimeOrder(table, start);
  let next = start;
  let ended: 'no' | 'flushing' | 'yes' = 'no';
  let lastOut = -1;
  const copying = new Set<number>();
  let outputs = 0;
  const brought = new Set<number>();
  let error: Error | null = null;
  let closed = false;
  let change = Promise.withResolvers<void>();

  function changed(): void {
    change.resolve();
    change = Promise.withResolvers<void>();
  }

  const decoder = new VideoDecoder({
    output(picture) {
      outputs += 1;
      const frame = picture.timestamp < 0 ? -1 : sameTime(picture.timestamp);
      if (closed || frame < 0) {
        picture.close();
        changed();
        return;
      }
      lastOut = Math.max(lastOut, frame);
      copying.add(frame);
      brought.add(frame);
      void take(frame, picture)
        .catch((reason: unknown) => {
          error ??= reason instanceof Error ? reason : new Error(String(reason));
        })
        .finally(() => {
          copying.delete(frame);
          changed();
        });
    },
    error(reason) {
      error ??= reason;
      changed();
    },
  });
  decoder.configure({ ...source.config });
  decoder.addEventListener('dequeue', changed);

  async function feed(): Promise<void> {
    const got = await packets.next();
    if (closed) return;
    if (got.done === true) {
      ended = 'flushing';
      // Not waited for here: frames come out one by one meanwhile.
      void decoder
        .flush()
        .catch((reason: unknown) => {
          if (!closed) error ??= reason instanceof Error ? reason : new Error(String(reason));
        })
        .finally(() => {
          ended = 'yes';
          changed();
        });
      return;
    }
    const { packet, place } = got.value;
    next = place + 1;
    // Leading frames of the group the run begins with lean on the group before: they are decoded from there.
    if (place < leadingEnd && packet.timestamp < keyTime - 1e-9) return;
    const frame = source.frames[place] ?? -1;
    const type = place === start ? 'key' : packet.type;
    decoder.decode(new EncodedVideoChunk({ type, timestamp: frame < 0 ? -1 - place : frame, data: packet.data }));
  }

  return {
    key,
    next: () => next,
    reaches(frame) {
      if (closed || error !== null) return false;
      if (lastOut >= frame) return copying.has(frame);
      const from = startOf(frame);
      return start <= from && from - next <= startCost;
    },
    brought: (frame) => brought.has(frame) && !copying.has(frame),
    missed: (frame) => !copying.has(frame) && (ended === 'yes' || lastOut > frame),
    async step() {
      if (error !== null) return;
      const busy = decoder.decodeQueueSize >= chunksInFlight || copying.size >= copiesInFlight;
      if (ended === 'yes') return;
      if (busy || ended === 'flushing') await change.promise;
      else await feed();
    },
    failed: () => error,
    outputs: () => outputs,
    close() {
      if (closed) return;
      closed = true;
      if (decoder.state !== 'closed') decoder.close();
      void packets.return();
      changed();
    },
  };
}
