import { memo } from 'react';
import type { CallOutput } from '../../contract/calls.ts';
import { go } from '../link/place.ts';

/** The unmarked carries that would move the order most; each opens on the Stage. */
export const WatchNext = memo(function WatchNext({
  next,
  nameOf,
}: {
  readonly next: CallOutput<'board.watchNext'> | null;
  readonly nameOf: (runnerId: string) => string;
}) {
  return (
    <section className="figure watch-next">
      <h2>Watch next</h2>
      {next === null ? (
        <p className="muted">Working out which carries would tell most…</p>
      ) : !next.known ? (
        <p className="muted">{next.detail}</p>
      ) : (
        <>
          <p className="muted figure-note">
            Unmarked carries whose marking is expected to change the order most, at the rubric’s own weights; at most
            two games of one runner.
          </p>
          <ol className="watch-list">
            {next.value.map((row) => (
              <li key={`${row.runnerId} ${row.gameId} ${row.swaps}`}>
                <button
                  type="button"
                  onClick={() =>
                    go({
                      room: 'stage',
                      runnerId: row.runnerId,
                      gameId: row.gameId,
                      playId: row.playId,
                      showing: { spanId: row.spanId, frame: null },
                    })
                  }
                >
                  <strong>{nameOf(row.runnerId)}</strong>
                  <span>{row.game}</span>
                  <span className="muted">
                    {row.carries === 1 ? '1 carry' : `${row.carries} carries, the first`}: {row.situation}
                  </span>
                  <span className="watch-why">
                    {row.carries === 1 ? 'would move' : 'each would move'} his grade about {row.movement.toFixed(2)} and{' '}
                    {row.swaps.toFixed(2)} places
                  </span>
                </button>
              </li>
            ))}
          </ol>
        </>
      )}
    </section>
  );
});
