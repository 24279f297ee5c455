import { proposeCuts } from '../../../film/cutting/propose-cuts.ts';
import { attempt, go, say, usePlace } from '../../link/place.ts';
import { tableOf, useStage } from '../stage-store.ts';
import { cutsOf } from './cut-list.ts';
import { noCuts, spansOnFilm, useCuts } from './cuts-store.ts';
import { chooseCut, nextOpen } from './review.ts';

/** Looks through the whole film shown, in a worker, and opens the review of what it proposes. */
export async function proposeHere(): Promise<void> {
  const { filmId, game, seal } = useStage.getState();
  const { directory, runnerId } = usePlace.getState();
  const film = directory?.films.find(({ id }) => id === filmId);
  if (film === undefined || game === null) {
    say('Choose a game and a film first.');
    return;
  }
  if (seal !== null) {
    say('Sealed: looking through the film would show the rest of the play.');
    return;
  }
  if (useCuts.getState().stop !== null) return;
  const stop = new AbortController();
  useCuts.setState({ ...noCuts, filmId: film.id, done: 0, stop, runnerId });
  useStage.setState({ playing: false, inPoint: null, trait: null });
  say(`Looking through ${film.name} for cuts. Escape stops it.`);
  const table = await tableOf(film.id);
  const found =
    table === undefined
      ? undefined
      : await attempt(() =>
          proposeCuts({
            url: `/film/${film.id}`,
            table,
            onProgress: (done) => {
              if (useCuts.getState().stop === stop) useCuts.setState({ done });
            },
            signal: stop.signal,
          }).catch((cause: unknown) => {
            // Stopping is no trouble.
            if (stop.signal.aborted) return undefined;
            throw cause;
          }),
        );
  if (useCuts.getState().stop !== stop) return;
  if (found === undefined) {
    useCuts.setState(noCuts);
    return;
  }
  const cuts = cutsOf(found.spans);
  useStage.setState({ filmId: film.id, spanId: null, playing: false });
  go({ playId: null });
  useCuts.setState({ done: null, stop: null, cuts, lost: found.lost });
  const first = nextOpen(cuts, null, 1, spansOnFilm(film.id)) ?? cuts[0];
  // The rail goes back to the whole film once no span is shown: what is chosen comes after that.
  if (first !== undefined) setTimeout(() => chooseCut(first.id), 60);
  say(`${cuts.length} stretches proposed. Nothing is kept until you accept it.`);
}
