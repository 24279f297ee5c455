import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { resolve } from 'node:path';

const page = resolve(import.meta.dirname, '..', 'docs', 'benchmarks.md');
const intro = `# Benchmarks

Measured by the commands named; timings on a shared machine are noisy, so each baseline stands in the same run.
`;

/** Puts a table of measured rows under a heading of docs/benchmarks.md, in place of the one that stood there, and prints it. */
export function putRows(
  heading: string,
  measured: string,
  head: readonly string[],
  rows: readonly (readonly string[])[],
): void {
  const line = (cells: readonly string[]): string => `| ${cells.join(' | ')} |`;
  const date = new Date().toISOString().slice(0, 10);
  const section = [
    `## ${heading}`,
    '',
    `${date}. ${measured}`,
    '',
    line(head),
    line(head.map(() => '---')),
    ...rows.map(line),
    '',
  ].join('\n');
  console.log(section);
  const before = existsSync(page) ? readFileSync(page, 'utf8') : intro;
  const parts = before.split(/^(?=## )/m);
  const at = parts.findIndex((part) => part.startsWith(`## ${heading}\n`));
  const next = at < 0 ? [...parts, `${section}\n`] : parts.map((part, index) => (index === at ? `${section}\n` : part));
  writeFileSync(page, `${next.map((part) => part.trimEnd()).join('\n\n')}\n`);
}
