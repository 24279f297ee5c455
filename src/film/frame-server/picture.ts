/** How luma and chroma become red, green and blue: the matrix of ITU-R BT.601, BT.709 or BT.2020. */
export type ColourMatrix = 'bt601' | 'bt709' | 'bt2020';

/**
 * One decoded picture, copied out of the decoder. `i420`: `data` holds luma (width x height bytes), then both chroma
 * planes at half size each way (rounded up), rows without padding. `rgba`: four bytes a pixel.
 */
export type Picture = {
  readonly format: 'i420' | 'rgba';
  readonly width: number;
  readonly height: number;
  readonly matrix: ColourMatrix;
  /** True when 0 to 255 are black to white; false for 16 to 235. */
  readonly fullRange: boolean;
  readonly data: Uint8Array<ArrayBuffer>;
};

/** Bytes of an I420 picture of a size in pixels. */
export function i420Bytes(width: number, height: number): number {
  return width * height + 2 * Math.ceil(width / 2) * Math.ceil(height / 2);
}

/** Rows and columns of a picture's luma with their values; for an RGBA picture luma by BT.709's weights. */
export function lumaOf(picture: Picture): Uint8Array {
  const pixels = picture.width * picture.height;
  if (picture.format === 'i420') return picture.data.subarray(0, pixels);
  const luma = new Uint8Array(pixels);
  for (let at = 0; at < pixels; at += 1) {
    const red = picture.data[at * 4] ?? 0;
    const green = picture.data[at * 4 + 1] ?? 0;
    const blue = picture.data[at * 4 + 2] ?? 0;
    luma[at] = (red * 218 + green * 732 + blue * 74) >> 10;
  }
  return luma;
}
