import type { CarryFilm } from '../../contract/comparison-views.ts';
import { faultOf, FaultError } from '../../contract/faults.ts';
import type { Study } from '../study/study.ts';

const kinds = { live: 0, replay: 1, graphic: 2 } as const;

/** Where a carry is on film: its play's spans, live ones first, and their moments. Throws a FaultError for no such carry. */
export function readCarryFilm(study: Study, partId: string): CarryFilm {
  const part = study.rows.get('part', partId);
  if (part === undefined) {
    throw new FaultError(
      faultOf('not-found', `There is no carry ${partId} in this study.`, 'Choose a carry from the list.'),
    );
  }
  const spans = study.rows
    .where('span', 'playId', part.playId)
    .toSorted((a, b) => kinds[a.kind] - kinds[b.kind] || b.angle.localeCompare(a.angle) || a.inFrame - b.inFrame);
  return { spans, moments: spans.flatMap(({ id }) => study.rows.where('moment', 'spanId', id)) };
}
