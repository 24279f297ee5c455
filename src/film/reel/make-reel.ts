import {
  BufferTarget,
  CanvasSource,
  getFirstEncodableVideoCodec,
  Mp4OutputFormat,
  Output,
  QUALITY_HIGH,
} from 'mediabunny';
import { faultOf, FaultError } from '../../contract/faults.ts';
import { openFrameServer, type FrameServer, type ServedFilm } from '../frame-server/frame-server.ts';
import { paintFrame } from '../frame-server/paint-frame.ts';
import { copyReel } from './copy-reel.ts';
import { reelFrames, type ReelCard, type ReelPart, type ReelSpan } from './reel-plan.ts';

/** Where a span's picture lies in the reel's, in the reel's pixels. */
export type PicturePlace = {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
};

/** Draws on a picture of a span, chalk for instance. `part` is the span's place in the reel, `frame` the film's. */
export type DrawOnFrame = (
  context: OffscreenCanvasRenderingContext2D,
  at: { readonly part: number; readonly frame: number; readonly place: PicturePlace },
) => void;

/** What a reel is made of and how. */
export type ReelOptions = {
  readonly parts: readonly ReelPart[];
  /** The reel's picture in pixels; odd sizes are made even. Pictures of another shape get bars. */
  readonly width: number;
  readonly height: number;
  readonly draw?: DrawOnFrame;
  /** Font family of the cards. */
  readonly font?: string;
  /** Hears 0 to 1. */
  readonly onProgress?: (done: number) => void;
  readonly signal?: AbortSignal;
};

/** A finished reel: an MP4 without sound. */
export type Reel = {
  readonly bytes: Uint8Array<ArrayBuffer>;
  /** Whether the films' own packets were copied or all pictures encoded anew, and in which codec. */
  readonly how: 'copied' | 'encoded';
  /** Seconds it lasts. */
  readonly seconds: number;
  /** Frames that could not be decoded; the picture before stands instead. */
  readonly lost: number;
};

const budget = 96 * 2 ** 20;
const even = (pixels: number): number => Math.max(2, Math.round(pixels / 2) * 2);

/** The largest place in the reel's picture that keeps a span's shape. */
function placeOf({ film: { table } }: ReelSpan, width: number, height: number): PicturePlace {
  const scale = Math.min(width / table.displayWidth, height / table.displayHeight);
  const [across, down] = [table.displayWidth * scale, table.displayHeight * scale];
  return { left: (width - across) / 2, top: (height - down) / 2, width: across, height: down };
}

function drawCard(context: OffscreenCanvasRenderingContext2D, card: ReelCard, font: string): void {
  const { width, height } = context.canvas;
  context.fillStyle = '#14171a';
  context.fillRect(0, 0, width, height);
  context.fillStyle = '#f4f1ea';
  context.textAlign = 'center';
  context.textBaseline = 'middle';
  const line = height / 12;
  const top = height / 2 - ((card.lines.length - 1) * line * 1.4) / 2;
  for (const [at, text] of card.lines.entries()) {
    context.font = `${at === 0 ? 600 : 400} ${Math.round(at === 0 ? line : line * 0.7)}px ${font}`;
    context.fillText(text, width / 2, top + at * line * 1.4, width * 0.9);
  }
}

/** Seconds a reel lasts. Throws when a span is not within its film. */
export function reelSeconds(parts: readonly ReelPart[]): number {
  return parts.reduce((sum, part) => {
    if (part.kind === 'card') return sum + part.seconds;
    const last = reelFrames(part).at(-1);
    return sum + (last?.start ?? 0) + (last?.length ?? 0);
  }, 0);
}

/** Paints and encodes the parts one after another. */
async function encodeReel(
  options: ReelOptions,
  server: FrameServer,
  tick: () => void,
): Promise<{ bytes: Uint8Array<ArrayBuffer>; lost: number }> {
  const { parts, draw, font = 'sans-serif', signal } = options;
  const [width, height] = [even(options.width), even(options.height)];
  const codec = await getFirstEncodableVideoCodec(['avc', 'hevc', 'vp9', 'av1'], { width, height });
  if (codec === null) {
    throw new FaultError(
      faultOf(
        'film-unsupported',
        'Wanted an encoder for MP4, got none on this machine.',
        'Make the reel on another machine.',
      ),
    );
  }
  const canvas = new OffscreenCanvas(width, height);
  const context = canvas.getContext('2d', { alpha: false });
  if (context === null) throw new Error('No 2D context for the reel.');
  const picture = new OffscreenCanvas(2, 2);
  const target = new BufferTarget();
  const output = new Output({ format: new Mp4OutputFormat({ fastStart: 'in-memory' }), target });
  const track = new CanvasSource(canvas, { codec, bitrate: QUALITY_HIGH, keyFrameInterval: 2 });
  output.addVideoTrack(track);
  await output.start();
  const films = new Map<string, ServedFilm>();
  let begins = 0;
  let lost = 0;
  try {
    for (const [at, part] of parts.entries()) {
      if (part.kind === 'card') {
        signal?.throwIfAborted();
        drawCard(context, part, font);
        await track.add(begins, part.seconds);
        begins += part.seconds;
        tick();
        continue;
      }
      const film = films.get(part.film.id) ?? (await server.openFilm(part.film));
      films.set(part.film.id, film);
      const place = placeOf(part, width, height);
      for (const { frame, start, length } of reelFrames(part)) {
        signal?.throwIfAborted();
        const got = await server.frame(film, frame, { viewer: 'reel', direction: 1 });
        if (got.known) paintFrame(picture, got.value, part.film.table.rotation);
        else lost += 1;
        context.fillStyle = '#000';
        context.fillRect(0, 0, width, height);
        context.drawImage(picture, place.left, place.top, place.width, place.height);
        if (part.drawn) draw?.(context, { part: at, frame, place });
        await track.add(begins + start, length);
        tick();
      }
      const last = reelFrames(part).at(-1);
      begins += (last?.start ?? 0) + (last?.length ?? 0);
    }
    await output.finalize();
  } catch (error) {
    await output.cancel();
    throw error;
  }
  if (target.buffer === null) throw new Error('The reel was finished without bytes.');
  return { bytes: new Uint8Array(target.buffer), lost };
}

/**
 * Makes a reel of spans and cards as an MP4. Where every span begins with a key frame and nothing is drawn, the films'
 * own packets are copied; otherwise all pictures are painted, drawn on and encoded. Slow motion shows each frame
 * longer. Rejects with a FaultError when a film is gone, can't be decoded, or no encoder is there, and with the
 * signal's reason when it is stopped; throws when a span is not within its film. No part at all throws.
 */
export async function makeReel(options: ReelOptions): Promise<Reel> {
  const { parts, onProgress, signal } = options;
  if (parts.length === 0) throw new Error('A reel has at least one part, got none.');
  const seconds = reelSeconds(parts);
  const all = parts.reduce((sum, part) => sum + (part.kind === 'card' ? 1 : part.to - part.from + 1), 0);
  let done = 0;
  const tick = (): void => {
    done += 1;
    onProgress?.(Math.min(1, done / all));
  };
  signal?.throwIfAborted();
  const copied = await copyReel(parts, tick, signal);
  if (copied !== null) return { bytes: copied, how: 'copied', seconds, lost: 0 };
  const server = openFrameServer({ budgetBytes: budget });
  try {
    return { ...(await encodeReel(options, server, tick)), how: 'encoded', seconds };
  } finally {
    server.close();
  }
}
