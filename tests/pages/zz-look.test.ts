import { writeFileSync } from 'node:fs';
import { it } from 'vitest';
import { dossierHtml } from '../../src/host/exports/dossier-html.tsx';
import { dossierFonts } from '../../src/host/exports/dossier-fonts.ts';
import { chromiumPrinter, findChromium } from '../../src/host/exports/chromium.ts';
import { dossierOf, emptyDossier, stillsOf } from './dossier-fixture.ts';
it('looks', async () => {
  const print = chromiumPrinter(findChromium(process.env) ?? '');
  for (const paper of ['A4', 'Letter'] as const) for (const [name, view] of [['full', dossierOf()], ['empty', emptyDossier()]] as const) {
    const begin = performance.now();
    const html = dossierHtml(view, paper, stillsOf(), dossierFonts());
    const mid = performance.now();
    writeFileSync(`/tmp/look/${name}-${paper}.html`, html);
    const pdf = await print(html);
    console.log(name, paper, html.length, Math.round(mid - begin), Math.round(performance.now() - mid), pdf.length);
    writeFileSync(`/tmp/look/${name}-${paper}.pdf`, pdf);
  }
}, 120000);
