/** From a change's steps to operations on rows: parsed, held to the rules, applied; the caller holds the transaction. */
import { isDeepStrictEqual } from 'node:util';
import { faultOf, FaultError } from '../../contract/faults.ts';
import type { ChangeStep, Operation } from '../../contract/changes.ts';
import { rows, type Row, type TableName } from '../../contract/rows.ts';
import { problemsOf } from '../../contract/rules.ts';
import { badInput } from '../bad-input.ts';
import { checkAmongOthers } from './among-others.ts';
import type { RowStore } from './row-store.ts';
import { columnsOf, ties } from './tables.ts';

type Values = Record<string, unknown>;

function refuseImpossible(table: TableName, row: Row<TableName>): void {
  const worst = problemsOf(table, row).find((problem) => problem.weight === 'impossible');
  if (worst !== undefined)
    throw new FaultError(faultOf('bad-input', worst.says, 'Correct the figure; nothing was changed.'));
}

/** SQLite keeps UTF-8, which has no half of a surrogate pair; kept as it came, the row would differ from its journal. */
function wellFormed<Shape extends object>(row: Shape): Shape {
  for (const [column, value] of Object.entries(row)) {
    if (typeof value === 'string' && !value.isWellFormed()) Object.assign(row, { [column]: value.toWellFormed() });
  }
  return row;
}

function parsed(table: TableName, row: unknown): Row<TableName> {
  const result = rows[table].safeParse(row);
  if (!result.success) throw new FaultError(badInput(`a ${table}`, result.error, row));
  refuseImpossible(table, result.data);
  return wellFormed(result.data);
}

function missing(table: TableName, id: string): FaultError {
  return new FaultError(
    faultOf(
      'not-found',
      `There is no ${table} ${id} in this study.`,
      'It may have been removed since; read the study again.',
    ),
  );
}

function removeWithDependents(store: RowStore, table: TableName, id: string, done: Operation[]): void {
  const row = store.get(table, id);
  if (row === undefined) throw missing(table, id);
  for (const { child, column, onRemove } of ties.filter(({ parent }) => parent === table)) {
    const dependents = store.where(child, column, id);
    if (dependents.length === 0) continue;
    switch (onRemove) {
      case 'refuse':
        throw new FaultError(
          faultOf(
            'refused',
            `This ${table} is still used by ${dependents.length} ${child} row(s).`,
            `Remove or change those first.`,
          ),
        );
      case 'remove':
        for (const dependent of dependents) removeWithDependents(store, child, dependent.id, done);
        break;
      case 'clear':
        for (const dependent of dependents) {
          store.update(child, dependent.id, { [column]: null });
          done.push({ table: child, id: dependent.id, before: { [column]: id }, after: { [column]: null } });
        }
        break;
    }
  }
  store.delete(table, id);
  done.push({ table, id, before: { ...row }, after: null });
}

/** Applies steps in order and tells what they did to each row, with what was there before. Throws a FaultError on bad input. */
export function applySteps(store: RowStore, steps: readonly ChangeStep[]): Operation[] {
  const done: Operation[] = [];
  const touched: { table: TableName; id: string }[] = [];
  for (const step of steps) {
    switch (step.do) {
      case 'add': {
        const row = parsed(step.table, step.row);
        store.insert(step.table, row);
        done.push({ table: step.table, id: row.id, before: null, after: { ...row } });
        touched.push({ table: step.table, id: row.id });
        break;
      }
      case 'set': {
        const current = store.get(step.table, step.id);
        if (current === undefined) throw missing(step.table, step.id);
        const next: Values = parsed(step.table, { ...current, ...step.set, id: step.id });
        const now: Values = { ...current };
        const columns = columnsOf(step.table).filter((column) => !isDeepStrictEqual(now[column], next[column]));
        if (columns.length === 0) break;
        const pick = (from: Values): Values => Object.fromEntries(columns.map((column) => [column, from[column]]));
        store.update(step.table, step.id, pick(next));
        done.push({ table: step.table, id: step.id, before: pick(now), after: pick(next) });
        touched.push({ table: step.table, id: step.id });
        break;
      }
      case 'remove':
        removeWithDependents(store, step.table, step.id, done);
        break;
    }
  }
  for (const { table, id } of touched) checkAmongOthers(store, table, id);
  return done;
}

/** The operations that take operations back, last first. */
export function inverse(operations: readonly Operation[]): Operation[] {
  return operations.toReversed().map(({ table, id, before, after }) => ({ table, id, before: after, after: before }));
}

/** Applies recorded operations as they stand; throws a FaultError where a row no longer is what `before` says, or no longer fits. */
export function applyOperations(store: RowStore, operations: readonly Operation[]): void {
  for (const { table, id, before, after } of operations) {
    const current: Values | undefined = store.get(table, id);
    const agrees =
      before === null
        ? current === undefined
        : current !== undefined &&
          Object.keys(before).every((column) => isDeepStrictEqual(current[column], before[column]));
    if (!agrees) {
      throw new FaultError(
        faultOf(
          'undo-later-change',
          `A later change touched the same ${table}, so this step can't be taken back alone.`,
          'Undo the later change first, or set the value by hand.',
        ),
      );
    }
    if (after === null) store.delete(table, id);
    else if (before === null) store.insert(table, after);
    else store.update(table, id, after);
  }
  // Others may have built on what was taken away meanwhile: what comes back must fit beside their rows.
  for (const { table, id, after } of operations) if (after !== null) checkAmongOthers(store, table, id);
}
