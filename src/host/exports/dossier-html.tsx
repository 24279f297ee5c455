import { createHash } from 'node:crypto';
import { renderToStaticMarkup } from 'react-dom/server';
import type { DossierView } from '../../contract/views.ts';
import { DossierPages } from '../../pages/dossier-pages.tsx';
import { fontRules, type FontFace } from './dossier-fonts.ts';
import { pageRule, pagesStyle } from './dossier-style.ts';

/** A JPEG as an address that holds it. */
const dataAddress = (jpeg: Uint8Array): string => `data:image/jpeg;base64,${Buffer.from(jpeg).toString('base64')}`;

/**
 * Makes the dossier as one HTML file that needs nothing else: fonts and stills inside, no script, a content policy that
 * allows nothing but the file's own style by its hash. `stills` are JPEG bytes by still id; one that is not there is
 * told in words in its place. The same arguments give the same bytes.
 */
export function dossierHtml(
  view: DossierView,
  paper: 'A4' | 'Letter',
  stills: ReadonlyMap<string, Uint8Array>,
  fonts: readonly FontFace[],
): string {
  const still = (id: string): string | null => {
    const jpeg = stills.get(id);
    return jpeg === undefined ? null : dataAddress(jpeg);
  };
  const body = renderToStaticMarkup(<DossierPages view={view} paper={paper} still={still} />);
  const { runner } = view.sheet;
  const words = JSON.stringify(view);
  const style = [
    fontRules(fonts, words),
    pageRule(view, paper),
    'html{background:#e9ecee}body{margin:0}',
    '@media print{html{background:none}}',
    pagesStyle(),
  ].join('\n');
  const hash = createHash('sha256').update(style).digest('base64');
  const policy = `default-src 'none'; style-src 'sha256-${hash}'; font-src data:; img-src data:; base-uri 'none'; form-action 'none'`;
  const head = renderToStaticMarkup(
    <head>
      <meta charSet="utf-8" />
      <meta httpEquiv="Content-Security-Policy" content={policy} />
      <meta name="viewport" content="width=device-width, initial-scale=1" />
      <title>{`${runner.name}: Creasebook dossier`}</title>
      <meta name="author" content={view.evaluatorName} />
      <meta name="date" content={view.date} />
      <meta name="generator" content={`Creasebook ${view.programVersion}`} />
      {/* The style is our own sheets and escaped strings; React would escape it for text and break its hash. */}
      <style dangerouslySetInnerHTML={{ __html: style }} />
    </head>,
  );
  return `<!doctype html>\n<html lang="en">${head}<body><main>${body}</main></body></html>\n`;
}
