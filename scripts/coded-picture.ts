/** Bits a picture's number is written with. */
export const codeBits = 16;

type Size = { readonly width: number; readonly height: number };

/** The block of a bit: a 16th of the picture's width, the lowest quarter of its height. */
function block(bit: number, { width, height }: Size): { left: number; right: number; top: number; bottom: number } {
  return {
    left: Math.floor((width * bit) / codeBits),
    right: Math.floor((width * (bit + 1)) / codeBits),
    top: Math.floor(height * 0.75),
    bottom: height,
  };
}

/** A grey picture with its number as black and white blocks below, a moving bar and a slow gradient above. */
export function codedPicture(number: number, size: Size): Uint8Array {
  const { width, height } = size;
  const picture = new Uint8Array(width * height);
  const bar = (number * 5) % width;
  for (let y = 0; y < height * 0.75; y += 1) {
    for (let x = 0; x < width; x += 1) {
      picture[y * width + x] = Math.abs(x - bar) < 12 ? 220 : 40 + ((x + y + number * 2) % 128);
    }
  }
  for (let bit = 0; bit < codeBits; bit += 1) {
    const { left, right, top, bottom } = block(bit, size);
    const level = (number >> bit) & 1 ? 235 : 16;
    for (let y = top; y < bottom; y += 1) picture.fill(level, y * width + left, y * width + right);
  }
  return picture;
}

/** Reads a picture's number back from its luma, rows `stride` bytes apart; the middle of each block decides. */
export function readCode(luma: Uint8Array, stride: number, size: Size): number {
  let number = 0;
  for (let bit = 0; bit < codeBits; bit += 1) {
    const { left, right, top, bottom } = block(bit, size);
    const x = (left + right) >> 1;
    const y = (top + bottom) >> 1;
    if ((luma[y * stride + x] ?? 0) > 125) number += 2 ** bit;
  }
  return number;
}
