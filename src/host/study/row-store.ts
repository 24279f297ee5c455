import type { Database, Statement } from 'better-sqlite3';
import type { Row, TableName } from '../../contract/rows.ts';
import { columnsOf, fromSql, selectList, sqlName, toSql } from './tables.ts';

type Values = Readonly<Record<string, unknown>>;

/** Reads and writes single rows of the journaled tables by their contract names; statements are prepared once. */
export type RowStore = {
  get<Name extends TableName>(table: Name, id: string): Row<Name> | undefined;
  /** Rows whose column equals a value, in SQL's own order of ids. */
  where<Name extends TableName>(table: Name, column: string, value: string): Row<Name>[];
  all<Name extends TableName>(table: Name): Row<Name>[];
  insert(table: TableName, row: Values): void;
  update(table: TableName, id: string, values: Values): void;
  delete(table: TableName, id: string): void;
};

/** Opens a row store on a database whose tables exist; SQL errors pass through as thrown. */
export function rowStore(database: Database): RowStore {
  const prepared = new Map<string, Statement>();
  const prepare = (sql: string): Statement => {
    const kept = prepared.get(sql);
    if (kept !== undefined) return kept;
    const made = database.prepare(sql);
    prepared.set(sql, made);
    return made;
  };
  const read = <Name extends TableName>(table: Name, tail: string, ...values: string[]): Row<Name>[] =>
    prepare(`SELECT ${selectList(table)} FROM ${sqlName(table)} ${tail}`)
      .all(...values)
      .map((stored) => fromSql(table, stored as Record<string, unknown>));
  return {
    get: (table, id) => read(table, 'WHERE id = ?', id)[0],
    where: (table, column, value) => read(table, `WHERE ${sqlName(column)} = ? ORDER BY id`, value),
    all: (table) => read(table, 'ORDER BY id'),
    insert(table, row) {
      const columns = columnsOf(table);
      prepare(
        `INSERT INTO ${sqlName(table)} (${columns.map(sqlName).join(', ')}) VALUES (${columns.map(() => '?').join(', ')})`,
      ).run(...columns.map((column) => toSql(table, column, row[column])));
    },
    update(table, id, values) {
      const columns = Object.keys(values);
      prepare(
        `UPDATE ${sqlName(table)} SET ${columns.map((column) => `${sqlName(column)} = ?`).join(', ')} WHERE id = ?`,
      ).run(...columns.map((column) => toSql(table, column, values[column])), id);
    },
    delete(table, id) {
      prepare(`DELETE FROM ${sqlName(table)} WHERE id = ?`).run(id);
    },
  };
}
