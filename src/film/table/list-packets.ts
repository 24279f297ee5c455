import { EncodedPacketSink, type InputVideoTrack } from 'mediabunny';

/** How to read a table: called back with 0 to 1 as it goes, and stopped by the signal. */
export type ReadTableOptions = {
  readonly onProgress?: (done: number) => void;
  readonly signal?: AbortSignal;
};

/** The packets of a video track in decode order. */
export type PacketList = {
  /** Presentation time of each in seconds; below 0 when an edit list hides it. */
  readonly times: readonly number[];
  /** Seconds each is shown for, 0 when the container does not say. */
  readonly durations: readonly number[];
  /** Places of the key packets. */
  readonly keys: readonly number[];
};

/** Lists a track's packets without their data; `onProgress` hears 0 to 1 by film time. */
export async function listPackets(track: InputVideoTrack, options: ReadTableOptions): Promise<PacketList> {
  const times: number[] = [];
  const durations: number[] = [];
  const keys: number[] = [];
  const length = (await track.getDurationFromMetadata()) ?? 0;
  const sink = new EncodedPacketSink(track);
  // One packet after another: the library's iterator slows down on long films (its queue of times is shifted).
  let packet = await sink.getFirstPacket({ metadataOnly: true });
  while (packet !== null) {
    if (packet.type === 'key') keys.push(times.length);
    times.push(packet.timestamp);
    durations.push(packet.duration);
    if (times.length % 2048 === 0) {
      options.signal?.throwIfAborted();
      if (length > 0) options.onProgress?.(Math.min(0.99, Math.max(0, packet.timestamp / length)));
    }
    packet = await sink.getNextPacket(packet, { metadataOnly: true });
  }
  return { times, durations, keys };
}
