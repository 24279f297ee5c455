import { useEffect, useState } from 'react';
import type { JournalEntry } from '../../contract/changes.ts';
import { Dialog } from '../kit/dialog.tsx';
import { call } from '../link/call.ts';
import { attempt, usePlace } from '../link/place.ts';
import { chosenNow, useStage } from './stage-store.ts';

const words = (value: unknown): string => {
  if (value === null || value === undefined) return 'nothing';
  return typeof value === 'string' ? value : JSON.stringify(value);
};

/** Everything that was ever done to the chosen carry: its play, its part and its marks, newest first, with what was there before. */
export function History({ open, onClose }: { open: boolean; onClose: () => void }) {
  const evaluators = usePlace((place) => place.directory?.evaluators ?? []);
  const [entries, setEntries] = useState<readonly JournalEntry[] | null>(null);
  useEffect(() => {
    if (!open) return;
    setEntries(null);
    const { play, part } = chosenNow();
    const marks = useStage.getState().game?.marks.filter((mark) => mark.partId === part?.id) ?? [];
    const asked: readonly (readonly [string, string])[] = [
      ...(play === null ? [] : [['play', play.id] as const]),
      ...(part === null ? [] : [['part', part.id] as const]),
      ...marks.map((mark) => ['mark', mark.id] as const),
    ];
    void attempt(async () => {
      const found = await Promise.all(asked.map(([table, id]) => call('change.history', { table, id })));
      setEntries(found.flat().toSorted((a, b) => b.position - a.position));
    });
  }, [open]);
  return (
    <Dialog title="History of this carry" open={open} onClose={onClose} wide>
      {entries === null ? (
        <p className="muted">Reading…</p>
      ) : entries.length === 0 ? (
        <p className="muted">Nothing has been changed here.</p>
      ) : (
        <ol className="history">
          {entries.map((entry) => (
            <li key={`${entry.id} ${entry.operations[0]?.id ?? ''}`}>
              <p>
                <strong>{entry.label}</strong>{' '}
                <span className="muted">
                  {evaluators.find(({ id }) => id === entry.by)?.name ?? 'the program'},{' '}
                  {new Date(entry.at).toLocaleString('en-GB', { dateStyle: 'medium', timeStyle: 'short' })}
                  {entry.undoes === null ? '' : ', taken back or done again'}
                </span>
              </p>
              {entry.operations
                .filter(({ before, after }) => before !== null && after !== null)
                .map(({ id, before, after }) => (
                  <p key={id} className="history-values">
                    {Object.keys(after ?? {}).map((column) => (
                      <span key={column}>
                        {column}: {words(before?.[column])} → {words(after?.[column])}
                      </span>
                    ))}
                  </p>
                ))}
            </li>
          ))}
        </ol>
      )}
    </Dialog>
  );
}
