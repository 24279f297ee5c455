import { readFile } from 'node:fs/promises';
import { stripTypeScriptTypes } from 'node:module';
import { fileURLToPath } from 'node:url';
import { chromium, type Browser, type Page } from 'playwright';

const HERE = new URL('.', import.meta.url);
const PACKAGES = new URL('../../node_modules/', import.meta.url);
const ADDRESS = 'https://films.localhost';

const SHELL = `<!doctype html><meta charset="utf-8">
<style>
@font-face { font-family: "IBM Plex Sans"; font-weight: 400; src: url("/font/ibm-plex-sans/files/ibm-plex-sans-latin-400-normal.woff2"); }
@font-face { font-family: "IBM Plex Sans"; font-weight: 600; src: url("/font/ibm-plex-sans/files/ibm-plex-sans-latin-600-normal.woff2"); }
@font-face { font-family: "IBM Plex Sans Condensed"; font-weight: 700; src: url("/font/ibm-plex-sans-condensed/files/ibm-plex-sans-condensed-latin-700-normal.woff2"); }
</style>
<script type="importmap">{"imports":{"mediabunny":"/mediabunny.mjs"}}</script>
<script type="module">
await Promise.all(['400 20px "IBM Plex Sans"', '600 20px "IBM Plex Sans"', '700 20px "IBM Plex Sans Condensed"'].map((font) => document.fonts.load(font)));
await import('/page/film-page.ts');
document.title = 'ready';
</script>`;

/** A headless browser with the drawing page open. */
export type Studio = { readonly page: Page; readonly close: () => Promise<void> };

async function answer(path: string): Promise<{ body: string | Buffer; contentType: string }> {
  if (path === '/') return { body: SHELL, contentType: 'text/html' };
  if (path === '/mediabunny.mjs') {
    return {
      body: await readFile(new URL('mediabunny/dist/bundles/mediabunny.mjs', PACKAGES)),
      contentType: 'text/javascript',
    };
  }
  if (path.startsWith('/font/')) {
    return { body: await readFile(new URL(`@fontsource/${path.slice(6)}`, PACKAGES)), contentType: 'font/woff2' };
  }
  const source = await readFile(new URL(`.${path}`, HERE), 'utf8');
  return { body: stripTypeScriptTypes(source), contentType: 'text/javascript' };
}

/** Opens Chromium (env CHROMIUM, else /usr/bin/chromium) on the drawing page; no socket is opened, every file is answered here. */
export async function openStudio(): Promise<Studio> {
  const browser: Browser = await chromium.launch({
    executablePath: process.env['CHROMIUM'] ?? '/usr/bin/chromium',
    args: ['--no-sandbox', '--force-color-profile=srgb', '--disable-lcd-text', '--font-render-hinting=none'],
  });
  const page = await browser.newPage();
  page.on('console', (message) => {
    if (message.type() === 'error') process.stderr.write(`${message.text()}\n`);
  });
  await page.route(`${ADDRESS}/**`, async (route) => {
    try {
      await route.fulfill(await answer(new URL(route.request().url()).pathname));
    } catch (error) {
      process.stderr.write(`${String(error)} (in ${fileURLToPath(HERE)})\n`);
      await route.fulfill({ status: 404, body: String(error) });
    }
  });
  await page.goto(`${ADDRESS}/`);
  await page.waitForFunction(() => document.title === 'ready', undefined, { timeout: 30_000 });
  return { page, close: () => browser.close() };
}
