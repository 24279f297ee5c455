import { bitReader } from './bit-reader.ts';

/** What a sequence parameter set says about fields. */
export type FieldCoding = {
  /** True when pictures can only be whole frames. */
  readonly framesOnly: boolean;
  /** True when blocks may switch between frame and field, as interlaced encoders do. */
  readonly adaptive: boolean;
  /** Bits of the frame number in a slice header, and whether colour planes are coded apart: to find its field flag. */
  readonly frameNumberBits: number;
  readonly planesApart: boolean;
};

const withChroma = [100, 110, 122, 244, 44, 83, 86, 118, 128, 138, 139, 134, 135];

/** Reads the field coding of an H.264 sequence parameter set, its NAL header included (ITU-T H.264, 7.3.2.1.1). */
export function fieldCoding(sequenceSet: Uint8Array): FieldCoding {
  const { bits, unsigned, signed } = bitReader(sequenceSet);
  bits(8);
  const profile = bits(8);
  bits(16);
  unsigned();
  let planesApart = false;
  if (withChroma.includes(profile)) {
    const chroma = unsigned();
    if (chroma === 3) planesApart = bits(1) === 1;
    unsigned();
    unsigned();
    bits(1);
    if (bits(1) === 1) {
      for (let list = 0; list < (chroma === 3 ? 12 : 8); list += 1) {
        if (bits(1) === 0) continue;
        let last = 8;
        let next = 8;
        for (let entry = 0; entry < (list < 6 ? 16 : 64); entry += 1) {
          if (next !== 0) next = (last + signed() + 256) % 256;
          last = next === 0 ? last : next;
        }
      }
    }
  }
  const frameNumberBits = unsigned() + 4;
  const order = unsigned();
  if (order === 0) unsigned();
  if (order === 1) {
    bits(1);
    signed();
    signed();
    const cycle = unsigned();
    for (let offset = 0; offset < cycle; offset += 1) signed();
  }
  unsigned();
  bits(1);
  unsigned();
  unsigned();
  const framesOnly = bits(1) === 1;
  return { framesOnly, adaptive: !framesOnly && bits(1) === 1, frameNumberBits, planesApart };
}

/** True when a slice (NAL unit of type 1 or 5) belongs to a single field (ITU-T H.264, 7.3.3). */
export function isFieldSlice(slice: Uint8Array, coding: FieldCoding): boolean {
  if (coding.framesOnly) return false;
  const { bits, unsigned } = bitReader(slice.subarray(0, 64));
  bits(8);
  unsigned();
  unsigned();
  unsigned();
  if (coding.planesApart) bits(2);
  bits(coding.frameNumberBits);
  return bits(1) === 1;
}
