/**
 * `npm run bench:ui`: opens the large study in a real browser and measures what a hand would feel.
 * Every figure is printed with its n and, where there is one, its baseline from the same run; nothing is asserted.
 */
import { spawn } from 'node:child_process';
import { existsSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { cpus, tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { median, quantile } from 'simple-statistics';
import { chromium, type Page } from 'playwright';
import { findChromium } from '../src/host/exports/chromium.ts';
import { putRows } from './put-rows.ts';

const project = resolve(import.meta.dirname, '..');
const folder = mkdtempSync(join(tmpdir(), 'creasebook-bench-'));
const study = process.argv[2] ?? join(folder, 'large.creasebook');
const run = (file: string, ...args: string[]): Promise<void> =>
  new Promise((done, failed) => {
    const child = spawn(process.execPath, [join(project, file), ...args], { stdio: ['ignore', 'inherit', 'inherit'] });
    child.on('exit', (code) => (code === 0 ? done() : failed(new Error(`${file} ended with ${String(code)}`))));
  });
if (!existsSync(study)) await run('scripts/make-large-study.ts', study);

const server = spawn(process.execPath, [join(project, 'build/src/loopback/main.js'), '--study', study, '--no-open'], {
  env: { ...process.env, CREASEBOOK_DATA: folder },
  stdio: ['ignore', 'pipe', 'inherit'],
});
const address = await new Promise<string>((done, failed) => {
  let out = '';
  server.stdout.on('data', (chunk: Buffer) => {
    out += chunk.toString();
    const ready = /ready: (\S+)/.exec(out)?.[1];
    if (ready !== undefined) done(ready);
  });
  server.on('exit', (code) => failed(new Error(`the program ended with ${String(code)}`)));
});
const browser = await chromium.launch({
  executablePath: findChromium(process.env) ?? '',
  args: process.getuid?.() === 0 ? ['--no-sandbox'] : [],
});
const page = await browser.newPage({ viewport: { width: 1440, height: 900 } });
await page.goto(address);

/** Milliseconds from a fresh load to a strip whose plays can be chosen. */
async function openUsable(): Promise<number> {
  await page.reload();
  await page.waitForSelector('.play');
  return page.evaluate(() => performance.now());
}

/** The longest time between two pictures, and all of them, while work goes on in the page. */
async function frames(work: (page: Page) => Promise<void>): Promise<number[]> {
  await page.evaluate(() => {
    const gaps: number[] = [];
    let last = performance.now();
    const tick = (): void => {
      const now = performance.now();
      gaps.push(now - last);
      last = now;
      if (!('benchDone' in window)) requestAnimationFrame(tick);
      else Object.assign(window, { benchGaps: gaps });
    };
    Reflect.deleteProperty(window, 'benchDone');
    requestAnimationFrame(tick);
  });
  await work(page);
  return page.evaluate(async () => {
    Object.assign(window, { benchDone: true });
    await new Promise((done) => setTimeout(done, 100));
    return (window as unknown as { benchGaps: number[] }).benchGaps;
  });
}

const p95 = (values: number[]): number => quantile(values, 0.95);
const ms = (value: number): string => `${value.toFixed(1)} ms`;
const rows: string[][] = [];

const opens: number[] = [];
for (let at = 0; at < 7; at += 1) opens.push(await openUsable());
rows.push([
  'Open to a strip that can be used',
  String(opens.length),
  ms(median(opens)),
  ms(Math.max(...opens)),
  'under 1 s',
]);

const scroll = await frames(async () => {
  await page.hover('.strip-list');
  for (let at = 0; at < 40; at += 1) {
    await page.mouse.wheel(0, at % 2 === 0 ? 60 : -40);
    await page.waitForTimeout(16);
  }
});
rows.push([
  'Strip scroll, time between pictures',
  String(scroll.length),
  ms(median(scroll)),
  ms(Math.max(...scroll)),
  'none over 50 ms',
]);

const filter = await frames(async () => {
  for (const word of ['power', 'inside zone', 'box >= 8', 'left hash, gain > 5', '']) {
    await page.fill('.head-filter', word);
    await page.waitForTimeout(150);
  }
});
rows.push([
  'Strip filter, time between pictures',
  String(filter.length),
  ms(median(filter)),
  ms(Math.max(...filter)),
  'none over 50 ms',
]);

const changes = await page.evaluate(async () => {
  const call = async (name: string, input: unknown): Promise<{ ok: boolean; value: never }> =>
    (
      await fetch(`/call/${name}`, {
        method: 'POST',
        headers: { 'content-type': 'application/json' },
        body: JSON.stringify(input),
      })
    ).json();
  const directory = (await call('directory.read', {})).value as {
    games: { id: string }[];
    evaluators: { id: string }[];
  };
  const game = (await call('stage.game', { gameId: directory.games[0]?.id })).value as {
    parts: { id: string; comeBack: boolean }[];
  };
  const times: number[] = [];
  for (let at = 0; at < 200; at += 1) {
    const part = game.parts[at % game.parts.length];
    const before = performance.now();
    const answer = await call('change.make', {
      by: directory.evaluators[0]?.id,
      label: 'Flag',
      steps: [{ do: 'set', table: 'part', id: part?.id, set: { comeBack: at % 2 === 0 } }],
    });
    if (answer.ok) times.push(performance.now() - before);
  }
  return times;
});
rows.push([
  'One change acknowledged durably, p95',
  String(changes.length),
  ms(median(changes)),
  ms(p95(changes)),
  'p95 under 15 ms',
]);

for (const [name, key, selector] of [
  ['Sheet', '2', '.sheet'],
  ['Stage', '1', '.strip'],
] as const) {
  const times: number[] = [];
  for (let at = 0; at < 5; at += 1) {
    await page.keyboard.press(key === '2' ? 'Alt+1' : 'Alt+2');
    await page.waitForTimeout(1500);
    const began = Date.now();
    await page.keyboard.press(`Alt+${key}`);
    await page.waitForSelector(selector);
    times.push(Date.now() - began);
  }
  rows.push([
    `Room switch to the ${name}`,
    String(times.length),
    ms(median(times)),
    ms(Math.max(...times)),
    'under 150 ms',
  ]);
}

await browser.close();
server.kill('SIGINT');
putRows(
  'Window',
  `${cpus()[0]?.model ?? 'unknown'}, ${cpus().length} cores; 60 runners, 18,000 carries, 108,000 marks; \`npm run bench:ui\``,
  ['what', 'n', 'median', 'worst (or p95)', 'aim'],
  rows,
);
writeFileSync(join(folder, 'done'), '');
rmSync(folder, { recursive: true, force: true });
