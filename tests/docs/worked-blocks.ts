import { readFileSync } from 'node:fs';

/**
 * A worked example of docs/method.md: a fenced block whose info string is `worked <id>` and whose lines read
 * `words = number`. The figure is checked to the decimals it is printed with.
 */
export type WorkedBlock = {
  readonly id: string;
  /** Number of the section it stands in. */
  readonly section: number;
  readonly figures: ReadonlyMap<string, string>;
};

/** All worked blocks of docs/method.md, in order; throws on a line that is not `words = number` and on a repeated id. */
export function workedBlocks(): readonly WorkedBlock[] {
  const lines = readFileSync(new URL('../../docs/method.md', import.meta.url), 'utf8').split('\n');
  const blocks: WorkedBlock[] = [];
  let section = 0;
  let open: { id: string; figures: Map<string, string> } | null = null;
  for (const line of lines) {
    const heading = /^## (\d+) /.exec(line);
    if (heading !== null && open === null) section = Number(heading[1]);
    const fence = /^```(?:worked (\S+))?/.exec(line);
    if (open !== null && fence !== null) {
      if (blocks.some(({ id }) => id === open?.id)) throw new Error(`worked block ${open.id} appears twice`);
      blocks.push({ id: open.id, section, figures: open.figures });
      open = null;
    } else if (fence?.[1] !== undefined) open = { id: fence[1], figures: new Map() };
    else if (open !== null) {
      const figure = /^(.+?) = (-?\d+(?:\.\d+)?)$/.exec(line);
      if (figure === null) throw new Error(`worked block ${open.id} wants lines "words = number", got: ${line}`);
      open.figures.set(figure[1] ?? '', figure[2] ?? '');
    }
  }
  return blocks;
}

/** The figures of one example by the words they are printed with. */
export type WorkedFigures = Readonly<Record<string, number>>;

/** The block's figures as the code gives them, rounded to the decimals printed. */
export function asPrinted(block: WorkedBlock, figures: WorkedFigures): Readonly<Record<string, string>> {
  return Object.fromEntries(
    Object.entries(figures).map(([words, value]) => {
      const places = (block.figures.get(words)?.split('.')[1] ?? '').length;
      return [words, value.toFixed(places)];
    }),
  );
}
