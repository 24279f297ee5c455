/** Reads a NAL unit's bits in order, its emulation prevention bytes (00 00 03) taken out (ITU-T H.264, 7.3.1). */
export type BitReader = {
  /** The next `count` bits (0 to 32) as a number; bits past the end read as 0. */
  readonly bits: (count: number) => number;
  /** The next unsigned Exp-Golomb number (H.264, 9.1). */
  readonly unsigned: () => number;
  /** The next signed Exp-Golomb number (H.264, 9.1.1). */
  readonly signed: () => number;
};

/** A bit reader over the payload of one NAL unit. Own code: the media library's parser is not exported. */
export function bitReader(unit: Uint8Array): BitReader {
  const payload: number[] = [];
  for (let at = 0; at < unit.length; at += 1) {
    if (at >= 2 && unit[at] === 3 && unit[at - 1] === 0 && unit[at - 2] === 0) continue;
    payload.push(unit[at] ?? 0);
  }
  let position = 0;
  function bits(count: number): number {
    let value = 0;
    for (let bit = 0; bit < count; bit += 1) {
      value = value * 2 + (((payload[position >> 3] ?? 0) >> (7 - (position & 7))) & 1);
      position += 1;
    }
    return value;
  }
  function unsigned(): number {
    let zeros = 0;
    while (zeros < 32 && bits(1) === 0) zeros += 1;
    return 2 ** zeros - 1 + bits(zeros);
  }
  function signed(): number {
    const value = unsigned();
    return value % 2 === 0 ? -value / 2 : (value + 1) / 2;
  }
  return { bits, unsigned, signed };
}
