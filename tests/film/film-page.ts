import { createReadStream, mkdtempSync, readFileSync, rmSync, statSync } from 'node:fs';
import { createServer, type IncomingMessage, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { extname, join } from 'node:path';
import type { Browser, Page } from 'playwright';
import { build } from 'vite';
import { encodeFrameTable } from '../../src/film/table/frame-table-bytes.ts';
import { startChromium } from './chromium.ts';
import { readTableOf } from './file-bytes.ts';

/** The policy the program's own pages run under. */
const policy =
  "default-src 'self'; script-src 'self'; style-src 'self'; worker-src 'self'; connect-src 'self'; img-src 'self' blob: data:; media-src 'self' blob:; object-src 'none'; base-uri 'none'";

const kinds: Readonly<Record<string, string>> = { '.html': 'text/html', '.js': 'text/javascript', '.css': 'text/css' };

/** A page with the film engine, and the films it may ask for by name. */
export type FilmPage = {
  readonly page: Page;
  readonly browser: Browser;
  /** What the page complained of: errors and refused resources. */
  readonly complaints: string[];
  readonly close: () => Promise<void>;
};

function sendFilm(path: string, request: IncomingMessage, response: ServerResponse): void {
  const { size } = statSync(path);
  const asked = /^bytes=(\d+)-(\d*)$/.exec(request.headers.range ?? '');
  const start = Number(asked?.[1] ?? 0);
  const end = asked?.[2] === undefined || asked[2] === '' ? size - 1 : Math.min(Number(asked[2]), size - 1);
  response.writeHead(asked === null ? 200 : 206, {
    'content-type': path.endsWith('.webm') ? 'video/webm' : 'video/mp4',
    'accept-ranges': 'bytes',
    'content-length': end - start + 1,
    ...(asked === null ? {} : { 'content-range': `bytes ${start}-${end}/${size}` }),
  });
  const stream = createReadStream(path, { start, end });
  response.on('close', () => stream.destroy());
  stream.pipe(response);
}

/** Builds the test page as the program is built, serves it with films by name, and opens it in a real browser. */
export async function openFilmPage(films: Readonly<Record<string, string>>): Promise<FilmPage> {
  const outDir = mkdtempSync(join(tmpdir(), 'creasebook-page-'));
  await build({
    configFile: false,
    logLevel: 'error',
    root: join(import.meta.dirname, 'page'),
    build: { outDir, emptyOutDir: true, target: 'es2024', modulePreload: false, assetsInlineLimit: 0 },
    worker: { format: 'es' },
  });
  const server = createServer((request, response) => {
    const path = decodeURIComponent(new URL(request.url ?? '/', 'http://localhost').pathname);
    const [, kind = '', name = ''] = path.split('/');
    const film = films[name];
    response.setHeader('content-security-policy', policy);
    if (kind === 'film' && film !== undefined) {
      try {
        sendFilm(film, request, response);
      } catch {
        response.writeHead(404).end();
      }
    } else if (kind === 'table' && film !== undefined) {
      readTableOf(film).then(
        (table) => response.end('fault' in table ? JSON.stringify(table) : encodeFrameTable(table)),
        (error: unknown) => response.writeHead(500).end(String(error)),
      );
    } else {
      const file = join(outDir, path === '/' ? 'index.html' : path);
      try {
        const body = readFileSync(file);
        response.writeHead(200, { 'content-type': kinds[extname(file)] ?? 'application/octet-stream' }).end(body);
      } catch {
        response.writeHead(404).end();
      }
    }
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const { port } = server.address() as AddressInfo;
  const browser = await startChromium();
  const page = await browser.newPage({ viewport: { width: 1280, height: 800 } });
  const complaints: string[] = [];
  page.on('pageerror', (error) => complaints.push(error.message));
  page.on('console', (message) => {
    if (message.type() === 'error') complaints.push(message.text());
  });
  await page.goto(`http://127.0.0.1:${port}/`);
  await page.waitForFunction(() => 'tools' in globalThis);
  return {
    page,
    browser,
    complaints,
    async close() {
      await browser.close();
      server.closeAllConnections();
      await new Promise((resolve) => server.close(resolve));
      rmSync(outDir, { recursive: true });
    },
  };
}
