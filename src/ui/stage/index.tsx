import { useEffect, useRef, useState } from 'react';
import type { Film, Span } from '../../contract/rows.ts';
import { Button } from '../kit/button.tsx';
import { Empty } from '../kit/empty.tsx';
import { useActions } from '../kit/actions.ts';
import { droppedPaths, pickWithSystem } from '../files/choose-file.ts';
import { FileBrowser } from '../files/file-browser.tsx';
import { call } from '../link/call.ts';
import { isOwnChange } from '../link/change.ts';
import { listen } from '../link/events.ts';
import { attempt, go, readDirectory, say, usePlace } from '../link/place.ts';
import { actionsOver } from './actions-over.ts';
import { chalkActions } from './chalk/chalk-actions.ts';
import { useChalk } from './chalk/chalk-store.ts';
import { cutActions } from './cuts/cut-actions.ts';
import { CutReview } from './cuts/cut-review.tsx';
import { useCuts } from './cuts/cuts-store.ts';
import { EachFilmAPlay } from './cuts/each-film-a-play.tsx';
import { FieldStrip } from './field-strip.tsx';
import { alignedFrame } from './align.ts';
import { FilmBeside, FilmView } from './film-view.tsx';
import { History } from './history.tsx';
import { Ledger } from './ledger/ledger.tsx';
import { useLedger } from './ledger/ledger-store.ts';
import { guardSeal } from './ledger/seal.ts';
import { useLedgerKeys } from './ledger/use-ledger-keys.ts';
import { MarksLine } from './marks-line.tsx';
import { NewGame } from './new-game.tsx';
import { Rail } from './rail.tsx';
import { Sentence } from './sentence.tsx';
import { Spans } from './spans.tsx';
import { stageActions } from './stage-actions.ts';
import { changeUnderWay, chosenOf, readGame, spansOf, useStage } from './stage-store.ts';
import { StageHead } from './stage-head.tsx';
import { useMarkKeys } from './use-mark-keys.ts';
import './stage.css';
import './chalk/chalk.css';
import './cuts/cuts.css';
import './ledger/ledger.css';

const withChalk = actionsOver(stageActions, chalkActions);
const withCuts = actionsOver(stageActions, cutActions);
const whileLooking = actionsOver(
  stageActions,
  cutActions.filter(({ keys = [] }) => keys.includes('Escape')),
);

/** The film and the work on it: field strip, film, rail and play sentence, each across the full width. */
export function Stage() {
  const { gameId, playId, directory } = usePlace();
  const { game, spanId, filmId, paired, frame, tables, history } = useStage();
  const [adding, setAdding] = useState<'film' | 'game' | 'film plays' | null>(null);
  const [dropping, setDropping] = useState(false);
  const askRef = useRef((): void => undefined);
  const chalk = useChalk((state) => state.open);
  const cutting = useCuts(({ filmId: film, done }) => (film === null ? null : done === null ? 'review' : 'look'));
  useActions(chalk ? withChalk : cutting === 'review' ? withCuts : cutting === 'look' ? whileLooking : stageActions);
  useLedgerKeys();
  useMarkKeys();
  // Marks of a game must not stay in the page when the Stage is left: a second look is blind to them.
  useEffect(() => () => useStage.setState({ game: null }), []);
  useEffect(() => guardSeal(), []);
  const ledger = useLedger(({ open }) => open);
  useEffect(() => {
    if (gameId !== null) void attempt(() => readGame(gameId));
    else useStage.setState({ game: null, spanId: null });
    return listen((event) => {
      if (event.event === 'changed' && gameId !== null) {
        // The answer to one's own change may come after its event: by then it is known as one's own.
        const readAgain = (): void => {
          if (changeUnderWay()) setTimeout(readAgain, 60);
          else if (!isOwnChange(event.entry)) void attempt(() => readGame(gameId));
        };
        setTimeout(readAgain, 120);
      }
    });
  }, [gameId]);
  useEffect(() => {
    const ask = (event: Event): void => {
      const want = (event as CustomEvent<'film' | 'game' | 'film plays'>).detail;
      if (want === 'film') askRef.current();
      else setAdding(want);
    };
    window.addEventListener('stage-add', ask);
    return () => window.removeEventListener('stage-add', ask);
  }, []);
  const { span } = chosenOf(game, playId, spanId);
  const film = directory?.films.find(({ id }) => id === (filmId ?? span?.filmId)) ?? directory?.films[0];
  useEffect(() => {
    if (film !== undefined && filmId === null) useStage.setState({ filmId: film.id });
  }, [film, filmId]);
  const beside = paired ? besideOf() : null;
  function besideOf(): { film: Film; frame: number; span: Span } | null {
    if (game === null || span === null || span.playId === null) return null;
    const spans = spansOf(game, span.playId);
    const other =
      spans.find((each) => each.id !== span.id && each.angle !== span.angle) ??
      spans.find((each) => each.id !== span.id);
    const otherFilm = directory?.films.find(({ id }) => id === other?.filmId);
    if (other === undefined || otherFilm === undefined) return null;
    return {
      film: otherFilm,
      span: other,
      frame: alignedFrame(game, tables, span.id, other.id, frame) ?? other.inFrame,
    };
  }
  const addFilms = (paths: readonly string[]): void => {
    setAdding(null);
    void attempt(async () => {
      for (const path of paths) {
        const added = await call('film.add', { path, angle: 'sideline', by: usePlace.getState().evaluatorId });
        await readDirectory();
        useStage.setState({ filmId: added.id, frame: 0, spanId: null, playing: false });
        go({ playId: null });
      }
    });
  };
  const askForFilm = (): void => {
    void attempt(async () => {
      const picked = await pickWithSystem('film');
      if (picked === null) setAdding('film');
      else addFilms(picked);
    });
  };
  useEffect(() => {
    askRef.current = askForFilm;
  });
  const drop = (files: readonly File[]): void => {
    void attempt(async () => {
      const paths = await droppedPaths(files);
      if (paths.length > 0) {
        addFilms(paths);
        return;
      }
      say('The dropped file was not found in the folders this program may read: choose it here.');
      setAdding('film');
    });
  };
  if (directory === null) return null;
  return (
    <div
      className="stage"
      data-dropping={dropping}
      onDragOver={(event) => {
        event.preventDefault();
        setDropping(true);
      }}
      onDragLeave={() => setDropping(false)}
      onDrop={(event) => {
        event.preventDefault();
        setDropping(false);
        drop([...event.dataTransfer.files]);
      }}
    >
      <StageHead onAddFilm={askForFilm} onAddGame={() => setAdding('game')} />
      {game === null ? (
        <Empty title="No game is in this study yet">
          <p>A game holds plays in order. Add one, then its film, and cut the film into plays.</p>
          <Button kind="chosen" onClick={() => setAdding('game')}>
            Add a game
          </Button>
        </Empty>
      ) : (
        <>
          <FieldStrip />
          {film === undefined ? (
            <Empty title="No film yet">
              <p>
                Add a film from this computer: MP4, MOV, WebM, MKV or MPEG-TS. It stays where it is; the study keeps
                only where to find it.
              </p>
              <Button kind="chosen" onClick={askForFilm}>
                Add a film
              </Button>
            </Empty>
          ) : (
            <>
              <div className={`films${beside === null ? '' : ' two'}${ledger ? ' with-ledger' : ''}`}>
                <FilmView key={film.id} film={film} caption={captionOf(span, film.angle)} />
                {beside === null ? null : (
                  <FilmBeside
                    key={beside.film.id}
                    film={beside.film}
                    frame={beside.frame}
                    caption={captionOf(beside.span, beside.film.angle)}
                  />
                )}
                {ledger ? <Ledger /> : null}
              </div>
              <div>
                <CutReview film={film} />
                <Rail film={film} />
              </div>
            </>
          )}
          <div className="sentences">
            <Spans />
            <Sentence />
            <MarksLine />
          </div>
        </>
      )}
      <FileBrowser
        want="film"
        title="Add a film"
        open={adding === 'film'}
        onClose={() => setAdding(null)}
        onChoose={(path) => addFilms([path])}
      />
      <History open={history} onClose={() => useStage.setState({ history: false })} />
      <EachFilmAPlay open={adding === 'film plays'} onClose={() => setAdding(null)} />
      <NewGame open={adding === 'game'} onClose={() => setAdding(null)} />
    </div>
  );
}

function captionOf(
  span: { angle: string; kind: string; clearness: string | null; timeScale: number | null } | null,
  angle: string,
): string {
  if (span === null) return `${angle} · whole film`;
  const pace = span.timeScale === null ? 'time scale unknown' : span.timeScale === 1 ? '' : `${span.timeScale}× slow`;
  const view = span.clearness === null || span.clearness === 'clear' ? '' : `view ${span.clearness}`;
  return [span.angle, span.kind, pace, view].filter((word) => word !== '').join(' · ');
}
