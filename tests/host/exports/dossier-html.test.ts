import { createHash } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import type { DossierView } from '../../../src/contract/views.ts';
import { dossierFonts, rangeTouches } from '../../../src/host/exports/dossier-fonts.ts';
import { dossierHtml } from '../../../src/host/exports/dossier-html.tsx';
import { cssString } from '../../../src/host/exports/dossier-style.ts';
import { dossierOf, emptyDossier, stillIds, stillsOf } from '../../pages/dossier-fixture.ts';
import { textOf } from '../../pages/text-of.ts';

const fonts = dossierFonts();
const stills = stillsOf();
const htmlOf = (view: DossierView, paper: 'A4' | 'Letter' = 'A4'): string => dossierHtml(view, paper, stills, fonts);
const nasty = `<b>"&' </style><script>alert(1)</script> ]]> \\`;

const faces = (text: string) => text.match(/@font-face/g)?.length;

/** Puts nasty words at the end of every text a person can write; keys, ids, dates and closed words stay. */
function spoiled<Value>(value: Value, key = ''): Value {
  if (typeof value === 'string') {
    const kept =
      ['key', 'letter', 'date', 'stillId', 'state', 'clearness', 'kind', 'because'].includes(key) ||
      /(^i|I)d$/.test(key);
    return (kept ? value : value + nasty) as Value;
  }
  if (Array.isArray(value)) return value.map((one: unknown) => spoiled(one, key)) as Value;
  if (value === null || typeof value !== 'object') return value;
  return Object.fromEntries(
    Object.entries(value).map(([name, one]: [string, unknown]) => [name, spoiled(one, name)]),
  ) as Value;
}

describe('the dossier as one HTML file', () => {
  const html = htmlOf(dossierOf());

  it('is the same bytes for the same view, made anew or read back from JSON', () => {
    expect(htmlOf(dossierOf())).toBe(html);
    expect(htmlOf(JSON.parse(JSON.stringify(dossierOf())) as DossierView)).toBe(html);
    expect(htmlOf(dossierOf(), 'Letter')).not.toBe(html);
  });

  it('names its language, title, author and date', () => {
    expect(html.startsWith('<!doctype html>\n<html lang="en"><head><meta charSet="utf-8"/>')).toBe(true);
    expect(html).toContain('<title>Dez Okafor-Lyle: Creasebook dossier</title>');
    expect(html).toContain('<meta name="author" content="R. Amari"/><meta name="date" content="2026-11-14"/>');
  });

  it('allows its own style by its hash and nothing else', () => {
    const style = /<style>([\s\S]*?)<\/style>/.exec(html)?.[1] ?? '';
    const hash = createHash('sha256').update(style).digest('base64');
    expect(html).toContain(
      `default-src &#x27;none&#x27;; style-src &#x27;sha256-${hash}&#x27;; font-src data:; img-src data:`,
    );
  });

  it('needs nothing from elsewhere', () => {
    expect(html).not.toMatch(/<(script|link|iframe|object|embed)\b/i);
    expect(html).not.toMatch(/(src|href)="(?!data:|#)/);
    expect(html).not.toMatch(/url\((?!data:)/);
    expect(html).not.toContain('@import');
    expect(html).not.toMatch(/\sstyle=/);
  });

  it('has the stills inside, as they are', () => {
    for (const id of stillIds)
      expect(html).toContain(`src="data:image/jpeg;base64,${Buffer.from(stills.get(id) ?? []).toString('base64')}"`);
    expect(textOf(htmlOf(dossierOf()))).toContain('No still: the film');
  });

  it('lets no markup out of any text a person writes', () => {
    const spoilt = htmlOf(spoiled(dossierOf()));
    expect(spoilt).not.toMatch(/<script/i);
    expect(spoilt).not.toContain('<b>');
    expect(spoilt.match(/<style/g)).toHaveLength(1);
    expect(spoilt.match(/<\/style/g)).toHaveLength(1);
    // What was written is there to read all the same.
    expect(textOf(spoilt)).toContain(`Reads the second level early and lets power plays form in front of him.${nasty}`);
  });

  it('prints notes of 5,000 letters whole', () => {
    const long = 'He waits. '.repeat(500).trim();
    const view = dossierOf();
    const notes = { ...view, role: long, change: long, verdict: [{ text: long, cites: [1], against: [] }] };
    const words = textOf(htmlOf(notes));
    expect(words.split(long)).toHaveLength(4);
  });

  it('can be made of nothing', () => {
    expect(textOf(htmlOf(emptyDossier()))).toContain('No verdict is written yet');
  });

  it('has the letters of names beyond plain Latin only where they are needed', () => {
    const view = dossierOf();
    const named = { ...view, sheet: { ...view.sheet, runner: { ...view.sheet.runner, name: 'Jiří Dvořák' } } };
    expect(faces(html)).toBe(4);
    expect(faces(htmlOf(named))).toBe(8);
  });

  // The speed asked for is 300 ms; measured here 20 to 110 ms on two shared cores, so the bound has room and still bites.
  it('takes less than 300 ms', () => {
    const begin = performance.now();
    htmlOf(dossierOf());
    expect(performance.now() - begin).toBeLessThan(300);
  });
});

describe('text inside the style', () => {
  // Escapes by CSS Syntax Module Level 3, 4.3.7: a backslash, the code point in hexadecimal, and one space.
  it('is escaped so that it can end neither string, rule nor element', () => {
    expect(cssString('A "b" </style>')).toBe(String.raw`"A \22 b\22  \3c \2f style\3e "`);
    expect(cssString('\n\\')).toBe(String.raw`"\a \5c "`);
  });

  it('knows which letters a face has', () => {
    expect(rangeTouches('U+0100-02BA,U+2113', 'Dvořák')).toBe(true);
    expect(rangeTouches('U+0100-02BA,U+2113', 'Amari')).toBe(false);
    expect(rangeTouches('U+2113', 'ℓ')).toBe(true);
  });
});
