import { useEffect, useState } from 'react';
import type { CallOutput } from '../../contract/calls.ts';
import type { BoardResults, BoardView } from '../../contract/comparison-views.ts';
import { call } from '../link/call.ts';
import { listen } from '../link/events.ts';
import { attempt, usePlace } from '../link/place.ts';

export type BoardReading = {
  readonly view: BoardView | null;
  readonly results: ReadonlyMap<string, BoardResults> | null;
  readonly next: CallOutput<'board.watchNext'> | null;
};

const nothing: BoardReading = { view: null, results: null, next: null };

/** The last readings, by study and evaluator: the room is there at once when it is entered again, and then looks anew. */
const kept = new Map<string, BoardReading>();
const mostKept = 4;

/** What came is what stands already: then it stays the same object, and nothing is drawn anew. */
const same = (one: unknown, other: unknown): boolean => one === other || JSON.stringify(one) === JSON.stringify(other);

/** Reads the class, then its results and what to watch next, each shown as it comes; reads again after a change. */
export function useBoardView(evaluatorId: string | null): BoardReading {
  const study = usePlace((place) => place.directory?.study.path ?? '');
  const key = `${evaluatorId} ${study}`;
  const [held, setHeld] = useState<{ readonly key: string; readonly reading: BoardReading }>({
    key,
    reading: kept.get(key) ?? nothing,
  });
  useEffect(() => {
    let gone = false;
    let again: ReturnType<typeof setTimeout> | null = null;
    const show = (part: Partial<BoardReading>): void => {
      if (gone) return;
      const before = kept.get(key) ?? nothing;
      const came = { ...before, ...part };
      const reading = same(before.view, came.view) ? { ...came, view: before.view } : came;
      kept.delete(key);
      kept.set(key, reading);
      for (const oldest of kept.keys()) if (kept.size > mostKept) kept.delete(oldest);
      setHeld({ key, reading });
    };
    const read = async (): Promise<void> => {
      show({ view: await call('board.read', { evaluatorId }) });
      show({ results: new Map((await call('board.results', {})).map((row) => [row.runnerId, row])) });
      show({ next: await call('board.watchNext', { evaluatorId }) });
    };
    void attempt(read);
    const stop = listen((event) => {
      if (event.event !== 'changed' || event.touched.every((table) => table === 'setting')) return;
      if (again !== null) clearTimeout(again);
      again = setTimeout(() => void attempt(read), 300);
    });
    return () => {
      gone = true;
      if (again !== null) clearTimeout(again);
      stop();
    };
  }, [evaluatorId, key]);
  return held.key === key ? held.reading : (kept.get(key) ?? nothing);
}
