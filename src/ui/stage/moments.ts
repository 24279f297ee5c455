import { add, remove, set } from '../../contract/changes.ts';
import { momentNames, type MomentName } from '../../contract/words.ts';
import { newId } from '../link/change.ts';
import { say } from '../link/place.ts';
import { changeStage, chosenNow, useStage } from './stage-store.ts';

/** The digit that tags each moment. */
export const momentKeys: readonly { readonly name: MomentName; readonly digit: string }[] = momentNames.map(
  (name, index) => ({
    name,
    digit: String(index + 1),
  }),
);

/** Tags a moment at the frame shown, moving it when it stands elsewhere; on its own frame it is taken away. */
export function tagMoment(name: MomentName): void {
  const { game, frame, filmId, tables } = useStage.getState();
  const { part, span } = chosenNow();
  const time = filmId === null ? undefined : tables[filmId]?.times[frame];
  if (game === null || span === null || time === undefined) {
    say('Choose a play with film first.');
    return;
  }
  const standing = game.moments.find((moment) => moment.spanId === span.id && moment.name === name);
  if (standing === undefined) {
    void changeStage(`${name} at frame ${frame}`, [
      add('moment', {
        id: newId(),
        spanId: span.id,
        partId: name === 'snap' ? null : (part?.id ?? null),
        name,
        frame,
        time,
      }),
    ]);
  } else if (standing.frame === frame) {
    void changeStage(`${name} taken away`, [remove('moment', standing.id)]);
  } else {
    void changeStage(`${name} moved to frame ${frame}`, [set('moment', standing.id, { frame, time })]);
  }
}

/** Moves a standing moment to another frame of its span; one change, nothing when it stands there already. */
export function moveMoment(id: string, frame: number): void {
  const { game, filmId, tables } = useStage.getState();
  const moment = game?.moments.find((each) => each.id === id);
  const time = filmId === null ? undefined : tables[filmId]?.times[frame];
  if (moment === undefined || time === undefined || moment.frame === frame) return;
  void changeStage(`${moment.name} moved to frame ${frame}`, [set('moment', id, { frame, time })]);
}

/** Sets a foot down at the frame shown; the same foot on the same frame is taken away. */
export function tagStep(foot: 'left' | 'right'): void {
  const { game, frame, filmId, tables } = useStage.getState();
  const { part, span } = chosenNow();
  const time = filmId === null ? undefined : tables[filmId]?.times[frame];
  if (game === null || span === null || part === null || time === undefined) {
    say('Choose a carry with film first.');
    return;
  }
  const standing = game.steps.find((step) => step.spanId === span.id && step.frame === frame && step.foot === foot);
  if (standing !== undefined) void changeStage(`${foot} foot taken away`, [remove('step', standing.id)]);
  else
    void changeStage(`${foot} foot at frame ${frame}`, [
      add('step', { id: newId(), spanId: span.id, partId: part.id, foot, frame, time }),
    ]);
}

/** The frame of the next (or, with -1, the last) moment or foot in this span. */
export function nextMoment(direction: 1 | -1): void {
  const { game, spanId, frame } = useStage.getState();
  if (game === null || spanId === null) return;
  const frames = [...game.moments, ...game.steps]
    .filter((row) => row.spanId === spanId)
    .map((row) => row.frame)
    .toSorted((a, b) => a - b);
  const found =
    direction === 1 ? frames.find((each) => each > frame) : frames.toReversed().find((each) => each < frame);
  if (found !== undefined) useStage.setState({ frame: found, playing: false });
}
