import { existsSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { DossierView } from '../../contract/views.ts';
import { cautionLine } from '../../pages/cautions.ts';
import { dateInWords } from '../../pages/in-figures.ts';

const sheets = ['charts.css', 'dossier.css'] as const;
// Beside the pages when run from source or when the build has copied them, else in the source of the built program.
const folders = ['../../pages/', '../../../../src/pages/'] as const;

let kept: string | null = null;

/** The pages' style sheets as one text, read once a run; throws where they are not installed. */
export function pagesStyle(): string {
  kept ??= sheets.map(readSheet).join('\n');
  return kept;
}

function readSheet(name: string): string {
  const paths = folders.map((folder) => fileURLToPath(new URL(folder + name, import.meta.url)));
  const path = paths.find((one) => existsSync(one));
  if (path === undefined)
    throw new Error(`the style sheet ${name} is not installed: looked for ${paths.join(' and ')}`);
  return readFileSync(path, 'utf8');
}

/** Writes any text as a CSS string: all but plain letters, digits and spaces as escapes, so that no text can end the string, the rule or the style element. */
export function cssString(text: string): string {
  const written = Array.from(text, (letter) =>
    /[A-Za-z0-9 ]/.test(letter) ? letter : `\\${(letter.codePointAt(0) ?? 0).toString(16)} `,
  );
  return `"${written.join('')}"`;
}

const shortened = (text: string, most: number): string => (text.length <= most ? text : `${text.slice(0, most - 1)}…`);

/** The @page rule: paper, margins, and the margin boxes that hold each page's furniture and number. */
export function pageRule({ sheet, evaluatorName, date }: DossierView, paper: 'A4' | 'Letter'): string {
  const runner = shortened([sheet.runner.name, sheet.team].filter((word) => word !== null).join(' · '), 70);
  const by = shortened(`${evaluatorName} · ${dateInWords(date)}`, 60);
  const letters = `font-family:'IBM Plex Sans';font-size:7pt;color:#59626d`;
  // The foot's rule belongs to one box over the whole width: two boxes side by side leave a gap in it.
  const foot = `${letters};box-sizing:border-box;vertical-align:top;padding-top:5pt;line-height:1.4;border-top:0.75pt solid`;
  return [
    `@page{size:${paper === 'A4' ? 'A4' : 'letter'};margin:15mm 15.3mm 21mm;`,
    `@top-left{${letters};vertical-align:bottom;padding-bottom:9pt;text-align:left;content:${cssString(runner)}}`,
    `@top-right{${letters};vertical-align:bottom;padding-bottom:9pt;text-align:right;content:${cssString(by)}}`,
    `@bottom-left{${foot} #d9dde1;width:100%;padding-right:14%;text-align:left;content:${cssString(cautionLine)}}`,
    `@bottom-right{${foot} transparent;width:12%;text-align:right;content:counter(page) " of " counter(pages)}}`,
    `@page:first{@top-left{content:none}@top-right{content:none}}`,
  ].join('\n');
}
