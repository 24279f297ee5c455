import type { FrameTable } from '../table/frame-table.ts';
import type { Frame } from './frame-server.ts';
import { toRgba } from './to-rgba.ts';

/** What is painted on: a canvas of the page, or one of a worker. */
export type PaintCanvas = HTMLCanvasElement | OffscreenCanvas;

/** The film's upright turn, as its frame table says. */
export type Turn = FrameTable['rotation'];

type Context2d = CanvasRenderingContext2D | OffscreenCanvasRenderingContext2D;

function contextOf(canvas: PaintCanvas): Context2d {
  const context =
    'convertToBlob' in canvas ? canvas.getContext('2d', { alpha: false }) : canvas.getContext('2d', { alpha: false });
  if (context === null) throw new Error('This canvas already has a context of another kind.');
  return context;
}

/** The pixels of an RGBA picture turned clockwise by quarter turns. */
function turned(pixels: Uint32Array, width: number, height: number, turn: 90 | 180 | 270): Uint32Array<ArrayBuffer> {
  const out = new Uint32Array(width * height);
  for (let y = 0; y < height; y += 1) {
    for (let x = 0; x < width; x += 1) {
      const value = pixels[y * width + x] ?? 0;
      if (turn === 90) out[x * height + (height - 1 - y)] = value;
      else if (turn === 180) out[(height - 1 - y) * width + (width - 1 - x)] = value;
      else out[(width - 1 - x) * height + y] = value;
    }
  }
  return out;
}

/**
 * Paints a frame on a canvas, upright, one picture pixel a canvas pixel; the canvas takes the picture's size. Pixels
 * that are not square are left as they are: show the canvas at `displayWidth` x `displayHeight`. Returns nothing;
 * throws when the canvas has a context other than 2D. Two ways were measured without a GPU: putting converted pixels
 * takes a fraction of the time of drawing a VideoFrame or a software WebGL texture (docs/benchmarks.md).
 */
export function paintFrame(canvas: PaintCanvas, { picture }: Frame, turn: Turn = 0): void {
  const { width, height } = picture;
  const bytes =
    picture.format === 'rgba' ? new Uint8ClampedArray(picture.data.buffer, 0, width * height * 4) : toRgba(picture);
  const sideways = turn === 90 || turn === 270;
  const [across, down] = sideways ? [height, width] : [width, height];
  const pixels =
    turn === 0 ? bytes : new Uint8ClampedArray(turned(new Uint32Array(bytes.buffer), width, height, turn).buffer);
  if (canvas.width !== across) canvas.width = across;
  if (canvas.height !== down) canvas.height = down;
  contextOf(canvas).putImageData(new ImageData(pixels, across, down), 0, 0);
}
