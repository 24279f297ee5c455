import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { chromium, type Browser } from 'playwright';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { findChromium } from '../../../src/host/exports/chromium.ts';
import { dossierFonts } from '../../../src/host/exports/dossier-fonts.ts';
import { dossierHtml } from '../../../src/host/exports/dossier-html.tsx';
import { dossierOf, emptyDossier, stillsOf } from '../../pages/dossier-fixture.ts';

const installed = findChromium(process.env);
if (installed === null) console.warn('Browser checks skipped: no browser of the Chromium family on this machine');

describe.skipIf(installed === null)('the dossier’s HTML opened in a real browser', () => {
  const folder = mkdtempSync(join(tmpdir(), 'creasebook-html-test-'));
  let browser: Browser;

  beforeAll(async () => {
    browser = await chromium.launch({
      executablePath: installed ?? '',
      args: process.getuid?.() === 0 ? ['--no-sandbox'] : [],
    });
  });
  afterAll(async () => {
    await browser.close();
    rmSync(folder, { recursive: true, force: true });
  });

  const addressOf = (name: string, html: string): string => {
    const path = join(folder, `${name}.html`);
    writeFileSync(path, html);
    return pathToFileURL(path).href;
  };
  const views = { full: dossierOf(), empty: emptyDossier() } as const;

  it.each(['full', 'empty'] as const)('keeps to its own content policy and asks for nothing: %s', async (name) => {
    const page = await browser.newPage();
    const said: string[] = [];
    const asked: string[] = [];
    page.on('console', (message) => said.push(message.text()));
    page.on('request', (request) => asked.push(request.url().slice(0, 40)));
    const address = addressOf(name, dossierHtml(views[name], 'A4', stillsOf(), dossierFonts()));
    await page.goto(address);
    expect(said).toEqual([]);
    expect(asked.filter((url) => !url.startsWith('data:') && !url.startsWith('file:'))).toEqual([]);
    expect(await page.evaluate('document.fonts.check(\'600 16px "IBM Plex Sans"\')')).toBe(true);
    expect(await page.evaluate("getComputedStyle(document.querySelector('h1')).fontWeight")).toBe('600');
    await page.close();
  });

  // axe-core's own rules for WCAG 2.2 A and AA; what a machine can't judge (sense of words) is not claimed.
  it.each(['full', 'empty'] as const)('has no fault that axe-core can find: %s', async (name) => {
    const context = await browser.newContext({ bypassCSP: true });
    const page = await context.newPage();
    await page.goto(addressOf(name, dossierHtml(views[name], 'A4', stillsOf(), dossierFonts())));
    await page.evaluate(readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8'));
    const found = await page.evaluate(
      "axe.run({ runOnly: ['wcag2a', 'wcag2aa', 'wcag21aa', 'wcag22aa', 'best-practice'] }).then(({ violations }) => violations.map(({ id, nodes }) => id + ': ' + nodes.map(({ html }) => html.slice(0, 120)).join(' | ')))",
    );
    expect(found).toEqual([]);
    await context.close();
  });

  it('stands on screen as sheets of its paper, below each other, nothing wider than the sheet', async () => {
    const page = await browser.newPage({ viewport: { width: 1000, height: 900 } });
    await page.goto(addressOf('sheets', dossierHtml(dossierOf(), 'A4', stillsOf(), dossierFonts())));
    const sheet = await page.evaluate<{ width: number; height: number; over: number }>(
      "(() => { const box = document.querySelector('.dossier').getBoundingClientRect(); return { width: box.width, height: box.height, over: document.documentElement.scrollWidth }; })()",
    );
    // 210 mm at 96 units an inch.
    expect(sheet.width).toBeCloseTo((210 / 25.4) * 96, 0);
    expect(sheet.over).toBeLessThanOrEqual(1000);
    expect(sheet.height).toBeGreaterThan(((297 * 2.9) / 25.4) * 96);
    await page.close();
  });
});
