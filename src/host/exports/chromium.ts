import { spawn } from 'node:child_process';
import { accessSync, constants, existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { platform, tmpdir } from 'node:os';
import { delimiter, join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { faultOf, FaultError } from '../../contract/faults.ts';

const names = [
  'chromium',
  'chromium-browser',
  'google-chrome',
  'google-chrome-stable',
  'microsoft-edge',
  'brave-browser',
];
const places: Readonly<Record<string, readonly string[]>> = {
  darwin: [
    '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
    '/Applications/Chromium.app/Contents/MacOS/Chromium',
    '/Applications/Microsoft Edge.app/Contents/MacOS/Microsoft Edge',
  ],
  win32: [
    String.raw`C:\Program Files\Google\Chrome\Application\chrome.exe`,
    String.raw`C:\Program Files (x86)\Microsoft\Edge\Application\msedge.exe`,
    String.raw`C:\Program Files\Microsoft\Edge\Application\msedge.exe`,
  ],
};

/** Finds an installed browser of the Chromium family: CHROMIUM in the environment, then PATH, then the usual places; null for none. */
export function findChromium(env: NodeJS.ProcessEnv): string | null {
  const asked = env['CHROMIUM'];
  const onPath = (env['PATH'] ?? '').split(delimiter).flatMap((folder) => names.map((name) => join(folder, name)));
  const all = [...(asked === undefined ? [] : [asked]), ...onPath, ...(places[platform()] ?? [])];
  return (
    all.find((path) => {
      try {
        accessSync(path, constants.X_OK);
        return existsSync(path);
      } catch {
        return false;
      }
    }) ?? null
  );
}

/** Chromium refuses its own sandbox to root; everywhere else it stays on. */
const sandboxSwitch = (): string[] => (process.getuid?.() === 0 ? ['--no-sandbox'] : []);

const quiet = [
  '--no-first-run',
  '--no-default-browser-check',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];

/** Opens an address as a window of its own; needs a display and does nothing without one. */
export function openAppWindow(chromium: string, address: string, profile: string): void {
  if (platform() === 'linux' && !process.env['DISPLAY'] && !process.env['WAYLAND_DISPLAY']) return;
  const window = spawn(
    chromium,
    [`--app=${address}`, `--user-data-dir=${profile}`, '--window-size=1440,900', ...quiet, ...sandboxSwitch()],
    {
      stdio: 'ignore',
      detached: true,
    },
  );
  window.on('error', () => undefined);
  window.unref();
}

const mostPrintMs = 60_000;

/** Makes a printer that turns one HTML file into tagged PDF bytes with a headless Chromium; rejects with 'no-printer' when that fails. */
export function chromiumPrinter(chromium: string): (html: string) => Promise<Uint8Array> {
  return (html) =>
    new Promise((resolve, reject) => {
      const folder = mkdtempSync(join(tmpdir(), 'creasebook-print-'));
      const page = join(folder, 'dossier.html');
      const pdf = join(folder, 'dossier.pdf');
      writeFileSync(page, html);
      const printing = spawn(
        chromium,
        [
          '--headless',
          '--disable-gpu',
          '--no-pdf-header-footer',
          '--generate-pdf-document-outline',
          `--user-data-dir=${join(folder, 'profile')}`,
          ...quiet,
          ...sandboxSwitch(),
          `--print-to-pdf=${pdf}`,
          pathToFileURL(page).href,
        ],
        { stdio: ['ignore', 'ignore', 'pipe'], timeout: mostPrintMs },
      );
      let words = '';
      printing.stderr.on('data', (chunk: Buffer) => (words = (words + chunk.toString()).slice(-2000)));
      const finish = (code: number | null, failure?: Error): void => {
        try {
          if (failure === undefined && existsSync(pdf)) resolve(new Uint8Array(readFileSync(pdf)));
          else {
            const why =
              failure?.message ?? `it ended with code ${String(code)} ${words.trim().split('\n').at(-1) ?? ''}`;
            reject(
              new FaultError(
                faultOf(
                  'no-printer',
                  `The browser could not print the dossier: ${why}`,
                  'The HTML is kept; print it from a browser.',
                ),
              ),
            );
          }
        } finally {
          rmSync(folder, { recursive: true, force: true, maxRetries: 5, retryDelay: 100 });
        }
      };
      printing.on('error', (failure) => finish(null, failure));
      printing.on('close', (code) => finish(code));
    });
}
