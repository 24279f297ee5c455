/**
 * Measures the film engine beside its baselines in the same run and adds the rows to docs/benchmarks.md.
 * `node scripts/bench-film.ts [--dry] [--only NAME]`. Needs ffmpeg and a browser of the Chromium family.
 */
import { spawnSync } from 'node:child_process';
import { appendFileSync, existsSync, mkdirSync, readFileSync, rmSync } from 'node:fs';
import { cpus, loadavg, tmpdir } from 'node:os';
import { join } from 'node:path';
import { decodeFrameTable, encodeFrameTable } from '../src/film/table/frame-table-bytes.ts';
import { readTableOf } from '../tests/film/file-bytes.ts';
import { openFilmPage } from '../tests/film/film-page.ts';
import { measureFilm, type FilmFigures } from './film-bench/measure-film.ts';

type Row = { readonly what: string; readonly ours: string; readonly baseline: string; readonly n: string };

const folder = join(tmpdir(), 'creasebook-bench-film');
mkdirSync(folder, { recursive: true });

/** Runs a program and gives its milliseconds; throws when it fails. */
function timed(command: string, args: readonly string[]): number {
  const begun = performance.now();
  const run = spawnSync(command, args, { stdio: ['ignore', 'ignore', 'pipe'], maxBuffer: 2 ** 30 });
  if (run.status !== 0) throw new Error(`${command} ended with ${run.status}: ${run.stderr.toString().slice(-500)}`);
  return performance.now() - begun;
}

/** The bench film of a height: 20 s of moving test picture with grain, H.264 with B-frames, 59.94 frames a second. */
function benchFilm(height: 720 | 1080): string {
  const path = join(folder, `${height}.mp4`);
  const size = `${(height * 16) / 9}x${height}`;
  const source = `testsrc2=s=${size}:r=60000/1001:d=20,noise=alls=6:allf=t`;
  const encode = [
    '-c:v',
    'libx264',
    '-preset',
    'veryfast',
    '-b:v',
    '6M',
    '-bf',
    '2',
    '-g',
    '60',
    '-pix_fmt',
    'yuv420p',
  ];
  if (!existsSync(path))
    timed('ffmpeg', ['-y', '-f', 'lavfi', '-i', source, ...encode, '-movflags', '+faststart', path]);
  return path;
}

/** Two hours of film at 59.94, made by repeating the short one without encoding it again. */
function longFilm(short: string): string {
  const path = join(folder, 'two-hours.mp4');
  if (!existsSync(path))
    timed('ffmpeg', ['-y', '-stream_loop', '359', '-i', short, '-c', 'copy', '-movflags', '+faststart', path]);
  return path;
}

const ms = (value: number): string => `${value < 10 ? value.toFixed(1) : value.toFixed(0)} ms`;

async function tableRows(path: string): Promise<Row[]> {
  const begun = performance.now();
  const table = await readTableOf(path);
  const read = performance.now() - begun;
  if ('fault' in table) throw new Error(table.says);
  const probe = timed('ffprobe', [
    '-v',
    'error',
    '-select_streams',
    'v',
    '-show_entries',
    'packet=pts,dts,flags',
    '-of',
    'csv',
    path,
  ]);
  const bytes = encodeFrameTable(table);
  const again = performance.now();
  if (!decodeFrameTable(bytes).known) throw new Error('The stored table did not come back.');
  const stored = performance.now() - again;
  const frames = `${table.times.length} frames`;
  return [
    {
      what: 'Frame table of a 2-hour 59.94 film, first opening',
      ours: ms(read),
      baseline: `${ms(probe)} (ffprobe listing packets)`,
      n: frames,
    },
    {
      what: 'The same, second opening (stored table decoded)',
      ours: ms(stored),
      baseline: `${ms(read)} (first opening)`,
      n: frames,
    },
  ];
}

const times = (many: number): string => `${many.toFixed(1)} times`;

function filmRows(height: number, figures: FilmFigures): Row[] {
  const {
    stepOn,
    stepBack,
    elementStep,
    elementWrong,
    jump,
    bareGroup,
    scrub,
    reverse,
    draw,
    elementDraw,
    cutting,
    bareDecode,
  } = figures;
  const at = `${height}p`;
  return [
    {
      what: `${at} warm step on, key to drawn, median / p95`,
      ours: `${ms(stepOn.median)} / ${ms(stepOn.p95)}`,
      baseline: `${ms(elementStep.median)} (video element seek and draw, ${elementWrong} of ${elementStep.n} wrong); ${times(elementStep.median / stepOn.median)} faster`,
      n: `${stepOn.n}`,
    },
    {
      what: `${at} warm step back, median / p95`,
      ours: `${ms(stepBack.median)} / ${ms(stepBack.p95)}`,
      baseline: `${ms(elementStep.median)} (the same); ${times(elementStep.median / stepBack.median)} faster`,
      n: `${stepBack.n}`,
    },
    {
      what: `${at} random jump, median`,
      ours: ms(jump.median),
      baseline: `${ms(bareGroup.median)} (bare decode of that group of pictures); ratio ${(jump.median / bareGroup.median).toFixed(2)}`,
      n: `${jump.n}`,
    },
    {
      what: `${at} scrub over the film, true frames a second`,
      ours: scrub.toFixed(0),
      baseline: '30 wanted',
      n: '3 s',
    },
    {
      what: `${at} reverse play of a 59.94 film, frames shown a second`,
      ours: reverse.toFixed(0),
      baseline: '30 wanted (1x of a 30 fps film)',
      n: '4 s',
    },
    {
      what: `${at} draw a frame, median`,
      ours: ms(draw.median),
      baseline: `${ms(elementDraw.median)} (VideoFrame to a 2D canvas)`,
      n: `${draw.n}`,
    },
    {
      what: `${at} cutting, frames a second`,
      ours: cutting.toFixed(0),
      baseline: `${bareDecode.toFixed(0)} (decode and close every frame); ratio ${(cutting / bareDecode).toFixed(2)}`,
      n: '1199 frames',
    },
    {
      what: `${at} cache over many steps there and back, most bytes held / budget`,
      ours: `${(figures.mostBytes / 2 ** 20).toFixed(1)} MiB`,
      baseline: `${(figures.budget / 2 ** 20).toFixed(1)} MiB; browser memory ${(figures.memoryBefore / 2 ** 20).toFixed(0)} MiB after the first fifth, ${(figures.memoryAfter / 2 ** 20).toFixed(0)} MiB at the end`,
      n: `${figures.steps}`,
    },
  ];
}

function appendRows(rows: readonly Row[]): void {
  const path = join(import.meta.dirname, '..', 'docs', 'benchmarks.md');
  const command = '`node scripts/bench-film.ts`';
  const machine = `${cpus().length} cores (${cpus()[0]?.model ?? 'unknown'}), no GPU decode, load ${(loadavg()[0] ?? 0).toFixed(1)}`;
  const head = existsSync(path) && readFileSync(path, 'utf8').includes('## Film') ? '' : '\n## Film\n';
  const lines = rows.map(({ what, ours, baseline, n }) => `| ${what} | ${ours} | ${baseline} | ${n} |`);
  const table = ['| what | Creasebook | beside it, same run | n |', '| --- | --- | --- | --- |', ...lines].join('\n');
  appendFileSync(path, `${head}\n${new Date().toISOString().slice(0, 16)} UTC, ${command}, ${machine}\n\n${table}\n`);
}

const dry = process.argv.includes('--dry');
const films = { 'film 720': benchFilm(720), 'film 1080': benchFilm(1080) };
const rows: Row[] = [];
const page = await openFilmPage(films);
try {
  for (const height of [720, 1080] as const) {
    rows.push(...filmRows(height, await measureFilm(page, `film ${height}`, height === 720 ? 10_000 : 2_500)));
    for (const row of rows.slice(-8)) console.log(`${row.what}: ${row.ours} | ${row.baseline} | ${row.n}`);
  }
} finally {
  await page.close();
}
rows.push(...(await tableRows(longFilm(films['film 720']))));
for (const row of rows.slice(-2)) console.log(`${row.what}: ${row.ours} | ${row.baseline} | ${row.n}`);
if (!dry) appendRows(rows);
if (process.argv.includes('--clean')) rmSync(folder, { recursive: true });
