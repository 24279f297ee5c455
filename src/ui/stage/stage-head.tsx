import { Button } from '../kit/button.tsx';
import { go, usePlace } from '../link/place.ts';
import { chosenOf, useStage } from './stage-store.ts';

/** The line over the strip: which game and runner, how much of him is logged, the filter, and what can be added. */
export function StageHead({ onAddFilm, onAddGame }: { onAddFilm: () => void; onAddGame: () => void }) {
  const { directory, gameId, playId, runnerId } = usePlace();
  const { game, filter, spanId, filmId } = useStage();
  const { part } = chosenOf(game, playId, spanId);
  const runner = directory?.runners.find(({ id }) => id === (part?.runnerId ?? runnerId));
  const official = directory?.officialLines.find((line) => line.gameId === gameId && line.runnerId === runner?.id);
  const logged = game?.parts.filter((each) => each.runnerId === runner?.id && each.kind === 'run').length ?? 0;
  return (
    <header className="stage-head">
      <h1 className="unseen">Stage</h1>
      <label>
        <span className="unseen">Game</span>
        <select
          className="head-game"
          value={gameId ?? ''}
          onChange={(event) => go({ gameId: event.target.value, playId: null })}
        >
          {gameId === null ? <option value="">No game</option> : null}
          {directory?.games.map((each) => (
            <option key={each.id} value={each.id}>
              {each.label}
            </option>
          ))}
        </select>
      </label>
      {runner === undefined ? null : (
        <p>
          {runner.name}
          {runner.jersey === null ? '' : `, ${runner.jersey}`}
          <span className="muted">
            {' '}
            logged {logged}
            {official === undefined ? ', no official line' : ` of ${official.attempts} carries`}
          </span>
        </p>
      )}
      <span className="spring" />
      <label>
        <span className="unseen">Film shown</span>
        <select
          value={filmId ?? ''}
          onChange={(event) => {
            useStage.setState({ filmId: event.target.value, frame: 0, spanId: null, playing: false });
            go({ playId: null });
          }}
        >
          {filmId === null ? <option value="">No film</option> : null}
          {directory?.films.map((film) => (
            <option key={film.id} value={film.id}>
              {film.name}
              {film.missing ? ' (not found)' : ''}
            </option>
          ))}
        </select>
      </label>
      <label>
        <span className="unseen">Filter plays</span>
        <input
          type="search"
          className="head-filter"
          placeholder="Filter: power, box >= 8"
          value={filter}
          onChange={(event) => useStage.setState({ filter: event.target.value })}
        />
      </label>
      <Button kind="quiet" onClick={onAddFilm}>
        Add a film
      </Button>
      <Button kind="quiet" onClick={onAddGame}>
        Add a game
      </Button>
      <kbd className="head-find">Ctrl K</kbd>
    </header>
  );
}
