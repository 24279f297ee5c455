import { faultOf, FaultError } from '../../contract/faults.ts';
import type { Row, TableName } from '../../contract/rows.ts';
import type { RowStore } from './row-store.ts';

function refuse(says: string, next: string): never {
  throw new FaultError(faultOf('refused', says, next));
}

function checkSpan(store: RowStore, span: Row<'span'>): void {
  const film = store.get('film', span.filmId);
  if (film !== undefined && span.outFrame >= film.frames) {
    refuse(
      `This film ends at frame ${film.frames - 1}; the span would end at ${span.outFrame}.`,
      'Set the out point inside the film.',
    );
  }
  const other = store
    .where('span', 'filmId', span.filmId)
    .find(
      (rival) =>
        rival.id !== span.id &&
        rival.playId !== span.playId &&
        rival.inFrame <= span.outFrame &&
        span.inFrame <= rival.outFrame,
    );
  if (other !== undefined) {
    refuse(
      `Frames ${span.inFrame} to ${span.outFrame} overlap another play's span, ${other.inFrame} to ${other.outFrame}.`,
      'Move the in or out point, or attach the span to that play.',
    );
  }
  checkStandsOn(store, span);
}

/** What stands on a span at a frame must stay on it when the span is trimmed. */
function checkStandsOn(store: RowStore, span: Row<'span'>): void {
  const outside = (['moment', 'step', 'decision'] as const).flatMap((table) =>
    store
      .where(table, 'spanId', span.id)
      .filter(({ frame }) => frame < span.inFrame || frame > span.outFrame)
      .map(({ frame }) => ({ table, frame })),
  );
  const [first] = outside;
  if (first === undefined) return;
  const more = outside.length > 1 ? ` and ${outside.length - 1} more` : '';
  refuse(
    `A ${first.table} at frame ${first.frame}${more} would lie outside the span, frames ${span.inFrame} to ${span.outFrame}.`,
    'Move or remove it first, or keep the span wider.',
  );
}

function checkPart(store: RowStore, part: Row<'part'>): void {
  if (part.kind !== 'run') return;
  const other = store
    .where('part', 'playId', part.playId)
    .find((rival) => rival.id !== part.id && rival.kind === 'run');
  if (other === undefined) return;
  const name = store.get('runner', other.runnerId)?.name ?? 'another runner';
  refuse(
    `This play already has a carry, by ${name}; a play has one carry.`,
    'Log the second runner as a fake, a route, a target or protection.',
  );
}

function checkWithinSpan(store: RowStore, row: Row<'moment'> | Row<'step'> | Row<'decision'>, what: string): void {
  const span = store.get('span', row.spanId);
  if (span !== undefined && (row.frame < span.inFrame || row.frame > span.outFrame)) {
    refuse(
      `A ${what} lies inside its span, frames ${span.inFrame} to ${span.outFrame}; got frame ${row.frame}.`,
      'Move it, or widen the span.',
    );
  }
}

function checkMark(store: RowStore, mark: Row<'mark'>): void {
  const version = store.get('rubricVersion', mark.rubricVersionId);
  const traits = version?.body.families.flatMap((family) => family.traits.map((trait) => trait.key)) ?? [];
  if (version !== undefined && !traits.includes(mark.trait)) {
    refuse(`The rubric has no trait "${mark.trait}"; it has ${traits.join(', ')}.`, 'Choose one of its traits.');
  }
}

const checks: { readonly [Name in TableName]?: (store: RowStore, row: Row<Name>) => void } = {
  span: checkSpan,
  part: checkPart,
  moment: (store, row) => checkWithinSpan(store, row, 'moment'),
  step: (store, row) => checkWithinSpan(store, row, 'step'),
  decision: (store, row) => checkWithinSpan(store, row, 'decision'),
  mark: checkMark,
};

/** Holds a row to the rows beside it (one carry a play, spans apart, moments inside their span); throws a FaultError. */
export function checkAmongOthers(store: RowStore, table: TableName, id: string): void {
  const row = store.get(table, id);
  if (row !== undefined) checks[table]?.(store, row as never);
}
