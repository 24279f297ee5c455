import { ALL_FORMATS, EncodedPacketSink, Input, UnsupportedInputFormatError, type InputVideoTrack } from 'mediabunny';
import type { Fault } from '../../contract/faults.ts';
import { nominalRate } from '../../core/time/nominal-rate.ts';
import { interlaceOf } from './interlace.ts';
import { readEditList } from './edit-list.ts';
import { sourceOf, type FilmBytes } from './film-bytes.ts';
import * as faults from './film-faults.ts';
import type { FrameTable } from './frame-table.ts';
import { looksLikeMp4, unreadableContainer } from './known-containers.ts';
import { listPackets, type PacketList, type ReadTableOptions } from './list-packets.ts';

export type { ReadTableOptions };

async function columnsOf(track: InputVideoTrack, bytes: FilmBytes, packets: PacketList): Promise<FrameTable | Fault> {
  const editList = await readEditList(bytes);
  if (editList !== null && editList.edits.length > 1) return faults.filmEdited(editList.edits.length);
  const shownUntil = editList?.edits[0]?.duration;
  const end = shownUntil === undefined || shownUntil === 0 ? Infinity : (editList?.delay ?? 0) + shownUntil;
  const shown: number[] = [];
  packets.times.forEach((time, place) => {
    if (time > -1e-6 && time < end - 1e-3) shown.push(place);
  });
  shown.sort((a, b) => (packets.times[a] ?? 0) - (packets.times[b] ?? 0) || a - b);
  const last = shown[shown.length - 1];
  if (last === undefined) return faults.filmEmpty('a video track without a single frame');
  const times = Float64Array.from(shown, (place) => Math.max(0, packets.times[place] ?? 0));
  const rate = nominalRate(times);
  const nominal = rate.known ? rate.value : { rate: { frames: 30, seconds: 1 }, variable: true };
  const lastLength = packets.durations[last] ?? 0;
  const [codec, width, height, displayWidth, displayHeight, aspect, rotation, format, audio] = await Promise.all([
    track.getCodecParameterString(),
    track.getCodedWidth(),
    track.getCodedHeight(),
    track.getDisplayWidth(),
    track.getDisplayHeight(),
    track.getPixelAspectRatio(),
    track.getRotation(),
    track.input.getFormat(),
    track.input.getPrimaryAudioTrack(),
  ]);
  return {
    container: format.name === 'MPEG Transport Stream' ? 'MPEG-TS' : format.name,
    codec: codec ?? 'unknown',
    width,
    height,
    displayWidth,
    displayHeight,
    pixelAspect: { across: aspect.num, down: aspect.den },
    rotation,
    rate: nominal.rate,
    variableRate: nominal.variable,
    duration:
      (times[times.length - 1] ?? 0) + (lastLength > 0 ? lastLength : nominal.rate.seconds / nominal.rate.frames),
    hasAudio: audio !== null,
    packets: packets.times.length,
    times,
    decode: Uint32Array.from(shown),
    keyDecode: Uint32Array.from(packets.keys),
    keyTimes: Float64Array.from(packets.keys, (place) => packets.times[place] ?? 0),
  };
}

/** What to say of a file whose container was told but holds no video track the library knows. */
async function withoutVideo(input: Input, mp4: boolean): Promise<Fault> {
  const kinds = (await input.getTracks()).map((other) => other.type);
  if (kinds.length > 0) return faults.filmNoVideoTrack(`one with only ${kinds.join(' and ')}`);
  return mp4
    ? faults.filmWithoutIndex('a file that begins like a film but has no index of its frames')
    : faults.filmUnsupported(`a ${(await input.getFormat()).name} file with no track in a codec known here`);
}

async function readTrack(input: Input, bytes: FilmBytes, options: ReadTableOptions): Promise<FrameTable | Fault> {
  const track = await input.getPrimaryVideoTrack();
  if (track === null) return withoutVideo(input, looksLikeMp4(await bytes.read(0, Math.min(64, bytes.size))));
  const codec = await track.getCodec();
  if (codec === null) {
    return faults.filmUnsupported(`one in “${String(await track.getInternalCodecId())}”`);
  }
  const packets = await listPackets(track, options);
  if (packets.times.length === 0) return faults.filmEmpty('a video track without a single frame');
  if (packets.keys.length === 0) return faults.filmUnsupported('a film without one key frame to begin from');
  const sink = new EncodedPacketSink(track);
  if ((await sink.getPacket(Infinity)) === null) {
    return faults.filmTruncated(
      `a file whose index promises ${packets.times.length} frames but whose bytes end earlier`,
    );
  }
  if (codec === 'avc' && (await interlaceOf(track, sink))) return faults.filmInterlaced('interlaced video');
  return columnsOf(track, bytes, packets);
}

/**
 * Reads the frame table of a film: no picture is decoded and, where the container has an index, no picture read.
 * Trouble with the film (empty, no video, broken off, unreadable codec, interlaced, edited out of order) comes back
 * as a fault that says what was wanted, what was there and how to convert it. Rejects with the signal's reason when
 * it is stopped, and with the reader's error when the bytes can't be read.
 */
export async function readFrameTable(bytes: FilmBytes, options: ReadTableOptions = {}): Promise<FrameTable | Fault> {
  options.signal?.throwIfAborted();
  if (bytes.size === 0) return faults.filmEmpty('a file of 0 bytes');
  const head = await bytes.read(0, Math.min(64, bytes.size));
  const named = unreadableContainer(head);
  if (named !== null) return faults.filmUnsupported(`a file of the kind ${named}`);
  let unread: unknown = null;
  const watched: FilmBytes = {
    size: bytes.size,
    read: (start, end) =>
      bytes.read(start, end).catch((error: unknown) => {
        unread = error;
        throw error;
      }),
  };
  const input = new Input({ formats: ALL_FORMATS, source: sourceOf(watched) });
  try {
    const table = await readTrack(input, bytes, options);
    if (!('fault' in table)) options.onProgress?.(1);
    return table;
  } catch (error) {
    options.signal?.throwIfAborted();
    if (unread !== null) throw unread;
    if (!(error instanceof UnsupportedInputFormatError)) {
      return faults.filmTruncated(
        `one whose index can't be followed (${error instanceof Error ? error.message : 'no reason given'})`,
      );
    }
    return looksLikeMp4(head)
      ? faults.filmWithoutIndex('the beginning of a film without the index of its frames')
      : faults.filmNotVideo();
  } finally {
    input.dispose();
  }
}

/** True when what came back is a fault and not a table. */
export function isFilmFault(answer: FrameTable | Fault): answer is Fault {
  return 'fault' in answer;
}
