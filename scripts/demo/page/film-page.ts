import { BufferTarget, EncodedPacket, EncodedVideoPacketSource, Mp4OutputFormat, Output } from 'mediabunny';
import { FILM, type Point3 } from '../field-measure.ts';
import { seeded } from '../seed.ts';
import type { Camera } from '../camera.ts';
import type { FigureFrame } from '../scene.ts';
import { lensOf } from './lens.ts';
import { paintBall, paintFigure, traceShadow, type Look } from './paint-figure.ts';
import { paintGround } from './paint-ground.ts';
import { paintFurniture, paintLensShade, paintSurround } from './paint-stadium.ts';
import { paintCard, type Card } from './paint-card.ts';
import { skeletonOf } from './skeleton.ts';
import { COLDWATER_GROUND, HARLAN_RIDGE_GROUND, KITS, type Venue } from './venue.ts';

/** One picture of a play. */
export type PlayPicture = {
  readonly kind: 'play';
  readonly venue: 'coldwater' | 'harlan-ridge';
  readonly camera: Camera;
  readonly looks: readonly FigureLook[];
  readonly figures: readonly FigureFrame[];
  readonly ball: Point3;
};

/** One picture of a score card. */
export type CardPicture = { readonly kind: 'card'; readonly card: Card; readonly progress: number };

/** A picture, and the one it is dissolving into. */
export type Picture = {
  readonly first: PlayPicture | CardPicture;
  readonly over?: { readonly picture: PlayPicture | CardPicture; readonly share: number };
};

export type FigureLook = {
  readonly kit: string;
  readonly number: string;
  readonly skin: number;
  readonly bulk: number;
};

const SKINS = ['#8d5a3c', '#6f4430', '#b07c58', '#5a3726', '#c9986f', '#7c4c34'];

function lookOf(look: FigureLook): Look {
  const kit = KITS[look.kit] ?? KITS['coldwater-home'];
  if (!kit) throw new Error(`a kit was wanted, got ${look.kit}`);
  const skin = SKINS[look.skin % SKINS.length] ?? '#8d5a3c';
  return {
    kit,
    number: look.number,
    skin,
    bulk: look.bulk,
    sleeves: look.skin % 5 === 3,
    gloves: look.skin % 3 === 0 ? skin : '#e4e2dc',
  };
}

const venues: Readonly<Record<PlayPicture['venue'], Venue>> = {
  coldwater: COLDWATER_GROUND,
  'harlan-ridge': HARLAN_RIDGE_GROUND,
};

const grainTile = ((): HTMLCanvasElement => {
  const tile = document.createElement('canvas');
  tile.width = 256;
  tile.height = 256;
  const context = tile.getContext('2d');
  if (!context) throw new Error('a 2D canvas was wanted, got none');
  const image = context.createImageData(256, 256);
  const next = seeded(3);
  for (let at = 0; at < image.data.length; at += 4) {
    const value = next() < 0.5 ? 0 : 255;
    image.data[at] = value;
    image.data[at + 1] = value;
    image.data[at + 2] = value;
    image.data[at + 3] = Math.floor(next() * 5);
  }
  context.putImageData(image, 0, 0);
  return tile;
})();

function paintPlay(context: CanvasRenderingContext2D, picture: PlayPicture): void {
  const lens = lensOf(context, picture.camera);
  const venue = venues[picture.venue];
  context.globalAlpha = 1;
  paintGround(lens, venue);
  paintSurround(lens, venue);
  const bodies = picture.figures.map((figure, at) => {
    const look = lookOf(picture.looks[at] ?? { kit: '', number: '', skin: 0, bulk: 1 });
    return {
      look,
      body: skeletonOf(figure, look.bulk),
      far: Math.hypot((figure[0] ?? 0) - picture.camera.at[0], (figure[1] ?? 0) - picture.camera.at[1]),
    };
  });
  context.fillStyle = `rgba(10,22,14,${venue.shadow})`;
  context.beginPath();
  for (const { body } of bodies) traceShadow(lens, body, venue);
  context.fill();
  paintFurniture(lens);
  const ballFar = Math.hypot(picture.ball[0] - picture.camera.at[0], picture.ball[1] - picture.camera.at[1]);
  const drawn = [
    ...bodies.map((each) => ({ far: each.far, paint: () => paintFigure(lens, each.body, each.look, venue) })),
    { far: ballFar - 0.12, paint: () => paintBall(lens, picture.ball, venue) },
  ].sort((a, b) => b.far - a.far);
  for (const each of drawn) each.paint();
  paintLensShade(lens, venue);
}

function paint(context: CanvasRenderingContext2D, picture: PlayPicture | CardPicture): void {
  if (picture.kind === 'play') paintPlay(context, picture);
  else paintCard(context, picture.card, picture.progress);
}

function canvas(): CanvasRenderingContext2D {
  const element = document.createElement('canvas');
  element.width = FILM.width;
  element.height = FILM.height;
  const context = element.getContext('2d', { alpha: false, willReadFrequently: true });
  if (!context) throw new Error('a 2D canvas was wanted, got none');
  return context;
}

const front = canvas();
const second = canvas();

/** How much of a slightly blurred picture is laid over the sharp one: a lens is no ruling pen, and it keeps films small. */
let softness = 0.55;

/** Draws one whole picture with its dissolve and grain onto the front canvas. */
function draw(picture: Picture, frame: number): void {
  paint(front, picture.first);
  if (picture.over) {
    paint(second, picture.over.picture);
    front.globalAlpha = picture.over.share;
    front.drawImage(second.canvas, 0, 0);
    front.globalAlpha = 1;
  }
  second.filter = 'blur(0.8px)';
  second.drawImage(front.canvas, 0, 0);
  second.filter = 'none';
  front.globalAlpha = softness;
  const [wide, tall] = [FILM.width - 4, FILM.height - 4];
  front.drawImage(second.canvas, 2, 2, wide, tall, 2, 2, wide, tall);
  front.globalAlpha = 1;
  const next = seeded(frame + 1);
  const dx = -Math.floor(next() * 256);
  const dy = -Math.floor(next() * 256);
  for (let x = dx; x < FILM.width; x += 256)
    for (let y = dy; y < FILM.height; y += 256) front.drawImage(grainTile, x, y);
}

type Recording = {
  readonly encoder: VideoEncoder;
  readonly output: Output;
  readonly target: BufferTarget;
  frames: number;
  failed?: Error;
};
let recording: Recording | undefined;

async function begin(bitrate: number, softening: number): Promise<void> {
  const target = new BufferTarget();
  const output = new Output({ format: new Mp4OutputFormat({ fastStart: 'in-memory' }), target });
  const source = new EncodedVideoPacketSource('avc');
  output.addVideoTrack(source, { frameRate: FILM.numerator / FILM.denominator });
  await output.start();
  const made: Recording = {
    output,
    target,
    frames: 0,
    encoder: new VideoEncoder({
      output: (chunk, meta) => {
        void source.add(EncodedPacket.fromEncodedChunk(chunk), meta);
      },
      error: (error) => {
        made.failed = error;
      },
    }),
  };
  made.encoder.configure({
    codec: 'avc1.64001f',
    width: FILM.width,
    height: FILM.height,
    bitrate,
    framerate: FILM.numerator / FILM.denominator,
    latencyMode: 'quality',
    contentHint: 'detail',
    avc: { format: 'avc' },
  });
  recording = made;
  softness = softening;
}

async function add(pictures: readonly Picture[], keyFrames: readonly number[]): Promise<void> {
  const current = recording;
  if (!current) throw new Error('a begun recording was wanted, got none');
  for (const picture of pictures) {
    if (current.failed) throw current.failed;
    draw(picture, current.frames);
    const timestamp = Math.round((current.frames * 1e6 * FILM.denominator) / FILM.numerator);
    const duration = Math.round((1e6 * FILM.denominator) / FILM.numerator);
    const shot = new VideoFrame(front.canvas, { timestamp, duration });
    current.encoder.encode(shot, { keyFrame: keyFrames.includes(current.frames) });
    shot.close();
    current.frames += 1;
    if (current.encoder.encodeQueueSize > 6)
      await new Promise<void>((resolve) =>
        current.encoder.addEventListener('dequeue', () => resolve(), { once: true }),
      );
  }
}

async function finish(): Promise<string> {
  const current = recording;
  if (!current) throw new Error('a begun recording was wanted, got none');
  await current.encoder.flush();
  await current.output.finalize();
  const bytes = new Uint8Array(current.target.buffer ?? new ArrayBuffer(0));
  const blob = new Blob([bytes]);
  const address = await new Promise<string>((resolve) => {
    const reader = new FileReader();
    reader.addEventListener('load', () => resolve(typeof reader.result === 'string' ? reader.result : ''));
    reader.readAsDataURL(blob);
  });
  return address.slice(address.indexOf(',') + 1);
}

function still(picture: Picture): string {
  draw(picture, 0);
  const address = front.canvas.toDataURL('image/png');
  return address.slice(address.indexOf(',') + 1);
}

export type FilmPage = { begin: typeof begin; add: typeof add; finish: typeof finish; still: typeof still };
declare global {
  interface Window {
    demoFilm: FilmPage;
  }
}
window.demoFilm = { begin, add, finish, still };
