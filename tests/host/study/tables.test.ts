import { describe, expect, test } from 'vitest';
import { rows, type TableName } from '../../../src/contract/rows.ts';
import { columnsOf, fromSql, sqlName, ties, toSql } from '../../../src/host/study/tables.ts';
import { madeStudy, uid } from '../small-study.ts';

const tables = Object.keys(rows) as TableName[];

type Column = { readonly name: string; readonly type: string; readonly notnull: 0 | 1; readonly pk: number };
type Key = { readonly from: string; readonly table: string };

describe('the tables of a study', () => {
  test.each(tables)('%s has every column of the contract and no other', (table) => {
    const stored = madeStudy([]).database.pragma(`table_info(${sqlName(table)})`) as Column[];
    expect(stored.map(({ name }) => name)).toEqual(columnsOf(table).map(sqlName));
  });

  test.each(tables)('%s lets null in where the contract does, and nowhere else', (table) => {
    const stored = madeStudy([]).database.pragma(`table_info(${sqlName(table)})`) as Column[];
    // A setting may be null as JSON, which is a text and not SQL's null.
    const nullable = Object.entries(rows[table].shape)
      .filter(([, shape]) => shape.safeParse(null).success && sqlName(table) !== 'setting')
      .map(([column]) => sqlName(column));
    expect(stored.filter(({ notnull, pk }) => notnull === 0 && pk === 0).map(({ name }) => name)).toEqual(nullable);
  });

  test('are strict, every one', () => {
    const listed = madeStudy([]).database.pragma('table_list') as { name: string; strict: number; schema: string }[];
    const own = listed.filter(({ name, schema }) => schema === 'main' && !name.startsWith('sqlite_'));
    expect(own.filter(({ strict }) => strict !== 1)).toEqual([]);
    expect(own.length).toBeGreaterThan(tables.length);
  });

  test('point at each other exactly as the ties say', () => {
    const { database } = madeStudy([]);
    const keys = tables.flatMap((table) =>
      (database.pragma(`foreign_key_list(${sqlName(table)})`) as Key[]).map(
        ({ from, table: parent }) => `${sqlName(table)}.${from} -> ${parent}`,
      ),
    );
    const said = ties.map(({ child, column, parent }) => `${sqlName(child)}.${sqlName(column)} -> ${sqlName(parent)}`);
    expect(keys.toSorted()).toEqual(said.toSorted());
  });

  test('take a row in and give the same row back', () => {
    const study = madeStudy();
    for (const table of tables) {
      for (const row of study.rows.all(table)) {
        expect(rows[table].parse(row)).toEqual(row);
        const stored = Object.fromEntries(
          columnsOf(table).map((column) => [column, toSql(table, column, row[column as keyof typeof row])]),
        );
        expect(fromSql(table, stored)).toEqual(row);
      }
    }
  });

  test('keep booleans, lists, objects and null apart', () => {
    expect(toSql('part', 'counts', true)).toBe(1);
    expect(toSql('play', 'giveIsChoice', null)).toBeNull();
    expect(toSql('setting', 'value', null)).toBe('null');
    expect(fromSql('setting', { id: 'a', value: 'null' })).toEqual({ id: 'a', value: null });
    expect(fromSql('play', { giveIsChoice: 0 })).toEqual({ giveIsChoice: false });
    expect(fromSql('lane', { path: '[[1,2]]', taken: 1 })).toEqual({ path: [[1, 2]], taken: true });
    expect(() => toSql('team', 'name', { id: uid(1) })).toThrow("team.name can't keep a object");
  });
});
