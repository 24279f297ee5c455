import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { readCode } from '../../scripts/coded-picture.ts';
import { filmKinds, makeTestFilm, type FilmKind } from '../../scripts/make-test-film.ts';

/** Size of the test films' pictures before any turn. */
export const testSize = { width: 320, height: 180 };

/** A folder of test films that is removed by `remove`. */
export type TestFilms = {
  readonly folder: string;
  /** Makes a film of a kind once and gives its path. */
  readonly film: (kind: FilmKind, frames: number) => Promise<string>;
  readonly remove: () => void;
};

/** Opens an empty folder for test films. */
export function openTestFilms(): TestFilms {
  const folder = mkdtempSync(join(tmpdir(), 'creasebook-films-'));
  const made = new Map<string, Promise<string>>();
  return {
    folder,
    film(kind, frames) {
      const name = `${kind.replaceAll(/[ :]/g, '-')}-${frames}.${filmKinds[kind].ending}`;
      const path = join(folder, name);
      const known = made.get(name) ?? makeTestFilm(kind, path, frames).then(() => path);
      made.set(name, known);
      return known;
    },
    remove: () => rmSync(folder, { recursive: true }),
  };
}

/** The numbers in a film's pictures in presentation order, as ffmpeg decodes it; unturned, whatever its rotation. */
export function numbersByFfmpeg(path: string): number[] {
  const args = ['-loglevel', 'error', '-noautorotate', '-i', path, '-fps_mode', 'passthrough'];
  const run = spawnSync('ffmpeg', [...args, '-pix_fmt', 'gray', '-f', 'rawvideo', '-'], { maxBuffer: 2 ** 30 });
  if (run.status !== 0) throw new Error(`ffmpeg could not read ${path}: ${run.stderr.toString()}`);
  const bytes = testSize.width * testSize.height;
  return Array.from({ length: Math.floor(run.stdout.length / bytes) }, (_, frame) =>
    readCode(run.stdout.subarray(frame * bytes, (frame + 1) * bytes), testSize.width, testSize),
  );
}

/** The presentation times of a film's frames in seconds, as ffprobe gives them, to a millionth. */
export function timesByFfprobe(path: string): number[] {
  const args = ['-v', 'error', '-select_streams', 'v:0', '-show_entries', 'frame=pts_time', '-of', 'csv=p=0', path];
  const run = spawnSync('ffprobe', args, { maxBuffer: 2 ** 28, encoding: 'utf8' });
  if (run.status !== 0) throw new Error(`ffprobe could not read ${path}: ${run.stderr}`);
  return run.stdout
    .split('\n')
    .filter((line) => line !== '')
    .map((line) => Number.parseFloat(line));
}
