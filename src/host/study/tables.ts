/** How a row of the contract stands in SQLite: snake_case columns, booleans as 0 and 1, lists and objects as JSON text. */
import { rows, type Row, type TableName } from '../../contract/rows.ts';

type SqlValue = string | number | null;

const booleanColumns = new Set(['giveIsChoice', 'counts', 'comeBack', 'sealed', 'taken']);
const jsonColumns = new Set([
  'lane.path',
  'chalk.points',
  'writeup.verdict',
  'writeup.evidence',
  'rubricVersion.body',
  'setting.value',
]);

/** Names in SQL: officialLine -> official_line. */
export const sqlName = (name: string): string => name.replace(/[A-Z]/g, (letter) => `_${letter.toLowerCase()}`);

type Codec = { readonly boolean: readonly string[]; readonly json: readonly string[] };

/** A table's columns by their contract names, in order. */
export function columnsOf(table: TableName): readonly string[] {
  return Object.keys(rows[table].shape);
}

const codecs = new Map<TableName, Codec>(
  (Object.keys(rows) as TableName[]).map((table) => [
    table,
    {
      boolean: columnsOf(table).filter((column) => booleanColumns.has(column)),
      json: columnsOf(table).filter((column) => jsonColumns.has(`${table}.${column}`)),
    },
  ]),
);

function codecOf(table: TableName): Codec {
  const codec = codecs.get(table);
  if (codec === undefined) throw new Error(`no codec for table ${table}`);
  return codec;
}

/** The select list that gives a table's columns their contract names. */
export function selectList(table: TableName, alias = ''): string {
  const prefix = alias === '' ? '' : `${alias}.`;
  return columnsOf(table)
    .map((column) => `${prefix}${sqlName(column)} AS "${column}"`)
    .join(', ');
}

/** Turns a stored row into a contract row, in place. */
export function fromSql<Name extends TableName>(table: Name, stored: Record<string, unknown>): Row<Name> {
  const { boolean, json } = codecOf(table);
  for (const column of boolean) if (stored[column] !== null) stored[column] = stored[column] === 1;
  for (const column of json) {
    const value = stored[column];
    if (typeof value === 'string') stored[column] = JSON.parse(value);
  }
  return stored as Row<Name>;
}

/** Turns one contract value into what SQLite keeps. */
export function toSql(table: TableName, column: string, value: unknown): SqlValue {
  if (codecOf(table).json.includes(column)) return JSON.stringify(value);
  if (value === null || value === undefined) return null;
  if (typeof value === 'boolean') return value ? 1 : 0;
  if (typeof value === 'string' || typeof value === 'number') return value;
  throw new TypeError(`${table}.${column} can't keep a ${typeof value}`);
}

/** What happens to a row when the row it points at is removed. */
export type Tie = {
  readonly child: TableName;
  readonly column: string;
  readonly parent: TableName;
  readonly onRemove: 'remove' | 'clear' | 'refuse';
};

const tie = (child: TableName, column: string, parent: TableName, onRemove: Tie['onRemove']): Tie => ({
  child,
  column,
  parent,
  onRemove,
});

export const ties: readonly Tie[] = [
  tie('runner', 'teamId', 'team', 'refuse'),
  tie('game', 'homeTeamId', 'team', 'refuse'),
  tie('game', 'awayTeamId', 'team', 'refuse'),
  tie('play', 'offenceTeamId', 'team', 'refuse'),
  tie('officialLine', 'gameId', 'game', 'remove'),
  tie('officialLine', 'runnerId', 'runner', 'remove'),
  tie('play', 'gameId', 'game', 'remove'),
  tie('part', 'playId', 'play', 'remove'),
  tie('part', 'runnerId', 'runner', 'refuse'),
  tie('span', 'playId', 'play', 'remove'),
  tie('span', 'filmId', 'film', 'refuse'),
  tie('moment', 'spanId', 'span', 'remove'),
  tie('moment', 'partId', 'part', 'remove'),
  tie('step', 'spanId', 'span', 'remove'),
  tie('step', 'partId', 'part', 'remove'),
  tie('mark', 'partId', 'part', 'remove'),
  tie('mark', 'spanId', 'span', 'clear'),
  tie('mark', 'evaluatorId', 'evaluator', 'refuse'),
  tie('mark', 'rubricVersionId', 'rubricVersion', 'refuse'),
  tie('holding', 'partId', 'part', 'remove'),
  tie('holding', 'evaluatorId', 'evaluator', 'refuse'),
  tie('decision', 'partId', 'part', 'remove'),
  tie('decision', 'spanId', 'span', 'remove'),
  tie('decision', 'evaluatorId', 'evaluator', 'refuse'),
  tie('lane', 'decisionId', 'decision', 'remove'),
  tie('chalk', 'spanId', 'span', 'remove'),
  tie('chalk', 'evaluatorId', 'evaluator', 'refuse'),
  tie('writeup', 'runnerId', 'runner', 'remove'),
  tie('writeup', 'evaluatorId', 'evaluator', 'refuse'),
];
