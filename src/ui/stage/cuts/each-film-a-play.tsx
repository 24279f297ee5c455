import { useState } from 'react';
import { pickWithSystem } from '../../files/choose-file.ts';
import { FileBrowser } from '../../files/file-browser.tsx';
import { Button } from '../../kit/button.tsx';
import { Dialog } from '../../kit/dialog.tsx';
import { Field } from '../../kit/field.tsx';
import { call } from '../../link/call.ts';
import { attempt, say, usePlace } from '../../link/place.ts';
import { useStage } from '../stage-store.ts';
import { inNameOrder, makeFilmPlays, type OnePlayFilm } from './film-plays.ts';

const nameOf = (path: string): string => path.split(/[\\/]/).at(-1) ?? path;

/** Several films of one play each: every chosen one becomes a play with one span, in the order of their names. */
export function EachFilmAPlay({ open, onClose }: { open: boolean; onClose: () => void }) {
  const directory = usePlace((place) => place.directory);
  const chosenRunner = usePlace((place) => place.runnerId);
  const spans = useStage((stage) => stage.game?.spans);
  const [found, setFound] = useState<readonly OnePlayFilm[]>([]);
  const [left, setLeft] = useState<ReadonlySet<string>>(new Set());
  const [runner, setRunner] = useState<string | null | undefined>(undefined);
  const [browsing, setBrowsing] = useState(false);
  const [work, setWork] = useState<{
    readonly done: number;
    readonly of: number;
    readonly stop: AbortController;
  } | null>(null);
  const uncut = (directory?.films ?? []).filter(({ id }) => spans?.some(({ filmId }) => filmId === id) !== true);
  const known = new Map(directory?.films.map((film) => [film.path, film.id]));
  const films = inNameOrder([
    ...uncut.map(({ id, name, path }) => ({ name, path, filmId: id })),
    ...found.map((film) => ({ ...film, filmId: known.get(film.path) ?? null })),
  ]).filter(({ filmId }) => filmId === null || uncut.some(({ id }) => id === filmId));
  const chosen = films.filter(({ path }) => !left.has(path));
  const runnerId = runner === undefined ? chosenRunner : runner;
  const take = (paths: readonly string[]): void => {
    setBrowsing(false);
    setFound((before) => [...before, ...paths.map((path) => ({ name: nameOf(path), path, filmId: null }))]);
  };
  const askForFolder = (): void => {
    void attempt(async () => {
      const picked = await pickWithSystem('film');
      if (picked === null) setBrowsing(true);
      else take(picked);
    });
  };
  const make = (): void => {
    const stop = new AbortController();
    setWork({ done: 0, of: chosen.length, stop });
    void makeFilmPlays(
      chosen,
      runnerId,
      (done) => setWork((now) => (now === null ? null : { ...now, done })),
      stop.signal,
    ).then((made) => {
      setWork(null);
      setFound([]);
      say(`${made} of ${chosen.length} films made plays.`);
      if (made > 0) onClose();
    });
  };
  const close = (): void => {
    work?.stop.abort();
    onClose();
  };
  return (
    <>
      <Dialog title="Each film is one play" open={open && !browsing} onClose={close}>
        <p className="muted">
          Every film chosen becomes one play with one span over its whole length, after the game’s last play, in the
          order of their names.
        </p>
        <div className="row">
          <Button disabled={work !== null} onClick={askForFolder}>
            Choose a folder of films
          </Button>
        </div>
        {films.length === 0 ? (
          <p>No film without a play in this game. Choose a folder.</p>
        ) : (
          <ol className="film-plays" aria-label="Films">
            {films.map(({ path, name, filmId }) => (
              <li key={path}>
                <label>
                  <input
                    type="checkbox"
                    disabled={work !== null}
                    checked={!left.has(path)}
                    onChange={(event) => {
                      const next = new Set(left);
                      if (event.target.checked) next.delete(path);
                      else next.add(path);
                      setLeft(next);
                    }}
                  />
                  {name}
                  <span className="muted">{filmId === null ? 'new to this study' : ''}</span>
                </label>
              </li>
            ))}
          </ol>
        )}
        <Field
          label="Each play is a carry of"
          render={({ id }) => (
            <select
              id={id}
              value={runnerId ?? ''}
              onChange={(event) => setRunner(event.target.value === '' ? null : event.target.value)}
            >
              {directory?.runners.map((each) => (
                <option key={each.id} value={each.id}>
                  {each.name}
                </option>
              ))}
              <option value="">nobody yet</option>
            </select>
          )}
        />
        {work === null ? (
          <div className="row">
            <Button kind="chosen" disabled={chosen.length === 0} onClick={make}>
              Make {chosen.length === 1 ? 'one play' : `${chosen.length} plays`}
            </Button>
          </div>
        ) : (
          <div className="row">
            <progress max={work.of} value={work.done} aria-label="Films made plays" />
            <span>
              {work.done} of {work.of}
            </span>
            <Button onClick={() => work.stop.abort()}>Stop</Button>
          </div>
        )}
      </Dialog>
      <FileBrowser
        want="folder"
        title="Choose a folder of films"
        open={open && browsing}
        onClose={() => setBrowsing(false)}
        onChoose={(folder) => {
          void attempt(async () => {
            const { entries } = await call('files.browse', { folder, want: 'film' });
            const paths = entries.filter((entry) => !entry.folder).map(({ path }) => path);
            if (paths.length === 0) say('No film lies in that folder.');
            take(paths);
          });
        }}
      />
    </>
  );
}
