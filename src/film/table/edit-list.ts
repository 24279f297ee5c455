import type { FilmBytes } from './film-bytes.ts';

/** One part of an edit list, in seconds: where it starts in the media, and how long it plays. */
export type Edit = { readonly mediaTime: number; readonly duration: number };

/** The edit list of an MP4's first video track. */
export type EditList = {
  /** Seconds of nothing before the first part. */
  readonly delay: number;
  readonly edits: readonly Edit[];
};

type Box = { readonly kind: string; readonly start: number; readonly end: number };

const tooMuch = 64 * 2 ** 20;

/** The boxes lying side by side in `start` to `end`; stops at the first that does not fit. */
async function boxesIn(bytes: FilmBytes, start: number, end: number): Promise<Box[]> {
  const boxes: Box[] = [];
  let at = start;
  while (at + 8 <= end) {
    const head = await bytes.read(at, Math.min(at + 16, end));
    const view = new DataView(head.buffer, head.byteOffset, head.byteLength);
    if (head.length < 8) break;
    const kind = String.fromCharCode(...head.subarray(4, 8));
    const short = view.getUint32(0);
    const long = short === 1 && head.length >= 16 ? Number(view.getBigUint64(8)) : short;
    const length = short === 0 ? end - at : long;
    const header = short === 1 ? 16 : 8;
    if (length < header || !/^[\x20-\x7e\xa9]{4}$/.test(kind)) break;
    boxes.push({ kind, start: at + header, end: Math.min(at + length, end) });
    at += length;
  }
  return boxes;
}

async function boxNamed(bytes: FilmBytes, parent: Box, ...path: readonly string[]): Promise<Box | null> {
  let box: Box | null = parent;
  for (const kind of path) {
    if (box === null) return null;
    const inside: Box[] = await boxesIn(bytes, box.start, box.end);
    box = inside.find((found) => found.kind === kind) ?? null;
  }
  return box;
}

async function view(bytes: FilmBytes, box: Box): Promise<DataView> {
  const data = await bytes.read(box.start, Math.min(box.end, box.start + tooMuch));
  return new DataView(data.buffer, data.byteOffset, data.byteLength);
}

/** Ticks a second of a movie or media header box (ISO/IEC 14496-12, 8.2.2 and 8.4.2). */
function timescale(header: DataView): number {
  return header.getUint32(header.getUint8(0) === 1 ? 20 : 12);
}

function parseEdits(data: DataView, movieScale: number, mediaScale: number): EditList {
  const wide = data.getUint8(0) === 1;
  const entry = wide ? 20 : 12;
  const edits: Edit[] = [];
  let delay = 0;
  for (let at = 8, left = data.getUint32(4); left > 0 && at + entry <= data.byteLength; left -= 1, at += entry) {
    const duration = (wide ? Number(data.getBigUint64(at)) : data.getUint32(at)) / movieScale;
    const mediaTime = wide ? Number(data.getBigInt64(at + 8)) : data.getInt32(at + 4);
    if (mediaTime >= 0) edits.push({ mediaTime: mediaTime / mediaScale, duration });
    else if (edits.length === 0) delay += duration;
  }
  return { delay, edits };
}

/**
 * The edit list of an MP4 or QuickTime file's first video track (ISO/IEC 14496-12, 8.6.6), or null when it has none
 * and for other files. The media library applies the first part's start only; the parts are read here to tell a film
 * that plays straight through from one that does not, and to know where the last frame shown ends.
 */
export async function readEditList(bytes: FilmBytes): Promise<EditList | null> {
  const movie = (await boxesIn(bytes, 0, bytes.size)).find(({ kind }) => kind === 'moov');
  if (movie === undefined) return null;
  const inMovie = await boxesIn(bytes, movie.start, movie.end);
  const movieHeader = inMovie.find(({ kind }) => kind === 'mvhd');
  if (movieHeader === undefined) return null;
  for (const track of inMovie.filter(({ kind }) => kind === 'trak')) {
    const handler = await boxNamed(bytes, track, 'mdia', 'hdlr');
    if (handler === null || (await view(bytes, handler)).getUint32(8) !== 0x76_69_64_65) continue;
    const list = await boxNamed(bytes, track, 'edts', 'elst');
    const mediaHeader = await boxNamed(bytes, track, 'mdia', 'mdhd');
    if (list === null || mediaHeader === null) return null;
    const scales = [movieHeader, mediaHeader].map(async (box) => timescale(await view(bytes, box)));
    const [movieScale = 1, mediaScale = 1] = await Promise.all(scales);
    return parseEdits(await view(bytes, list), movieScale, mediaScale);
  }
  return null;
}
