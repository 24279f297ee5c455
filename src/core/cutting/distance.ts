import {
  bandCount,
  binCount,
  blockCount,
  chromaCount,
  columnsAcross,
  profileStart,
  signatureLength,
  type Signatures,
} from './signature.ts';

/** How much each part of a signature counts: chroma means lie close together, histograms far apart. */
export const chromaWeight = 1.2;
const histogramWeight = 0.25;
/** A block counts as changed from this difference of means, 0 to 255. */
const changedBy = 5;

/**
 * How different two frames look, 0 (the same) to about 2.5: mean difference of luma blocks and of chroma blocks over
 * 255, and a quarter of the histograms' L1 distance over 2. Frames are 0 to `frames` - 1, not checked.
 */
export function distance({ rows }: Signatures, a: number, b: number): number {
  let at = a * signatureLength;
  let other = b * signatureLength;
  let blocks = 0;
  let chroma = 0;
  let bins = 0;
  for (const end = at + blockCount; at < end; at += 1, other += 1)
    blocks += Math.abs((rows[at] ?? 0) - (rows[other] ?? 0));
  for (const end = at + chromaCount; at < end; at += 1, other += 1)
    chroma += Math.abs((rows[at] ?? 0) - (rows[other] ?? 0));
  for (const end = at + binCount; at < end; at += 1, other += 1) bins += Math.abs((rows[at] ?? 0) - (rows[other] ?? 0));
  return (
    blocks / blockCount / 255 +
    (chromaWeight * chroma) / chromaCount / 255 +
    (histogramWeight * bins) / (2 * 255 * binCount)
  );
}

/** The share of luma and chroma blocks that changed between two frames, 0 to 1. */
export function changedShare({ rows }: Signatures, a: number, b: number): number {
  let luma = 0;
  let chroma = 0;
  for (let at = 0; at < blockCount + chromaCount; at += 1) {
    const change = Math.abs((rows[a * signatureLength + at] ?? 0) - (rows[b * signatureLength + at] ?? 0));
    if (at < blockCount) luma += change > changedBy ? 1 : 0;
    else chroma += change > changedBy ? 1 : 0;
  }
  return Math.max(luma / blockCount, chroma / chromaCount);
}

/**
 * How alike the layout of two frames is whatever their brightness and contrast, -1 to 1: the correlation of their
 * luma block means. 1 when both are flat.
 */
export function layoutLikeness({ rows }: Signatures, a: number, b: number): number {
  const [startA, startB] = [a * signatureLength, b * signatureLength];
  let [sumA, sumB, squareA, squareB, product] = [0, 0, 0, 0, 0];
  for (let at = 0; at < blockCount; at += 1) {
    const [valueA, valueB] = [rows[startA + at] ?? 0, rows[startB + at] ?? 0];
    sumA += valueA;
    sumB += valueB;
    squareA += valueA * valueA;
    squareB += valueB * valueB;
    product += valueA * valueB;
  }
  const spreadA = squareA - (sumA * sumA) / blockCount;
  const spreadB = squareB - (sumB * sumB) / blockCount;
  const flat = 4 * blockCount;
  if (spreadA < flat && spreadB < flat) return 1;
  if (spreadA < flat || spreadB < flat) return 0;
  return (product - (sumA * sumB) / blockCount) / Math.sqrt(spreadA * spreadB);
}

/** Furthest sideways move looked for, in 64ths of the picture's width. */
const furthest = 24;

/**
 * How much of the change from one frame to another a sideways move of the camera leaves unexplained: 0 (all of it is
 * a move) to 1 (none is, or nothing changed). Compares the luma profiles moved by up to 24 of 64 columns.
 */
export function leftByPanning({ rows }: Signatures, a: number, b: number): number {
  const [startA, startB] = [a * signatureLength + profileStart, b * signatureLength + profileStart];
  const leftAt = (move: number): number => {
    let sum = 0;
    const from = Math.max(0, -move);
    const to = Math.min(columnsAcross, columnsAcross - move);
    for (let band = 0; band < bandCount; band += 1) {
      const [rowA, rowB] = [startA + band * columnsAcross, startB + band * columnsAcross];
      for (let x = from; x < to; x += 1) sum += Math.abs((rows[rowA + x + move] ?? 0) - (rows[rowB + x] ?? 0));
    }
    return sum / (to - from);
  };
  const unmoved = leftAt(0);
  if (unmoved < 1) return 1;
  let least = unmoved;
  for (let move = 1; move <= furthest; move += 1) least = Math.min(least, leftAt(move), leftAt(-move));
  return least / unmoved;
}
