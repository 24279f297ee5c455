import { set } from '../../../contract/changes.ts';
import { say } from '../../link/place.ts';
import { changeStage, useStage } from '../stage-store.ts';
import { insideFilm, movedInside, type ChalkPoint } from './chalk-geometry.ts';
import { chalkPlace, chosenChalk, ownChalkHere } from './chalk-place.ts';
import { useChalk } from './chalk-store.ts';
import { dropPoint, endShape, eraseChosen, keepMoved, setPoint, trace, writeOnChosen } from './draw-chalk.ts';

/** Opens chalk on the frame shown, or puts it away. */
export function turnChalk(): void {
  if (useChalk.getState().open) {
    leaveChalk();
    return;
  }
  const place = chalkPlace();
  if (place === null) {
    say('Chalk lies on a span: choose a play with film first.');
    return;
  }
  useStage.setState({ playing: false, trait: null });
  const { width, height } = place.film;
  const { cross } = useChalk.getState();
  useChalk.setState({
    open: true,
    cross:
      cross[0] === 0 && cross[1] === 0
        ? [Math.round(width / 2), Math.round(height / 2)]
        : insideFilm(cross, place.film),
  });
  say('Chalk: choose a tool, then draw. Escape leaves.');
  focusChalk();
}

/** Gives the keys to the picture, so that a tool chosen by hand is used by key as well. */
export function focusChalk(): void {
  requestAnimationFrame(() => document.querySelector<SVGElement>('.chalk-surface')?.focus());
}

/** Puts chalk away; a shape that is not finished is dropped, a moved one is kept where it lies. */
export function leaveChalk(): void {
  settleMove();
  useChalk.setState({
    open: false,
    drawing: null,
    tracing: false,
    writing: null,
    chosenId: null,
    pointIndex: null,
    from: null,
    to: null,
  });
  say('Chalk put away.');
}

/** Escape: first the shape being drawn, then the choice, then chalk itself. */
export function stepBack(): void {
  const { drawing, chosenId } = useChalk.getState();
  if (drawing !== null) useChalk.setState({ drawing: null, tracing: false });
  else if (chosenId !== null) {
    settleMove();
    useChalk.setState({ chosenId: null, pointIndex: null });
  } else leaveChalk();
}

let settling: ReturnType<typeof setTimeout> | null = null;

/** Keeps at once what the arrow keys moved. */
export function settleMove(): void {
  if (settling !== null) clearTimeout(settling);
  settling = null;
  keepMoved();
}

/** Puts the chosen shape, or the chosen point of it, where the hand holds it; nothing is kept yet. */
export function holdMoved(from: readonly ChalkPoint[], by: ChalkPoint): void {
  const place = chalkPlace();
  const chalk = chosenChalk();
  const { pointIndex } = useChalk.getState();
  if (place === null || chalk === null) return;
  const points =
    pointIndex === null
      ? movedInside(from, by, place.film)
      : from.map((point, index): ChalkPoint =>
          index === pointIndex ? insideFilm([point[0] + by[0], point[1] + by[1]], place.film) : point,
        );
  useChalk.setState({ moved: { id: chalk.id, points } });
}

/**
 * Arrow keys: they move the chosen shape or point, else the cross, by film pixels. Moves that follow each other are one
 * change, as one drag is.
 */
export function arrow(dx: number, dy: number): void {
  const place = chalkPlace();
  const chalk = chosenChalk();
  if (place === null) return;
  if (chalk === null) {
    const { cross } = useChalk.getState();
    const at = insideFilm([cross[0] + dx, cross[1] + dy], place.film);
    useChalk.setState({ cross: at });
    trace(at);
    return;
  }
  const { moved } = useChalk.getState();
  holdMoved(moved?.id === chalk.id ? moved.points : chalk.points, [dx, dy]);
  if (settling !== null) clearTimeout(settling);
  settling = setTimeout(settleMove, 500);
}

/** Enter: sets a point, ends a shape on its last point, or opens the words of the chosen shape. */
export function enter(): void {
  const { drawing, cross, tool, chosenId } = useChalk.getState();
  if (chosenId !== null) {
    settleMove();
    writeOnChosen();
    return;
  }
  const last = drawing?.at(-1);
  const same = last !== undefined && last[0] === cross[0] && last[1] === cross[1];
  if (drawing !== null && (tool === 'freehand' || (tool === 'lane' && same))) endShape();
  else setPoint(cross);
}

/** Backspace takes back the last point; with a shape chosen it and Delete take the shape away. */
export function takeAway(): void {
  if (useChalk.getState().drawing !== null) dropPoint();
  else eraseChosen();
}

/** Chooses the next shape on this frame (with -1 the one before). */
export function turnShape(by: 1 | -1): void {
  settleMove();
  const here = ownChalkHere();
  const { chosenId } = useChalk.getState();
  const at = here.findIndex(({ id }) => id === chosenId);
  const next = here.at(at < 0 ? (by === 1 ? 0 : -1) : (at + by) % here.length);
  if (next === undefined) {
    say('No chalk of yours lies on this frame.');
    return;
  }
  chooseShape(next.id);
}

/** Chooses a shape. */
export function chooseShape(id: string): void {
  settleMove();
  useChalk.setState({ chosenId: id, pointIndex: null, drawing: null, tracing: false });
  const chalk = chosenChalk();
  if (chalk !== null) say(`${chalk.text ?? chalk.kind} chosen, frames ${chalk.fromFrame} to ${chalk.toFrame}`);
}

/** Chooses the next point of the chosen shape, after the last one the whole shape again. */
export function turnPoint(): void {
  const chalk = chosenChalk();
  if (chalk === null) return;
  settleMove();
  const { pointIndex } = useChalk.getState();
  const next = pointIndex === null ? 0 : pointIndex + 1;
  useChalk.setState({ pointIndex: next < chalk.points.length ? next : null });
  say(next < chalk.points.length ? `Point ${next + 1} of ${chalk.points.length}` : 'The whole shape');
}

/** Sets the first or last frame of the chosen shape, or of what is drawn next, to the frame shown. */
export function setEnd(end: 'from' | 'to'): void {
  settleMove();
  const { frame } = useStage.getState();
  const chalk = chosenChalk();
  if (chalk === null) {
    useChalk.setState(end === 'from' ? { from: frame } : { to: frame });
    say(`What you draw next lies ${end} frame ${frame}.`);
    return;
  }
  const wrong = end === 'from' ? frame > chalk.toFrame : frame < chalk.fromFrame;
  if (wrong) {
    say(`Chalk lies from a frame to a later one: ${chalk.fromFrame} to ${chalk.toFrame} stands, got ${frame}.`);
    return;
  }
  const value = end === 'from' ? { fromFrame: frame } : { toFrame: frame };
  void changeStage(`${chalk.kind} ${end} frame ${frame}`, [set('chalk', chalk.id, value)]);
}

/** One frame on or back, the shape in hand staying there. */
export function stepFilm(by: number): void {
  const place = chalkPlace();
  if (place === null) return;
  const { frame } = useStage.getState();
  useStage.setState({ frame: Math.min(place.film.frames - 1, Math.max(0, frame + by)), playing: false });
}
