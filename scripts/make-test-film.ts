/**
 * Makes films whose every picture carries its own number as black and white blocks, for tests and benches.
 * `node scripts/make-test-film.ts KIND OUT [FRAMES]`. Needs ffmpeg.
 */
import { spawn, spawnSync } from 'node:child_process';
import { once } from 'node:events';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { codedPicture } from './coded-picture.ts';

type Recipe = {
  readonly ending: string;
  readonly rate: string;
  readonly encode: readonly string[];
  /** Arguments of a second run that copies the first film's packets into the final one. */
  readonly copy?: { readonly before: readonly string[]; readonly after: readonly string[] };
};

const h264 = (...more: readonly string[]) =>
  ['-c:v', 'libx264', '-preset', 'veryfast', '-crf', '20', '-pix_fmt', 'yuv420p', ...more] as const;
const slowVp9 = [
  '-pix_fmt',
  'yuv420p',
  '-c:v',
  'libvpx-vp9',
  '-deadline',
  'realtime',
  '-cpu-used',
  '8',
  '-b:v',
  '600k',
  '-g',
  '40',
] as const;
const av1 = ['-pix_fmt', 'yuv420p', '-c:v', 'libsvtav1', '-preset', '12', '-crf', '35', '-g', '32'] as const;
const uneven = 'settb=1/60000,setpts=(N*2+mod(N\\,3)+floor(N/20)*3)*1001';

/** How each kind of film is made. */
export const filmKinds = {
  'h264 29.97': { ending: 'mp4', rate: '30000/1001', encode: h264('-g', '30', '-bf', '3', '-b_strategy', '0') },
  'h264 59.94': { ending: 'mp4', rate: '60000/1001', encode: h264('-g', '60', '-bf', '2', '-movflags', '+faststart') },
  'h264 open groups': {
    ending: 'mp4',
    rate: '25',
    encode: h264('-g', '24', '-bf', '3', '-x264-params', 'open-gop=1:b-adapt=0:scenecut=0'),
  },
  'h264 23.976': { ending: 'mov', rate: '24000/1001', encode: h264('-g', '48', '-bf', '2', '-b-pyramid', 'normal') },
  'h264 25': { ending: 'mp4', rate: '25', encode: h264('-g', '25', '-bf', '0') },
  'h264 50': { ending: 'mkv', rate: '50', encode: h264('-g', '50', '-bf', '2') },
  'vp9 webm': { ending: 'webm', rate: '30000/1001', encode: slowVp9 },
  'vp9 59.94 webm': {
    ending: 'webm',
    rate: '60000/1001',
    encode: [...slowVp9, '-auto-alt-ref', '1', '-lag-in-frames', '8'],
  },
  'av1 mp4': { ending: 'mp4', rate: '30', encode: av1 },
  'av1 webm': { ending: 'webm', rate: '24000/1001', encode: av1 },
  'variable rate': {
    ending: 'mp4',
    rate: '30',
    encode: ['-vf', uneven, '-fps_mode', 'passthrough', '-enc_time_base', '1:60000', ...h264('-bf', '2', '-g', '30')],
  },
  'same times': {
    ending: 'mp4',
    rate: '30',
    encode: ['-vf', 'setpts=(N-mod(N\\,7)/6)/30/TB', '-fps_mode', 'passthrough', ...h264('-bf', '2', '-g', '30')],
  },
  'vp9 4:4:4 webm': { ending: 'webm', rate: '25', encode: ['-pix_fmt', 'yuv444p', ...slowVp9.slice(2)] },
  'h264 10 bit': { ending: 'mp4', rate: '25', encode: h264('-pix_fmt', 'yuv420p10le', '-bf', '2', '-g', '25') },
  'edit list': {
    ending: 'mp4',
    rate: '30000/1001',
    encode: h264('-g', '40', '-bf', '2'),
    copy: { before: ['-ss', '0.7'], after: [] },
  },
  fragmented: {
    ending: 'mp4',
    rate: '30',
    encode: h264('-g', '30', '-bf', '2', '-movflags', '+frag_keyframe+empty_moov+default_base_moof'),
  },
  'mpeg-ts': { ending: 'ts', rate: '60000/1001', encode: h264('-g', '30', '-bf', '2') },
  rotated: {
    ending: 'mp4',
    rate: '30',
    encode: h264('-g', '30', '-bf', '2'),
    copy: { before: [], after: ['-metadata:s:v:0', 'rotate=90'] },
  },
} as const satisfies Record<string, Recipe>;
export type FilmKind = keyof typeof filmKinds;

/** True when ffmpeg can be run here. */
export function hasFfmpeg(): boolean {
  return spawnSync('ffmpeg', ['-version'], { stdio: 'ignore' }).status === 0;
}

/** Runs ffmpeg on raw grey pictures; throws with its last words when it fails. */
async function encodePictures(
  args: readonly string[],
  size: { readonly width: number; readonly height: number },
  frames: number,
): Promise<void> {
  const child = spawn('ffmpeg', ['-hide_banner', '-loglevel', 'error', '-y', ...args], {
    stdio: ['pipe', 'ignore', 'pipe'],
  });
  let words = '';
  child.stderr.on('data', (chunk: Buffer) => (words += chunk.toString()));
  const ended = once(child, 'close');
  for (let frame = 0; frame < frames && child.stdin.writable; frame += 1) {
    if (!child.stdin.write(codedPicture(frame, size))) await Promise.race([once(child.stdin, 'drain'), ended]);
  }
  child.stdin.end();
  const [code] = (await ended) as [number];
  if (code !== 0) throw new Error(`ffmpeg ended with ${code}: ${words.slice(-2000)}`);
}

/** Makes a film of the kind at `path` with `frames` pictures numbered from 0; 320 x 180 unless told otherwise. */
export async function makeTestFilm(
  kind: FilmKind,
  path: string,
  frames: number,
  size: { readonly width: number; readonly height: number } = { width: 320, height: 180 },
): Promise<void> {
  const recipe: Recipe = filmKinds[kind];
  const input = [
    '-f',
    'rawvideo',
    '-pix_fmt',
    'gray',
    '-s',
    `${size.width}x${size.height}`,
    '-r',
    recipe.rate,
    '-i',
    '-',
  ];
  if (recipe.copy === undefined) {
    await encodePictures([...input, ...recipe.encode, path], size, frames);
    return;
  }
  const folder = mkdtempSync(join(tmpdir(), 'creasebook-film-'));
  try {
    const first = join(folder, `first.${recipe.ending}`);
    await encodePictures([...input, ...recipe.encode, first], size, frames);
    const args = [
      '-loglevel',
      'error',
      '-y',
      ...recipe.copy.before,
      '-i',
      first,
      '-c',
      'copy',
      ...recipe.copy.after,
      path,
    ];
    const copied = spawnSync('ffmpeg', args);
    if (copied.status !== 0) throw new Error(`ffmpeg could not copy: ${copied.stderr.toString()}`);
  } finally {
    rmSync(folder, { recursive: true });
  }
}

if (process.argv[1] === import.meta.filename) {
  const [kind, path, frames] = process.argv.slice(2);
  if (kind === undefined || path === undefined || !(kind in filmKinds)) {
    console.error(`Wanted a kind and a file; kinds: ${Object.keys(filmKinds).join(', ')}. Got ${kind ?? 'none'}.`);
    process.exitCode = 2;
  } else {
    await makeTestFilm(kind as FilmKind, path, Number(frames ?? 300));
  }
}
