import { useState } from 'react';
import { add, remove, set } from '../../contract/changes.ts';
import { makeChange, newId } from '../link/change.ts';
import { attempt, readDirectory, usePlace } from '../link/place.ts';

type Column = 'attempts' | 'yards' | 'snaps';
const columns: readonly Column[] = ['attempts', 'yards', 'snaps'];

/** What each game's official book says of each runner, beside what is logged. */
export function OfficialLines() {
  const directory = usePlace((place) => place.directory);
  const [gameId, setGameId] = useState<string | null>(null);
  if (directory === null || directory.games.length === 0) return null;
  const game = directory.games.find(({ id }) => id === gameId) ?? directory.games[0];
  if (game === undefined) return null;
  const keep = (runnerId: string, column: Column, text: string): void => {
    const standing = directory.officialLines.find((line) => line.gameId === game.id && line.runnerId === runnerId);
    const value = /^-?\d+$/.test(text.trim()) ? Number(text) : null;
    if (standing === undefined && (column !== 'attempts' || value === null)) return;
    void attempt(async () => {
      if (standing === undefined) {
        await makeChange('Official line', [
          add('officialLine', { id: newId(), gameId: game.id, runnerId, attempts: value ?? 0 }),
        ]);
      } else if (column === 'attempts' && value === null) {
        await makeChange('Remove an official line', [remove('officialLine', standing.id)]);
      } else {
        await makeChange('Official line', [set('officialLine', standing.id, { [column]: value })]);
      }
      await readDirectory();
    });
  };
  return (
    <section>
      <h2>Official lines</h2>
      <p className="muted">
        From the game’s book. Attempts first; a log under 90 % of them is said to be selective on the sheet.
      </p>
      <select aria-label="Game" value={game.id} onChange={(event) => setGameId(event.target.value)}>
        {directory.games.map((each) => (
          <option key={each.id} value={each.id}>
            {each.label}
          </option>
        ))}
      </select>
      <table className="lines">
        <thead>
          <tr>
            <th scope="col">Runner</th>
            {columns.map((column) => (
              <th key={column} scope="col">
                {column}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {directory.runners.slice(0, 200).map((runner) => {
            const line = directory.officialLines.find((each) => each.gameId === game.id && each.runnerId === runner.id);
            return (
              <tr key={runner.id}>
                <th scope="row">{runner.name}</th>
                {columns.map((column) => (
                  <td key={column}>
                    <input
                      className="weight"
                      inputMode="numeric"
                      aria-label={`${column} of ${runner.name}`}
                      key={`${line?.id ?? 'none'} ${line?.[column] ?? ''}`}
                      defaultValue={line?.[column] ?? ''}
                      onBlur={(event) => {
                        if (event.target.value !== String(line?.[column] ?? ''))
                          keep(runner.id, column, event.target.value);
                      }}
                    />
                  </td>
                ))}
              </tr>
            );
          })}
        </tbody>
      </table>
    </section>
  );
}
