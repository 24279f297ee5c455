import { add, set, type ChangeStep } from '../../contract/changes.ts';
import { clearnesses } from '../../contract/words.ts';
import { newId } from '../link/change.ts';
import { go, say, usePlace } from '../link/place.ts';
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
  const inTime = times[inPoint] ?? 0;
  const last = game.plays.at(-1);
  // A play cut earlier in the same film comes before those cut later.
  const after = game.spans
    .filter((each) => each.filmId === filmId && each.inFrame < inPoint)
    .toSorted((a, b) => b.inFrame - a.inFrame)
    .map((each) => game.plays.find(({ id }) => id === each.playId))
    .find((play) => play !== undefined);
  const before = after === undefined ? last : after;
  const following = before === undefined ? undefined : game.plays[game.plays.indexOf(before) + 1];
  const position =
    before === undefined
      ? 1
      : following === undefined
        ? before.position + 1
        : (before.position + following.position) / 2;
  const playId = newId();
  const spanId = newId();
  const carrier = runnerId ?? directory?.runners[0]?.id ?? null;
  const steps: ChangeStep[] = [
    add('play', {
      id: playId,
      gameId: game.game.id,
      position,
      series: before?.series ?? 1,
      offenceTeamId: before?.offenceTeamId ?? directory?.runners.find(({ id }) => id === carrier)?.teamId ?? null,
    }),
    add('span', {
      id: spanId,
      playId,
      filmId: film.id,
      angle: film.angle,
      kind: 'live',
      inFrame: inPoint,
      inTime,
      outFrame: frame,
      outTime,
      timeScale: 1,
    }),
    ...(carrier === null ? [] : [add('part', { id: newId(), playId, runnerId: carrier, kind: 'run' })]),
  ];
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
