/** Blocks across and down, bins of the luma histogram, and chroma blocks: the size of a signature. */
export const blocksAcross = 16;
export const blocksDown = 9;
export const blockCount = blocksAcross * blocksDown;
export const binCount = 32;
const chromaAcross = 4;
const chromaDown = 3;
export const chromaCount = 2 * chromaAcross * chromaDown;
/** Columns of the luma profiles, and bands they are taken over: what a sideways pan is told by. */
export const columnsAcross = 64;
export const bandCount = 3;
/** Where the profiles begin in a signature. */
export const profileStart = blockCount + chromaCount + binCount;
/** Numbers in one frame's signature: means of blocks, chroma blocks, histogram shares (255 * 32 in all), profiles. */
export const signatureLength = profileStart + bandCount * columnsAcross;

/** The signatures of consecutive frames, one row of `signatureLength` numbers a frame. */
export type Signatures = { readonly frames: number; readonly rows: Float32Array };

/** A decoded picture's planes: luma `width` x `height` bytes, chroma half size each way (rounded up), no padding. */
export type PicturePlanes = {
  readonly width: number;
  readonly height: number;
  readonly luma: Uint8Array;
  readonly blue: Uint8Array;
  readonly red: Uint8Array;
};

/** Samples a block, and a cell of a profile, is judged by, each way, about. */
const samplesEachWay = 10;
const profileSamplesEachWay = 6;

type Box = { readonly left: number; readonly right: number; readonly top: number; readonly bottom: number };

/** The mean of a grid of samples in a rectangle; each sample is counted in `bins` when given. */
function sampleBlock(plane: Uint8Array, stride: number, box: Box, eachWay: number, bins: Uint32Array | null): number {
  const stepX = Math.max(1, Math.floor((box.right - box.left) / eachWay));
  const stepY = Math.max(1, Math.floor((box.bottom - box.top) / eachWay));
  let sum = 0;
  let count = 0;
  for (let y = box.top + (stepY >> 1); y < box.bottom; y += stepY) {
    const end = y * stride + box.right;
    for (let at = y * stride + box.left + (stepX >> 1); at < end; at += stepX) {
      const value = plane[at] ?? 0;
      sum += value;
      count += 1;
      if (bins !== null) bins[value >> 3] = (bins[value >> 3] ?? 0) + 1;
    }
  }
  return count === 0 ? 128 : sum / count;
}

/** The pixels of one block of a grid laid over a plane. */
function blockBox(x: number, y: number, across: number, down: number, width: number, height: number): Box {
  return {
    left: Math.floor((x * width) / across),
    right: Math.floor(((x + 1) * width) / across),
    top: Math.floor((y * height) / down),
    bottom: Math.floor(((y + 1) * height) / down),
  };
}

/**
 * The signature of a picture: means of 16 x 9 luma blocks and of 4 x 3 blocks of each chroma plane (0 to 255), and a
 * luma histogram of 32 bins (shares that sum to 255 * 32), then profiles of 64 columns in 3 bands (means, 0 to 255).
 * About 10 x 10 samples a block are read, so the cost does not grow with the picture. Written into `row`, which must have `signatureLength` numbers; throws otherwise.
 * After the frame features of Zhang, Kankanhalli & Smoliar (1993), Multimedia Systems 1:10-28.
 */
export function writeSignature(row: Float32Array, planes: PicturePlanes): void {
  if (row.length !== signatureLength) {
    throw new Error(`A signature has ${signatureLength} numbers, got room for ${row.length}.`);
  }
  const bins = new Uint32Array(binCount);
  const { width, height, luma } = planes;
  for (let block = 0; block < blockCount; block += 1) {
    const [x, y] = [block % blocksAcross, Math.floor(block / blocksAcross)];
    row[block] = sampleBlock(
      luma,
      width,
      blockBox(x, y, blocksAcross, blocksDown, width, height),
      samplesEachWay,
      bins,
    );
  }
  const [halfWidth, halfHeight] = [(width + 1) >> 1, (height + 1) >> 1];
  for (const [which, plane] of [planes.blue, planes.red].entries()) {
    for (let block = 0; block < chromaAcross * chromaDown; block += 1) {
      const [x, y] = [block % chromaAcross, Math.floor(block / chromaAcross)];
      const at = blockCount + which * chromaAcross * chromaDown + block;
      const box = blockBox(x, y, chromaAcross, chromaDown, halfWidth, halfHeight);
      row[at] = sampleBlock(plane, halfWidth, box, samplesEachWay, null);
    }
  }
  for (let cell = 0; cell < bandCount * columnsAcross; cell += 1) {
    const [x, band] = [cell % columnsAcross, Math.floor(cell / columnsAcross)];
    const box = blockBox(x, band, columnsAcross, bandCount, width, height);
    row[profileStart + cell] = sampleBlock(luma, width, box, profileSamplesEachWay, null);
  }
  const samples = bins.reduce((sum, count) => sum + count, 0);
  for (let bin = 0; bin < binCount; bin += 1) {
    row[blockCount + chromaCount + bin] = samples === 0 ? 0 : ((bins[bin] ?? 0) / samples) * 255 * binCount;
  }
}

/** The signature of one frame, a view into the rows. Throws when there is no such frame. */
export function signatureOf(signatures: Signatures, frame: number): Float32Array {
  if (!(frame >= 0 && frame < signatures.frames)) {
    throw new Error(`There are signatures of frames 0 to ${signatures.frames - 1}, got ${frame}.`);
  }
  return signatures.rows.subarray(frame * signatureLength, (frame + 1) * signatureLength);
}
