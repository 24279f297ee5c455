import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { applicationId } from '../../src/host/study/open.ts';
import { newestVersion } from '../../src/host/study/migrations/all.ts';
import { sqlName, ties } from '../../src/host/study/tables.ts';
import { madeStudy } from '../host/small-study.ts';

const text = readFileSync(new URL('../../docs/study-format.md', import.meta.url), 'utf8');

/** The documented columns by table: what a heading names, and the first words of its table's lines with their meaning. */
const documented = new Map(
  text
    .split(/^### /m)
    .slice(1)
    .map((section) => {
      const [table = ''] = section.split('\n');
      const columns = [...section.matchAll(/^\| `([a-z_0-9]+)` \|(.*)\|$/gm)].map(
        ([, column = '', meaning = '']) => [column, meaning] as const,
      );
      return [table.trim(), new Map(columns)] as const;
    }),
);

test('every table and column of a study stands in docs/study-format.md, in order, and no other', () => {
  const { database } = madeStudy([]);
  const tables = database
    .prepare(`SELECT name FROM sqlite_schema WHERE type = 'table' AND name NOT LIKE 'sqlite_%'`)
    .pluck()
    .all() as string[];
  expect([...documented.keys()].toSorted()).toEqual(tables.toSorted());
  for (const table of tables) {
    const columns = (database.pragma(`table_info(${table})`) as { name: string }[]).map(({ name }) => name);
    expect([table, [...(documented.get(table)?.keys() ?? [])]]).toEqual([table, columns]);
  }
});

test('where NULL may stand is said, and only there', () => {
  const { database } = madeStudy([]);
  for (const [table, columns] of documented) {
    const info = database.pragma(`table_info(${table})`) as { name: string; notnull: number; pk: number }[];
    for (const { name, notnull, pk } of info) {
      expect([table, name, /NULL/.test(columns.get(name) ?? '')]).toEqual([table, name, notnull === 0 && pk === 0]);
    }
  }
});

test('what a row points at, and what happens when that goes, is what the study does', () => {
  const words = { remove: 'goes too', clear: 'cleared', refuse: 'held' } as const;
  for (const { child, column, parent, onRemove } of ties) {
    const meaning = documented.get(sqlName(child))?.get(sqlName(column)) ?? '';
    expect([child, column, meaning.includes(`of ${sqlName(parent)}, ${words[onRemove]}`)]).toEqual([
      child,
      column,
      true,
    ]);
  }
});

test('the application id and the version are those of the program', () => {
  expect(text).toContain(`\`0x${applicationId.toString(16)}\``);
  expect(text).toContain(`writes **${newestVersion}**`);
});
