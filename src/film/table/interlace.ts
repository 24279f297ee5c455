import type { EncodedPacketSink, InputVideoTrack } from 'mediabunny';
import { fieldCoding, isFieldSlice } from './avc-interlace.ts';
import { avcRecord, avcUnits } from './avc-units.ts';

const packetsLookedAt = 32;

function bytesOf(source: AllowSharedBufferSource): Uint8Array {
  return ArrayBuffer.isView(source)
    ? new Uint8Array(source.buffer, source.byteOffset, source.byteLength)
    : new Uint8Array(source);
}

/**
 * True when an H.264 track is interlaced: its sequence parameters allow fields, and either its blocks switch between
 * frame and field or one of its first 32 packets holds a single field. Progressive film that merely allows fields is not.
 */
export async function interlaceOf(track: InputVideoTrack, sink: EncodedPacketSink): Promise<boolean> {
  const description = (await track.getDecoderConfig())?.description;
  const record = description === undefined ? null : avcRecord(bytesOf(description));
  let packet = await sink.getFirstPacket();
  const first = packet === null ? [] : avcUnits(packet.data, record?.lengthBytes ?? null);
  const sequenceSet = record?.sequenceSets[0] ?? first.find((unit) => ((unit[0] ?? 0) & 0x1f) === 7);
  if (sequenceSet === undefined) return false;
  const coding = fieldCoding(sequenceSet);
  if (coding.framesOnly) return false;
  if (coding.adaptive) return true;
  for (let looked = 0; packet !== null && looked < packetsLookedAt; looked += 1) {
    for (const unit of avcUnits(packet.data, record?.lengthBytes ?? null)) {
      const kind = (unit[0] ?? 0) & 0x1f;
      if ((kind === 1 || kind === 5) && isFieldSlice(unit, coding)) return true;
    }
    packet = await sink.getNextPacket(packet);
  }
  return false;
}
