import { useState } from 'react';
import { set } from '../../contract/changes.ts';
import { angles } from '../../contract/words.ts';
import { Button } from '../kit/button.tsx';
import { FileBrowser } from '../files/file-browser.tsx';
import { call } from '../link/call.ts';
import { makeChange } from '../link/change.ts';
import { attempt, readDirectory, say, usePlace } from '../link/place.ts';

/** The study's films: where each is, which angle it shows, and a way to find one that moved. */
export function Films() {
  const { directory, evaluatorId } = usePlace();
  const [finding, setFinding] = useState<string | null>(null);
  if (directory === null) return null;
  const find = (path: string): void => {
    const filmId = finding;
    setFinding(null);
    if (filmId === null) return;
    void attempt(async () => {
      await call('film.relink', { filmId, path, by: evaluatorId });
      // Others moved with it lie in the same folder more often than not.
      const folder = path.replace(/[^\\/]+$/, '');
      for (const other of directory.films.filter((film) => film.missing && film.id !== filmId)) {
        await call('film.relink', { filmId: other.id, path: folder + other.name, by: evaluatorId }).catch(
          () => undefined,
        );
      }
      await readDirectory();
      say('The film is found.');
    });
  };
  const turn = (filmId: string, angle: string): void => {
    const word = angles.find((each) => each === angle);
    if (word === undefined) return;
    void attempt(async () => {
      await makeChange(`Angle of a film: ${word}`, [set('film', filmId, { angle: word })]);
      await readDirectory();
    });
  };
  return (
    <section>
      <h2>Films</h2>
      {directory.films.length === 0 ? <p className="muted">No film yet; add one on the Stage.</p> : null}
      <ul className="film-rows">
        {directory.films.map((film) => (
          <li key={film.id}>
            <span>
              {film.name}
              <span className="muted">
                {' '}
                {film.missing
                  ? 'not found where it was'
                  : `${film.width} × ${film.height}, ${film.rate.toFixed(2)} frames a second`}
              </span>
            </span>
            <select
              aria-label={`Angle of ${film.name}`}
              value={film.angle}
              onChange={(event) => turn(film.id, event.target.value)}
            >
              {angles.map((angle) => (
                <option key={angle}>{angle}</option>
              ))}
            </select>
            <Button kind={film.missing ? 'chosen' : 'plain'} onClick={() => setFinding(film.id)}>
              Find a moved film
            </Button>
          </li>
        ))}
      </ul>
      <FileBrowser
        want="film"
        title="Where is the film now?"
        open={finding !== null}
        onClose={() => setFinding(null)}
        onChoose={find}
      />
    </section>
  );
}
