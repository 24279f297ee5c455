import { useEffect, useState } from 'react';
import type { CallOutput } from '../../contract/calls.ts';
import type { BoardResults, BoardView } from '../../contract/comparison-views.ts';
import { call } from '../link/call.ts';
import { listen } from '../link/events.ts';
import { attempt } from '../link/place.ts';

export type BoardReading = {
  readonly view: BoardView | null;
  readonly results: ReadonlyMap<string, BoardResults> | null;
  readonly next: CallOutput<'board.watchNext'> | null;
};

const nothing: BoardReading = { view: null, results: null, next: null };

/** Reads the class, then its results and what to watch next, each shown as it comes; reads again after a change. */
export function useBoardView(evaluatorId: string | null): BoardReading {
  const [reading, setReading] = useState(nothing);
  useEffect(() => {
    let gone = false;
    let again: ReturnType<typeof setTimeout> | null = null;
    const show = (part: Partial<BoardReading>): void => {
      if (!gone) setReading((before) => ({ ...before, ...part }));
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
  }, [evaluatorId]);
  return reading;
}
