import { add, set } from '../../contract/changes.ts';
import { clearnesses } from '../../contract/words.ts';
import { newId } from '../link/change.ts';
import { go, say, usePlace } from '../link/place.ts';
import { newPlaySteps } from './cuts/new-play.ts';
import { changeStage, chosenNow, useStage } from './stage-store.ts';

/** Marks where a play's span begins, at the frame shown. */
export function markIn(): void {
  const { filmId, frame } = useStage.getState();
  if (filmId === null) {
    say('Choose a film first.');
    return;
  }
  useStage.setState({ inPoint: frame, playing: false });
  say(`In at frame ${frame}. Mark where the play ends.`);
}

/**
 * Ends the span at the frame shown. With an in point it makes a new play after the last in this film, with the runner's carry
 * and its sentence ready to fill; without one it moves the out point of the span shown.
 */
export function markOut(): void {
  const { game, filmId, frame, inPoint, tables } = useStage.getState();
  const { directory, runnerId } = usePlace.getState();
  const film = directory?.films.find(({ id }) => id === filmId);
  const times = filmId === null ? undefined : tables[filmId]?.times;
  const outTime = times?.[frame];
  if (game === null || film === undefined || times === undefined || outTime === undefined) return;
  const { span } = chosenNow();
  if (inPoint === null) {
    if (span !== null && span.filmId === filmId)
      void changeStage(`Out at frame ${frame}`, [set('span', span.id, { outFrame: frame, outTime })]);
    else say('Mark where the play begins first.');
    return;
  }
  const playId = newId();
  const spanId = newId();
  const carrier = directory?.runners.find(({ id }) => id === runnerId) ?? directory?.runners[0];
  const steps = newPlaySteps({
    playId,
    spanId,
    game,
    film,
    times,
    inFrame: inPoint,
    outFrame: frame,
    carry: carrier === undefined ? null : { partId: newId(), runnerId: carrier.id, teamId: carrier.teamId },
  });
  useStage.setState({ inPoint: null });
  void changeStage(`Cut a play, frames ${inPoint} to ${frame}`, steps).then((made) => {
    if (!made) return;
    go({ playId });
    useStage.setState({ spanId, frame: inPoint, focusBlank: 'first empty' });
  });
}

/** Attaches the stretch from the in point to the frame shown to the chosen play, as another span of it. */
export function attachSpan(kind: 'live' | 'replay'): void {
  const { filmId, frame, inPoint, tables } = useStage.getState();
  const film = usePlace.getState().directory?.films.find(({ id }) => id === filmId);
  const { play } = chosenNow();
  const times = filmId === null ? undefined : tables[filmId]?.times;
  if (film === undefined || times === undefined || inPoint === null || play === null) {
    say('Choose a play, and mark where its other span begins.');
    return;
  }
  const spanId = newId();
  useStage.setState({ inPoint: null });
  void changeStage(`Attach a ${kind} span`, [
    add('span', {
      id: spanId,
      playId: play.id,
      filmId: film.id,
      angle: film.angle,
      kind,
      inFrame: inPoint,
      inTime: times[inPoint] ?? 0,
      outFrame: frame,
      outTime: times[frame] ?? 0,
      timeScale: kind === 'live' ? 1 : null,
    }),
  ]).then((made) => {
    if (made) useStage.setState({ spanId });
  });
}

/** Sets how clear the view of this span is, for the marks given on it from now on: clear, partial, obscured, round again. */
export function turnClearness(): void {
  const { span } = chosenNow();
  if (span === null) return;
  const next = clearnesses[(clearnesses.indexOf(span.clearness ?? 'clear') + 1) % clearnesses.length] ?? 'clear';
  void changeStage(`View: ${next}`, [set('span', span.id, { clearness: next })]);
}

/** Flags the chosen carry to come back to, or takes the flag away. */
export function turnFlag(): void {
  const { part } = chosenNow();
  if (part !== null)
    void changeStage(part.comeBack ? 'No need to come back' : 'Come back to this', [
      set('part', part.id, { comeBack: !part.comeBack }),
    ]);
}
