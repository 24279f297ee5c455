import type { Rate } from '../../core/time/rate.ts';

/**
 * Every frame of a film in presentation order, and what is needed to decode any of them.
 * A film's clock is its container's own: edit lists and millisecond times included.
 */
export type FrameTable = {
  /** Container as a person would name it: `MP4`, `QuickTime`, `WebM`, `Matroska`, `MPEG-TS`. */
  readonly container: string;
  /** WebCodecs codec string, such as `avc1.64001f`; says what to decode with. */
  readonly codec: string;
  /** Pixels of the coded picture, before pixel aspect and rotation. */
  readonly width: number;
  readonly height: number;
  /** Pixels of the picture as shown: square pixels, turned upright. */
  readonly displayWidth: number;
  readonly displayHeight: number;
  /** Width of a pixel over its height, as a fraction in lowest terms. */
  readonly pixelAspect: { readonly across: number; readonly down: number };
  /** Clockwise turn that puts the picture upright, in degrees. */
  readonly rotation: 0 | 90 | 180 | 270;
  /** Nominal frames a second. */
  readonly rate: Rate;
  /** True when the frames do not keep to the nominal rate. */
  readonly variableRate: boolean;
  /** Seconds from the film's 0 to the end of its last frame. */
  readonly duration: number;
  readonly hasAudio: boolean;
  /** Packets of the video track in the file, shown or not: at least the number of frames. */
  readonly packets: number;
  /** Seconds at which each frame begins, never falling; its length is the number of frames. */
  readonly times: Float64Array;
  /** Place of each frame's packet in decode order, from 0. */
  readonly decode: Uint32Array;
  /** Places in decode order of the packets the container calls key packets, ascending. */
  readonly keyDecode: Uint32Array;
  /** Presentation time of each key packet in seconds; below 0 when an edit list hides it. */
  readonly keyTimes: Float64Array;
};

/** How many frames the film shows. */
export function frameCount(table: FrameTable): number {
  return table.times.length;
}

/**
 * The place in `keyDecode` of the key packet from which decoding must begin to get a frame right: the last key packet
 * at or before it in decode order, or the one before that when the frame is shown earlier than its key frame
 * (an open group of pictures, whose leading frames lean on the group before). `frame` is 0 to the last frame;
 * throws otherwise.
 */
export function keyFor(table: FrameTable, frame: number): number {
  const place = table.decode[frame];
  const time = table.times[frame];
  if (place === undefined || time === undefined) {
    throw new Error(`The film has frames 0 to ${table.times.length - 1}, got ${frame}.`);
  }
  const key = keyAtOrBefore(table, place);
  return key > 0 && time < (table.keyTimes[key] ?? 0) ? key - 1 : key;
}

/** The last key packet at or before a place in decode order, as a place in `keyDecode`; 0 when there is none. */
export function keyAtOrBefore(table: FrameTable, place: number): number {
  let low = 0;
  let high = table.keyDecode.length;
  while (low < high) {
    const middle = (low + high) >>> 1;
    if ((table.keyDecode[middle] ?? Infinity) <= place) low = middle + 1;
    else high = middle;
  }
  return Math.max(0, low - 1);
}

/** The frame of each packet in decode order, -1 for packets that are decoded but never shown. */
export function framesInDecodeOrder(table: FrameTable): Int32Array {
  const frames = new Int32Array(table.packets).fill(-1);
  for (let frame = 0; frame < table.decode.length; frame += 1) frames[table.decode[frame] ?? 0] = frame;
  return frames;
}
