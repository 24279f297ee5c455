/**
 * A change is the only way to write to a study: steps on rows, applied together or not at all, kept in the journal
 * with what was there before, and undone by its inverse.
 */
import { z } from 'zod';
import { rows, type Row, type TableName } from './rows.ts';
import { id, line } from './words.ts';

const tableNames = Object.keys(rows) as [TableName, ...TableName[]];
const tableName = z.enum(tableNames);
const rowId = z.string().min(1).max(60);

const addStep = z.strictObject({ do: z.literal('add'), table: tableName, row: z.record(z.string(), z.unknown()) });
const setStep = z.strictObject({
  do: z.literal('set'),
  table: tableName,
  id: rowId,
  set: z.record(z.string(), z.unknown()),
});
const removeStep = z.strictObject({ do: z.literal('remove'), table: tableName, id: rowId });

/** One step as it crosses the door; its row is parsed against its table's shape where it is applied. */
export const changeStep = z.discriminatedUnion('do', [addStep, setStep, removeStep]);
export type ChangeStep = z.infer<typeof changeStep>;

/** A change: who makes it (null: the program itself), what it is called in the undo line, and its steps. */
export const change = z.strictObject({
  by: id.nullable(),
  label: line.min(1),
  steps: z.array(changeStep).min(1).max(200_000),
});
export type Change = z.infer<typeof change>;

/** A step that adds a row. */
export function add<Name extends TableName>(table: Name, row: z.input<(typeof rows)[Name]>): ChangeStep {
  return { do: 'add', table, row };
}

/** A step that sets some columns of a row. */
export function set<Name extends TableName>(table: Name, rowId: string, values: Partial<Row<Name>>): ChangeStep {
  return { do: 'set', table, id: rowId, set: values };
}

/** A step that removes a row. */
export function remove(table: TableName, rowId: string): ChangeStep {
  return { do: 'remove', table, id: rowId };
}

/** A row's columns before and after one operation; null before: added, null after: removed. */
export const operation = z.strictObject({
  table: tableName,
  id: rowId,
  before: z.record(z.string(), z.unknown()).nullable(),
  after: z.record(z.string(), z.unknown()).nullable(),
});
export type Operation = z.infer<typeof operation>;

/** One line of the journal. `at` is milliseconds since 1970 UTC on the study's own never-falling clock. */
export const journalEntry = z.strictObject({
  id,
  position: z.int(),
  by: id.nullable(),
  at: z.int(),
  label: line,
  undoes: id.nullable(),
  operations: z.array(operation),
});
export type JournalEntry = z.infer<typeof journalEntry>;
