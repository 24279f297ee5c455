import {
  BufferTarget,
  EncodedPacket,
  EncodedVideoPacketSource,
  Mp4OutputFormat,
  Output,
  type VideoCodec,
} from 'mediabunny';
import { openFilmSource, type FilmSource } from '../frame-server/film-source.ts';
import { copyableFrom, reelFrames, type ReelPart, type ReelSpan } from './reel-plan.ts';

const codecs: readonly (readonly [start: string, codec: VideoCodec])[] = [
  ['avc', 'avc'],
  ['hvc', 'hevc'],
  ['hev', 'hevc'],
  ['vp09', 'vp9'],
  ['av01', 'av1'],
  ['vp8', 'vp8'],
];

function bytesOf(source: AllowSharedBufferSource | undefined): Uint8Array {
  if (source === undefined) return new Uint8Array();
  return ArrayBuffer.isView(source)
    ? new Uint8Array(source.buffer, source.byteOffset, source.byteLength)
    : new Uint8Array(source);
}

function sameBytes(a: AllowSharedBufferSource | undefined, b: AllowSharedBufferSource | undefined): boolean {
  const [one, other] = [bytesOf(a), bytesOf(b)];
  return one.length === other.length && one.every((byte, at) => byte === other[at]);
}

/** Opens the films of some spans once each, and closes them all. */
async function withSources<Result>(
  spans: readonly ReelSpan[],
  use: (sourceOf: (span: ReelSpan) => FilmSource) => Promise<Result>,
): Promise<Result> {
  const open = new Map<string, FilmSource>();
  try {
    for (const { film } of spans) {
      if (!open.has(film.id))
        open.set(film.id, await openFilmSource(new URL(film.url, location.href).href, film.table));
    }
    return await use((span) => {
      const source = open.get(span.film.id);
      if (source === undefined) throw new Error(`The film ${span.film.id} was not opened.`);
      return source;
    });
  } finally {
    for (const source of open.values()) source.close();
  }
}

/**
 * Puts a reel together without encoding anything, or gives null when that can't be: every part must be a span whose
 * packets can be copied, and all must have the same decoder settings. `onPacket` is told of each packet copied.
 */
export async function copyReel(
  parts: readonly ReelPart[],
  onPacket: () => void,
  signal: AbortSignal | undefined,
): Promise<Uint8Array<ArrayBuffer> | null> {
  const spans = parts.filter((part) => part.kind === 'span');
  const keys = spans.map((span) => copyableFrom(span));
  if (spans.length === 0 || spans.length < parts.length || keys.includes(null)) return null;
  return withSources(spans, async (sourceOf) => {
    const configs = spans.map((span) => sourceOf(span).config);
    const [config] = configs;
    const codec = codecs.find(([start]) => config?.codec.startsWith(start))?.[1];
    const same = configs.every(
      (other) => other.codec === config?.codec && sameBytes(other.description, config?.description),
    );
    if (config === undefined || codec === undefined || !same) return null;
    const target = new BufferTarget();
    const output = new Output({ format: new Mp4OutputFormat({ fastStart: 'in-memory' }), target });
    const track = new EncodedVideoPacketSource(codec);
    output.addVideoTrack(track);
    await output.start();
    let begins = 0;
    for (const [at, span] of spans.entries()) {
      const frames = new Map(reelFrames(span).map((frame) => [frame.frame, frame]));
      const source = sourceOf(span);
      let left = frames.size;
      for await (const { packet, place } of source.from(keys[at] ?? 0)) {
        signal?.throwIfAborted();
        const frame = frames.get(source.frames[place] ?? -1);
        if (frame !== undefined) {
          const timing = { timestamp: begins + frame.start, duration: frame.length };
          await track.add(new EncodedPacket(packet.data, packet.type, timing.timestamp, timing.duration), {
            decoderConfig: config,
          });
          onPacket();
          left -= 1;
        }
        if (left === 0) break;
      }
      const last = frames.get(span.to);
      begins += (last?.start ?? 0) + (last?.length ?? 0);
    }
    await output.finalize();
    return target.buffer === null ? null : new Uint8Array(target.buffer);
  });
}
