import { known, unknown, type Known } from '../../core/known.ts';
import { crc32 } from './crc32.ts';
import type { FrameTable } from './frame-table.ts';

/** Why stored bytes are no frame table this version can use; in each case the table is simply read anew. */
export type TableBytesProblem = 'not-a-frame-table' | 'other-version' | 'damaged-frame-table';

/** Raised whenever a table read by an earlier version would be wrong or incomplete. */
const version = 1;
const magic = 0x43_46_54_31;
const prefix = 24;

type Head = Omit<FrameTable, 'times' | 'decode' | 'keyDecode' | 'keyTimes'> & {
  readonly frames: number;
  readonly keys: number;
};

const toEight = (length: number): number => Math.ceil(length / 8) * 8;

/** Little-endian on every machine Node and Chromium run on; the four numeric columns are stored as they lie. */
function bytesOf(column: Float64Array | Uint32Array): Uint8Array {
  return new Uint8Array(column.buffer, column.byteOffset, column.byteLength);
}

/**
 * A frame table as bytes to keep beside the film's fingerprint or to send to the page. Layout, little-endian: magic,
 * version, head length, frames, keys, CRC-32 of all that follows (six 32-bit numbers); the head as JSON padded to 8;
 * times and key times (64-bit floats), decode places and key places (32-bit). About 12 bytes a frame.
 */
export function encodeFrameTable(table: FrameTable): Uint8Array<ArrayBuffer> {
  const { times, decode, keyDecode, keyTimes, ...rest } = table;
  const head: Head = { ...rest, frames: times.length, keys: keyDecode.length };
  const text = new TextEncoder().encode(JSON.stringify(head));
  const padded = toEight(text.length);
  const body = padded + 12 * (times.length + keyTimes.length);
  const bytes = new Uint8Array(prefix + body).fill(0x20, prefix, prefix + padded);
  bytes.set(text, prefix);
  let at = prefix + padded;
  for (const column of [times, keyTimes, decode, keyDecode]) {
    bytes.set(bytesOf(column), at);
    at += column.byteLength;
  }
  const numbers = [magic, version, padded, times.length, keyDecode.length, crc32(bytes.subarray(prefix))];
  const view = new DataView(bytes.buffer);
  numbers.forEach((number, place) => view.setUint32(place * 4, number, true));
  return bytes;
}

/**
 * The frame table that `encodeFrameTable` wrote. Bytes that are something else, of another version, or damaged give
 * the reason; the caller then reads the film again.
 */
export function decodeFrameTable(bytes: Uint8Array): Known<FrameTable, TableBytesProblem> {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  if (bytes.length < prefix || view.getUint32(0, true) !== magic) {
    return unknown('not-a-frame-table', `Wanted a stored frame table, got ${bytes.length} bytes of something else.`);
  }
  if (view.getUint32(4, true) !== version) {
    return unknown('other-version', `Wanted a frame table of version ${version}, got ${view.getUint32(4, true)}.`);
  }
  const [padded, frames, keys, sum] = [8, 12, 16, 20].map((at) => view.getUint32(at, true)) as [
    number,
    number,
    number,
    number,
  ];
  const wanted = prefix + padded + 12 * (frames + keys);
  if (bytes.length !== wanted || crc32(bytes.subarray(prefix)) !== sum) {
    return unknown('damaged-frame-table', `Wanted ${wanted} whole bytes of frame table, got ${bytes.length} damaged.`);
  }
  const {
    frames: _frames,
    keys: _keys,
    ...rest
  } = JSON.parse(new TextDecoder().decode(bytes.subarray(prefix, prefix + padded))) as Head;
  const columns = bytes.slice(prefix + padded).buffer;
  const times = new Float64Array(columns, 0, frames);
  const keyTimes = new Float64Array(columns, frames * 8, keys);
  const decode = new Uint32Array(columns, (frames + keys) * 8, frames);
  const keyDecode = new Uint32Array(columns, (frames + keys) * 8 + frames * 4, keys);
  return known({ ...rest, times, keyTimes, decode, keyDecode });
}
