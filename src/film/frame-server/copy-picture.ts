import { i420Bytes, type ColourMatrix, type Picture } from './picture.ts';

function matrixOf(frame: VideoFrame): ColourMatrix {
  const matrix: string | null = frame.colorSpace.matrix;
  if (matrix === 'bt2020-ncl') return 'bt2020';
  if (matrix === 'bt709') return 'bt709';
  if (matrix === 'smpte170m' || matrix === 'bt470bg') return 'bt601';
  return frame.codedHeight >= 720 ? 'bt709' : 'bt601';
}

/** Splits the woven chroma of NV12 into the two planes of I420. */
function unweave(woven: Uint8Array, width: number, height: number): Uint8Array<ArrayBuffer> {
  const planes = new Uint8Array(i420Bytes(width, height));
  const pixels = width * height;
  const chroma = Math.ceil(width / 2) * Math.ceil(height / 2);
  planes.set(woven.subarray(0, pixels));
  for (let at = 0; at < chroma; at += 1) {
    planes[pixels + at] = woven[pixels + at * 2] ?? 128;
    planes[pixels + chroma + at] = woven[pixels + at * 2 + 1] ?? 128;
  }
  return planes;
}

/**
 * Copies a decoded frame's picture and leaves the frame to be closed by the caller at once: decoders stall while many
 * frames are held. 8-bit 4:2:0 keeps its planes; other formats become RGBA. `reuse` is written
 * into when it is of the right size. Rejects when the frame can't be copied.
 */
export async function copyPicture(frame: VideoFrame, reuse?: Uint8Array<ArrayBuffer>): Promise<Picture> {
  const rect = frame.visibleRect;
  const width = rect?.width ?? frame.codedWidth;
  const height = rect?.height ?? frame.codedHeight;
  const look = { width, height, matrix: matrixOf(frame), fullRange: frame.colorSpace.fullRange === true };
  if (frame.format === 'I420' || frame.format === 'NV12') {
    const half = Math.ceil(width / 2);
    const luma = { offset: 0, stride: width };
    const pixels = width * height;
    const layout =
      frame.format === 'I420'
        ? [luma, { offset: pixels, stride: half }, { offset: pixels + half * Math.ceil(height / 2), stride: half }]
        : [luma, { offset: pixels, stride: half * 2 }];
    const bytes = i420Bytes(width, height);
    const data = reuse?.length === bytes ? reuse : new Uint8Array(bytes);
    await frame.copyTo(data, { layout });
    return { ...look, format: 'i420', data: frame.format === 'I420' ? data : unweave(data, width, height) };
  }
  const data = new Uint8Array(width * height * 4);
  await frame.copyTo(data, { format: 'RGBA', colorSpace: 'srgb' });
  return { ...look, format: 'rgba', data };
}
