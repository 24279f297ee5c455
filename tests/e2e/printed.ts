import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { readCode } from '../../scripts/coded-picture.ts';

const run = (tool: string, ...words: string[]): string =>
  execFileSync(tool, words, { encoding: 'utf8', stdio: ['ignore', 'pipe', 'ignore'] });

/** The words of a PDF, white space folded. */
export const wordsOf = (pdf: string): string => run('pdftotext', pdf, '-').replaceAll(/\s+/g, ' ');

/** How many images a PDF holds. */
export const imagesIn = (pdf: string): number =>
  run('pdfimages', '-list', pdf)
    .split('\n')
    .slice(2)
    .filter((line) => line.trim() !== '').length;

type Placed = { page: number; top: number; left: number; width: number; height: number };

/** Where the pictures stand on the pages, in pixels at 108 dots an inch, as pdftohtml gives them. */
function placesOf(pdf: string): Placed[] {
  const folder = mkdtempSync(join(tmpdir(), 'creasebook-printed-'));
  try {
    run('pdftohtml', '-xml', '-q', pdf, join(folder, 'out'));
    const xml = readFileSync(join(folder, 'out.xml'), 'utf8');
    return xml
      .split(/<page /)
      .slice(1)
      .flatMap((page) =>
        [...page.matchAll(/<image top="(-?\d+)" left="(-?\d+)" width="(\d+)" height="(\d+)"/g)].map((found) => ({
          page: Number(/number="(\d+)"/.exec(page)?.[1]),
          top: Number(found[1]),
          left: Number(found[2]),
          width: Number(found[3]),
          height: Number(found[4]),
        })),
      );
  } finally {
    rmSync(folder, { recursive: true });
  }
}

/** The frame numbers written in the pictures of a printed PDF, each read from the page as pdftoppm draws it. */
export function numbersPrinted(pdf: string): number[] {
  const folder = mkdtempSync(join(tmpdir(), 'creasebook-printed-'));
  try {
    return placesOf(pdf).map(({ page, top, left, width, height }, index) => {
      const file = join(folder, `picture-${index}`);
      const crop = ['-x', left * 2, '-y', top * 2, '-W', width * 2, '-H', height * 2].map(String);
      const pages = ['-f', String(page), '-l', String(page)];
      run('pdftoppm', '-r', '216', '-gray', '-singlefile', ...pages, ...crop, pdf, file);
      const bytes = readFileSync(`${file}.pgm`);
      const head = /^P5\s+(\d+)\s+(\d+)\s+255\s/.exec(bytes.subarray(0, 40).toString('latin1'));
      const size = { width: Number(head?.[1]), height: Number(head?.[2]) };
      return readCode(bytes.subarray(head?.[0].length ?? 0), size.width, size);
    });
  } finally {
    rmSync(folder, { recursive: true });
  }
}
