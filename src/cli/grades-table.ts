import type { SheetView } from '../contract/views.ts';

type Grade = SheetView['overall'] | SheetView['families'][number]['traits'][number]['grade'];

const columns = ['', 'Grade', 'From', 'To', 'Carries', 'Games'] as const;

function lineOf(name: string, grade: Grade): readonly string[] {
  if (!grade.known) return [name, grade.detail];
  const { grade: value, low, high, carries, games, thin } = grade.value;
  const figures = [value, low, high].map((figure) => figure.toFixed(2));
  return [name, ...figures, String(carries), String(games), ...(thin ? ['thin'] : [])];
}

function aligned(lines: readonly (readonly string[])[]): string[] {
  const widths = columns.map((title, at) =>
    Math.max(title.length, ...lines.filter(({ length }) => length > 2).map((line) => (line[at] ?? '').length)),
  );
  widths[0] = Math.max(...lines.map(([name = '']) => name.length));
  return lines.map((line) =>
    line
      .map((word, at) =>
        at === 0 ? word.padEnd(widths[0] ?? 0) : line.length > 2 ? word.padStart(widths[at] ?? 0) : word,
      )
      .join('  ')
      .trimEnd(),
  );
}

function one(sheet: SheetView): string {
  const team = sheet.team === null ? '' : `, ${sheet.team}`;
  const { success, delta } = sheet;
  const lines = [
    columns,
    lineOf('All', sheet.overall),
    ...sheet.families.flatMap(({ name, grade, traits }) => [
      lineOf(`  ${name}`, grade),
      ...traits.map((trait) => lineOf(`    ${trait.name}`, trait.grade)),
    ]),
  ];
  const results = [
    success.known
      ? `Success ${success.value.hits} of ${success.value.n} (${(success.value.rate * 100).toFixed(0)} %, 95 % interval ${(success.value.low * 100).toFixed(0)} to ${(success.value.high * 100).toFixed(0)})`
      : success.detail,
    delta.known
      ? `Gain over expected ${delta.value.mean.toFixed(2)} yards a carry, shrunk ${delta.value.shrunk.toFixed(2)}, of ${delta.value.n}; the line's work is in it`
      : delta.detail,
  ];
  return [
    `${sheet.runner.name}${team}: ${sheet.carries.length} carries`,
    ...aligned(lines),
    ...results,
    ...sheet.thin,
  ].join('\n');
}

/** The sheets' grades as plain text, a block a runner, figures to two decimals; says so when there is no runner. */
export function gradesTable(sheets: readonly SheetView[]): string {
  return sheets.length === 0 ? 'This study has no runner yet.\n' : `${sheets.map(one).join('\n\n')}\n`;
}
