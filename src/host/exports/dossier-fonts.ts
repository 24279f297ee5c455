import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';

/** One face of a bundled typeface: the letters it has as a CSS unicode-range, and its WOFF2 bytes. */
export type FontFace = {
  readonly family: string;
  readonly weight: number;
  readonly style: 'normal' | 'italic';
  readonly range: string;
  readonly woff2: Uint8Array;
};

// Only what the dossier's style uses; letters beyond plain Latin join when the text has them.
const used = [
  { family: 'IBM Plex Sans', name: 'ibm-plex-sans', weight: 400, style: 'normal' },
  { family: 'IBM Plex Sans', name: 'ibm-plex-sans', weight: 400, style: 'italic' },
  { family: 'IBM Plex Sans', name: 'ibm-plex-sans', weight: 600, style: 'normal' },
  { family: 'IBM Plex Sans Condensed', name: 'ibm-plex-sans-condensed', weight: 400, style: 'normal' },
] as const;
const subsets = ['latin', 'latin-ext', 'vietnamese', 'greek', 'cyrillic'] as const;

let kept: readonly FontFace[] | null = null;

/** Reads the faces the dossier uses from the bundled packages, once a run; throws where the packages are not installed. */
export function dossierFonts(): readonly FontFace[] {
  kept ??= readFaces();
  return kept;
}

function readFaces(): readonly FontFace[] {
  const { resolve } = createRequire(import.meta.url);
  return used.flatMap(({ family, name, weight, style }) => {
    const ranges = JSON.parse(readFileSync(resolve(`@fontsource/${name}/unicode.json`), 'utf8')) as Readonly<
      Record<string, string>
    >;
    return subsets.flatMap((subset) => {
      const range = ranges[subset];
      if (range === undefined) return [];
      const woff2 = readFileSync(resolve(`@fontsource/${name}/files/${name}-${subset}-${weight}-${style}.woff2`));
      return [{ family, weight, style, range, woff2 }];
    });
  });
}

/** True when some letter of the text lies in a CSS unicode-range such as "U+0100-02BA,U+2113". */
export function rangeTouches(range: string, text: string): boolean {
  const spans = range.split(',').map((span) => {
    const [from = '', to = from] = span.trim().replace('U+', '').split('-');
    return [Number.parseInt(from, 16), Number.parseInt(to, 16)] as const;
  });
  for (const letter of new Set(text)) {
    const code = letter.codePointAt(0) ?? 0;
    if (spans.some(([from, to]) => code >= from && code <= to)) return true;
  }
  return false;
}

/** The @font-face rules with the faces inside as data, for those faces that have letters of the text; plain Latin always. */
export function fontRules(faces: readonly FontFace[], text: string): string {
  return faces
    .filter(({ range }) => range.startsWith('U+0000') || rangeTouches(range, text))
    .map(
      ({ family, weight, style, range, woff2 }) =>
        `@font-face{font-family:'${family}';font-style:${style};font-weight:${weight};` +
        `src:url(data:font/woff2;base64,${Buffer.from(woff2).toString('base64')}) format('woff2');unicode-range:${range}}`,
    )
    .join('\n');
}
