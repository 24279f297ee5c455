/**
 * `node scripts/pictures.ts [FOLDER]`: opens the demo study in a real browser and pictures every room.
 * Without a folder it makes the pictures of the docs; with one, both themes at three sizes, to be looked at.
 */
import { spawn } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { chromium } from 'playwright';
import { findChromium } from '../src/host/exports/chromium.ts';

const project = resolve(import.meta.dirname, '..');
const [asked] = process.argv.slice(2);
const out = asked === undefined ? join(project, 'docs', 'pictures') : resolve(asked);
mkdirSync(out, { recursive: true });
const data = mkdtempSync(join(tmpdir(), 'creasebook-pictures-'));
const program = spawn(process.execPath, [join(project, 'build/src/loopback/main.js'), '--no-open'], {
  env: { ...process.env, CREASEBOOK_DATA: data },
  stdio: ['ignore', 'pipe', 'inherit'],
});
const address = await new Promise<string>((done, failed) => {
  let words = '';
  program.stdout.on('data', (chunk: Buffer) => {
    words += chunk.toString();
    const ready = /ready: (\S+)/.exec(words)?.[1];
    if (ready !== undefined) done(ready);
  });
  program.on('exit', (code) => failed(new Error(`the program ended with ${String(code)}`)));
});
const browser = await chromium.launch({
  executablePath: findChromium(process.env) ?? '',
  args: process.getuid?.() === 0 ? ['--no-sandbox'] : [],
});
const rooms = [
  ['stage', '1'],
  ['sheet', '2'],
  ['side-by-side', '3'],
  ['board', '4'],
  ['dossier', '5'],
  ['second-look', '6'],
  ['settings', '7'],
] as const;
const sizes =
  asked === undefined
    ? [[1440, 900]]
    : [
        [1280, 800],
        [1440, 900],
        [1920, 1080],
      ];
const themes = asked === undefined ? ['dark'] : ['dark', 'light'];
// One visit makes the stills that the dossier asks for, so that every picture after it is the same.
const first = await browser.newPage();
await first.goto(address);
await first.keyboard.press('Alt+5');
await first.waitForTimeout(6000);
await first.close();
for (const [width = 1440, height = 900] of sizes) {
  for (const theme of themes) {
    const page = await browser.newPage({ viewport: { width, height } });
    await page.goto(address);
    await page.waitForSelector('.rooms');
    for (const [name, key] of rooms) {
      await page.keyboard.press(`Alt+${key}`);
      await page.evaluate((chosen) => {
        document.documentElement.dataset['theme'] = chosen;
      }, theme);
      await page.waitForTimeout(2500);
      const file = asked === undefined ? `${name}.jpg` : `${name}-${theme}-${width}.jpg`;
      await page.screenshot({ path: join(out, file), type: 'jpeg', quality: 82 });
    }
    await page.close();
  }
}
await browser.close();
program.kill('SIGINT');
rmSync(data, { recursive: true, force: true, maxRetries: 5, retryDelay: 200 });
console.log(`Pictures in ${out}`);
