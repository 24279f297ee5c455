import { createHash } from 'node:crypto';
import { mkdir, readFile, readdir, stat, writeFile } from 'node:fs/promises';
import { gzipSync } from 'node:zlib';
import { planFilm, type FilmPlan } from './film-plan.ts';
import { pictureAt } from './pictures.ts';
import { seasonJson } from './season/season-json.ts';
import { GAMES } from './season/games.ts';
import { playGame } from './season/series.ts';
import { openStudio, type Studio } from './studio.ts';
import { filmTruth } from './truth.ts';

const DEMO = new URL('../../demo/', import.meta.url);
const STAMPS = new URL('../../.cache/demo/', import.meta.url);
const BITRATE = 430_000;
const SOFTNESS: Record<FilmPlan['angle'], number> = { sideline: 0.65, 'end zone': 0.8 };
const BATCH = 20;

async function drawingSources(): Promise<string> {
  const folder = new URL('page/', import.meta.url);
  const names = (await readdir(folder)).sort();
  const sources = await Promise.all(names.map((name) => readFile(new URL(name, folder), 'utf8')));
  return sources.join('\n');
}

/** A film is drawn again only when its pictures, the drawing or the bitrate changed, or its file is gone. */
async function stampOf(plan: FilmPlan, drawing: string): Promise<string> {
  const hash = createHash('sha256');
  hash.update(drawing).update(`${BITRATE} ${SOFTNESS[plan.angle]}`);
  for (let frame = 0; frame < plan.frameCount; frame += 1) hash.update(JSON.stringify(pictureAt(plan, frame)));
  return hash.digest('hex');
}

async function exists(file: URL): Promise<boolean> {
  return stat(file).then(
    () => true,
    () => false,
  );
}

async function record(studio: Studio, plan: FilmPlan): Promise<Buffer> {
  const starts = plan.segments.map((segment) => segment.inFrame);
  const keyFrames = starts.flatMap((start, at) => {
    const end = starts[at + 1] ?? plan.frameCount;
    return Array.from({ length: Math.ceil((end - start) / 90) }, (_, count) => start + count * 90);
  });
  await studio.page.evaluate(([bitrate, soft]) => window.demoFilm.begin(bitrate, soft), [
    BITRATE,
    SOFTNESS[plan.angle],
  ] as const);
  const began = Date.now();
  for (let frame = 0; frame < plan.frameCount; frame += BATCH) {
    const pictures = Array.from({ length: Math.min(BATCH, plan.frameCount - frame) }, (_, at) =>
      pictureAt(plan, frame + at),
    );
    await studio.page.evaluate(([batch, keys]) => window.demoFilm.add(batch, keys), [pictures, keyFrames] as const);
    if (frame % 400 === 0)
      process.stdout.write(
        `${plan.id}: frame ${frame} of ${plan.frameCount}, ${Math.round((Date.now() - began) / 1000)} s\n`,
      );
  }
  return Buffer.from(await studio.page.evaluate(() => window.demoFilm.finish()), 'base64');
}

/** Makes season.json, the truth files and the films; a film already drawn to the same pictures is left alone. */
async function makeFilms(only: string | undefined, redraw: boolean): Promise<void> {
  await Promise.all(['films/', 'truth/'].map((folder) => mkdir(new URL(folder, DEMO), { recursive: true })));
  await mkdir(STAMPS, { recursive: true });
  const played = GAMES.map((game) => ({ game, plays: playGame(game) }));
  const plans = played.flatMap(({ game, plays }) =>
    (['sideline', 'end zone'] as const).map((angle) => planFilm(game, plays, angle)),
  );
  await writeFile(new URL('season.json', DEMO), `${JSON.stringify(seasonJson(played, plans), undefined, 1)}\n`);
  const drawing = await drawingSources();
  let studio: Studio | undefined;
  for (const plan of plans) {
    await writeFile(new URL(`truth/${plan.id}.json.gz`, DEMO), gzipSync(JSON.stringify(filmTruth(plan)), { level: 9 }));
    if (only !== undefined && plan.id !== only) continue;
    const stamp = await stampOf(plan, drawing);
    const stampFile = new URL(`${plan.id}.sha256`, STAMPS);
    const film = new URL(`films/${plan.id}.mp4`, DEMO);
    const kept = await readFile(stampFile, 'utf8').catch(() => '');
    if (!redraw && kept === stamp && (await exists(film))) {
      process.stdout.write(`${plan.id}: unchanged\n`);
      continue;
    }
    studio ??= await openStudio();
    const bytes = await record(studio, plan);
    await writeFile(film, bytes);
    await writeFile(stampFile, stamp);
    process.stdout.write(`${plan.id}: ${plan.frameCount} frames, ${(bytes.length / 1e6).toFixed(2)} MB\n`);
  }
  await studio?.close();
}

const words = process.argv.slice(2);
await makeFilms(
  words.find((word) => !word.startsWith('--')),
  words.includes('--redraw'),
);
