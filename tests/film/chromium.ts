import { existsSync } from 'node:fs';
import { chromium, type Browser } from 'playwright';

const places = [
  '/usr/bin/chromium',
  '/usr/bin/chromium-browser',
  '/usr/bin/google-chrome',
  '/usr/bin/microsoft-edge',
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
  'C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe',
];

/** The installed browser of the Chromium family, or null when there is none. */
export function installedChromium(): string | null {
  const named = process.env.CHROMIUM_PATH;
  return [...(named === undefined ? [] : [named]), ...places].find((place) => existsSync(place)) ?? null;
}

/** Starts the installed browser without a window. Throws when there is none. */
export async function startChromium(): Promise<Browser> {
  const executablePath = installedChromium();
  if (executablePath === null) throw new Error('No browser of the Chromium family is installed.');
  const root = process.getuid?.() === 0;
  return chromium.launch({
    executablePath,
    args: ['--autoplay-policy=no-user-gesture-required', ...(root ? ['--no-sandbox'] : [])],
  });
}
