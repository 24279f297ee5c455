/**
 * Takes pictures of every room in both themes and in three sizes, for people to look at.
 * `node scripts/look.ts FOLDER [STUDY]` after a build; without a study the demo study is shown. Needs a Chromium.
 */
import { spawn } from 'node:child_process';
import { existsSync, mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { chromium, type Page } from 'playwright';

const sizes = [
  { name: '1280x800', width: 1280, height: 800, deviceScaleFactor: 1 },
  { name: '1920x1080', width: 1920, height: 1080, deviceScaleFactor: 1 },
  { name: '1280x800-at-200', width: 640, height: 400, deviceScaleFactor: 2 },
] as const;

/** Starts the built program; gives its address and how to end it. */
async function start(study: string | undefined, data: string): Promise<{ address: string; stop: () => void }> {
  const main = resolve(import.meta.dirname, '../build/src/loopback/main.js');
  const args = [main, '--no-open', '--port', '0', ...(study === undefined ? [] : ['--study', resolve(study)])];
  const child = spawn(process.execPath, args, {
    env: { ...process.env, CREASEBOOK_DATA: data },
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  let printed = '';
  const address = await new Promise<string>((found, failed) => {
    child.stdout.on('data', (chunk: Buffer) => {
      printed += chunk.toString();
      const ready = /ready: (\S+)/.exec(printed)?.[1];
      if (ready !== undefined) found(ready);
    });
    child.on('exit', (code) => failed(new Error(`The program ended with ${code}: ${printed}`)));
  });
  return { address, stop: () => child.kill('SIGINT') };
}

/** What is looked at beside the rooms as they open. */
const poses: readonly { readonly name: string; readonly keys: readonly string[]; readonly after: readonly string[] }[] =
  [
    { name: 'stage, two angles', keys: ['Alt+1', 'h'], after: ['h'] },
    { name: 'stage, a trait being marked', keys: ['Alt+1', 'c'], after: ['Escape'] },
    { name: 'stage, a blank', keys: ['Alt+1', 'e'], after: ['Escape'] },
    { name: 'stage, every blank', keys: ['Alt+1', 'q'], after: ['q'] },
    { name: 'palette', keys: ['Alt+1', 'Control+k'], after: ['Escape'] },
    { name: 'keys', keys: ['Alt+1', '?'], after: ['Escape'] },
    { name: 'history', keys: ['Alt+1', 'Shift+H'], after: ['Escape'] },
  ];

async function look(page: Page, folder: string): Promise<number> {
  let taken = 0;
  const shoot = async (name: string): Promise<void> => {
    await page.waitForTimeout(700);
    await page.screenshot({ path: join(folder, `${name.replaceAll(/[ ,]+/g, '-').toLowerCase()}.png`) });
    taken += 1;
  };
  const rooms = page.getByRole('navigation', { name: 'Rooms' }).getByRole('button');
  for (let room = 0; room < (await rooms.count()); room += 1) {
    await rooms.nth(room).click();
    await shoot(`${room + 1} ${(await rooms.nth(room).innerText()).replace(/\s+/, ' ')}`);
  }
  for (const { name, keys, after } of poses) {
    for (const key of keys) {
      await page.keyboard.press(key);
      await page.waitForTimeout(120);
    }
    await shoot(name);
    for (const key of after) await page.keyboard.press(key);
    await page.waitForTimeout(120);
  }
  return taken;
}

const [out, study] = process.argv.slice(2);
const executablePath = process.env['CHROMIUM'] ?? '/usr/bin/chromium';
if (out === undefined || !existsSync(executablePath)) {
  console.error(
    out === undefined
      ? 'Wanted a folder for the pictures: node scripts/look.ts FOLDER [STUDY]'
      : `Wanted a Chromium at ${executablePath}; name another in CHROMIUM.`,
  );
  process.exitCode = 2;
} else {
  const data = mkdtempSync(join(tmpdir(), 'creasebook-look-'));
  const program = await start(study, data);
  const root = process.getuid?.() === 0;
  const browser = await chromium.launch({
    executablePath,
    args: [...(root ? ['--no-sandbox'] : []), '--disable-background-networking'],
  });
  let taken = 0;
  try {
    for (const theme of ['dark', 'light'] as const) {
      for (const { name, ...size } of sizes) {
        const { deviceScaleFactor, width, height } = size;
        const context = await browser.newContext({ viewport: { width, height }, deviceScaleFactor });
        const page = await context.newPage();
        await page.goto(program.address);
        await page.locator('.room-now > *').first().waitFor();
        await page.evaluate(
          (set) =>
            fetch('/call/preferences.write', {
              method: 'POST',
              headers: { 'content-type': 'application/json' },
              body: JSON.stringify({ set }),
            }).then(() => undefined),
          { theme },
        );
        await page.reload();
        await page.locator('.room-now > *').first().waitFor();
        const folder = join(out, theme, name);
        mkdirSync(folder, { recursive: true });
        taken += await look(page, folder);
        await context.close();
      }
    }
  } finally {
    await browser.close();
    program.stop();
    rmSync(data, { recursive: true, force: true });
  }
  console.log(`${taken} pictures in ${resolve(out)}`);
}
