import { existsSync } from 'node:fs';
import { chromium, type Browser, type BrowserContextOptions, type Page } from 'playwright';
import type { CallInput, CallName, CallOutput } from '../../src/contract/calls.ts';

/** The installed browser that the tests drive: CHROMIUM names another. */
function chromiumPath(): string {
  const path = process.env['CHROMIUM'] ?? '/usr/bin/chromium';
  if (!existsSync(path)) throw new Error(`No browser at ${path}: install chromium or name it in CHROMIUM.`);
  return path;
}

/** Starts the browser of one file of tests. */
export function startBrowser(): Promise<Browser> {
  return chromium.launch({
    executablePath: chromiumPath(),
    args: [
      ...(process.getuid?.() === 0 ? ['--no-sandbox'] : []),
      '--disable-background-networking',
      '--autoplay-policy=no-user-gesture-required',
    ],
  });
}

/** One person at one window: the page, what it complained of, and where else it asked. */
export type Sitting = {
  readonly page: Page;
  /** Console errors and page errors. */
  readonly complaints: string[];
  /** Addresses asked for on any other host than the program's own. */
  readonly strangers: string[];
  /** How many keys were pressed through `press` and `type`. */
  keys: number;
  /** Presses keys one after another, each counted: `press('i', 'o', 'Shift+ArrowDown')`. A chord counts as one. */
  readonly press: (...keys: readonly string[]) => Promise<void>;
  /** Types letters and figures, each counted as a key. */
  readonly type: (text: string) => Promise<void>;
  /** Asks the door what the window would ask; rejects with the fault's words. */
  readonly call: <Name extends CallName>(name: Name, input: CallInput<Name>) => Promise<CallOutput<Name>>;
  readonly close: () => Promise<void>;
};

/** Opens the program's window in a fresh profile. */
export async function sitDown(
  browser: Browser,
  address: string,
  options: BrowserContextOptions = { viewport: { width: 1280, height: 800 } },
): Promise<Sitting> {
  const context = await browser.newContext(options);
  const page = await context.newPage();
  page.setDefaultTimeout(10_000);
  const complaints: string[] = [];
  const strangers: string[] = [];
  const { host } = new URL(address);
  page.on('console', (message) => {
    if (message.type() === 'error') complaints.push(`${message.text()} ${message.location().url}`);
  });
  page.on('pageerror', (error) => complaints.push(error.message));
  context.on('request', (request) => {
    const url = new URL(request.url());
    if (/^(https?|wss?):$/.test(url.protocol) && url.host !== host) strangers.push(request.url());
  });
  await page.goto(address);
  await page.locator('.room-now > *').first().waitFor();
  const sitting: Sitting = {
    page,
    complaints,
    strangers,
    keys: 0,
    async press(...keys) {
      for (const key of keys) {
        sitting.keys += 1;
        await page.keyboard.press(key);
      }
    },
    async type(text) {
      for (const letter of text) {
        sitting.keys += 1;
        await page.keyboard.press(letter);
      }
    },
    async call(name, input) {
      const answer = await page.evaluate(
        async ({ name, body }: { name: string; body: string }) => {
          const response = await fetch(`/call/${name}`, {
            method: 'POST',
            headers: { 'content-type': 'application/json' },
            body,
          });
          return (await response.json()) as unknown;
        },
        { name, body: JSON.stringify(input) },
      );
      const { ok, value, fault } = answer as { ok: boolean; value?: unknown; fault?: { says: string } };
      if (!ok) throw new Error(`${name}: ${fault?.says ?? 'no answer'}`);
      return value as CallOutput<typeof name>;
    },
    close: () => context.close(),
  };
  return sitting;
}
