import { useEffect, useRef, type RefObject } from 'react';
import type { Standing } from '../../core/board/standings.ts';

/** One row: what it shows, and whether that is of the weights as they are now. */
type Row = { readonly standing: Standing; readonly now: boolean };

/** Rows kept ready above and below what is in sight. */
const margin = 3;

/**
 * The rows to draw. While a slider moves, those out of sight keep what they showed, so that a large class costs no more
 * than the rows a person can see; at rest all are of the weights as they are.
 */
export function useRowsInSight(
  table: RefObject<HTMLTableElement | null>,
  standings: readonly Standing[],
  settled: boolean,
): readonly Row[] {
  const sight = useRef({ from: 0, to: Infinity });
  const shown = useRef<ReadonlyMap<string, Standing>>(new Map());
  const count = standings.length;
  useEffect(() => {
    const body = table.current?.tBodies[0];
    if (body === undefined) return;
    const inSight = new Set<Element>();
    const observer = new IntersectionObserver((entries) => {
      for (const { target, isIntersecting } of entries) {
        if (isIntersecting) inSight.add(target);
        else inSight.delete(target);
      }
      const places = [...inSight].map((row) => (row instanceof HTMLTableRowElement ? row.sectionRowIndex : 0));
      sight.current = places.length === 0 ? { from: 0, to: 0 } : { from: Math.min(...places), to: Math.max(...places) };
    });
    for (const row of body.rows) observer.observe(row);
    return () => observer.disconnect();
  }, [table, count]);
  // oxlint-disable-next-line react/refs -- what is in sight only spares work: at rest every row is drawn anew
  const rows = standings.map((standing, at): Row => {
    const near = at >= sight.current.from - margin && at <= sight.current.to + margin;
    const before = settled || near ? undefined : shown.current.get(standing.runner);
    return before === undefined ? { standing, now: true } : { standing: before, now: false };
  });
  useEffect(() => {
    shown.current = new Map(rows.map(({ standing }) => [standing.runner, standing]));
  });
  return rows;
}
