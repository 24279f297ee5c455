import { add, remove, set } from '../../../contract/changes.ts';
import type { Chalk } from '../../../contract/rows.ts';
import { newId } from '../../link/change.ts';
import { say, usePlace } from '../../link/place.ts';
import { changeStage, useStage } from '../stage-store.ts';
import { type ChalkPoint, type ChalkTool, insideFilm, pointsOf, thinned } from './chalk-geometry.ts';
import { chalkPlace, chosenChalk, framesToDraw } from './chalk-place.ts';
import { useChalk } from './chalk-store.ts';

const plain = (points: readonly ChalkPoint[]): [number, number][] => points.map(([x, y]) => [x, y]);

const nothingInHand = { drawing: null, tracing: false, writing: null } as const;

/** Takes up a tool; what was being drawn is dropped. */
export function takeTool(tool: ChalkTool): void {
  useChalk.setState({ tool, chosenId: null, pointIndex: null, ...nothingInHand });
  say(`${tool}: ${tool === 'text' ? 'choose its place' : 'set its points'}`);
}

/** Keeps a shape as one change and chooses it. */
function keep(kind: ChalkTool, points: readonly ChalkPoint[], text: string | null): void {
  const place = chalkPlace();
  const { evaluatorId } = usePlace.getState();
  const { frame } = useStage.getState();
  useChalk.setState(nothingInHand);
  if (place === null || evaluatorId === null) return;
  const frames = framesToDraw(place.span, frame);
  const row = { id: newId(), spanId: place.span.id, evaluatorId, ...frames, kind, points: plain(points), text };
  useChalk.setState({ chosenId: row.id, pointIndex: null, from: null, to: null });
  void changeStage(`${kind} on frames ${frames.fromFrame} to ${frames.toFrame}`, [add('chalk', row)]);
}

/** Begins a shape at a point, or adds a point to the one being drawn; a shape that has all its points is kept. */
export function setPoint(at: ChalkPoint): void {
  const place = chalkPlace();
  if (place === null) {
    say('Chalk lies on a span: choose a play with film first.');
    return;
  }
  const { tool, drawing } = useChalk.getState();
  const point = insideFilm(at, place.film);
  const last = drawing?.at(-1);
  useChalk.setState({ cross: point, chosenId: null, pointIndex: null });
  if (tool === 'text') {
    useChalk.setState({ writing: { at: point, id: null, words: '' }, drawing: null });
    return;
  }
  // The second press of a double click is no point of its own; by key it ends the shape.
  if (last !== undefined && Math.hypot(point[0] - last[0], point[1] - last[1]) < 4) return;
  const points = [...(drawing ?? []), point];
  if (points.length === pointsOf[tool]) keep(tool, points, null);
  else {
    useChalk.setState({ drawing: points, tracing: tool === 'freehand' });
    say(`${tool}: point ${points.length} at ${point[0]}, ${point[1]}`);
  }
}

/** Adds to the freehand line that follows the hand. */
export function trace(to: ChalkPoint): void {
  const place = chalkPlace();
  const { drawing, tracing } = useChalk.getState();
  if (place === null || drawing === null || !tracing || drawing.length >= 20_000) return;
  useChalk.setState({ drawing: [...drawing, insideFilm(to, place.film)] });
}

/** Keeps what is being drawn, from two points on; with fewer it is dropped. */
export function endShape(): void {
  const { tool, drawing } = useChalk.getState();
  const points = drawing === null ? [] : tool === 'freehand' ? thinned(drawing) : drawing;
  if (points.length < 2) useChalk.setState(nothingInHand);
  else keep(tool, points, null);
}

/** Takes the last point of the shape being drawn away; the first takes the shape with it. */
export function dropPoint(): void {
  const { drawing } = useChalk.getState();
  if (drawing === null) return;
  const left = drawing.slice(0, -1);
  if (left.length === 0) useChalk.setState(nothingInHand);
  else useChalk.setState({ drawing: left, cross: left.at(-1) ?? [0, 0] });
}

/** Keeps the words written: of a new text at its place, or of the shape they stand by. Empty words are left out. */
export function keepWords(words: string): void {
  const { writing } = useChalk.getState();
  if (writing === null) return;
  const text = words.trim().slice(0, 200);
  const standing = writing.id === null ? null : chosenChalk();
  useChalk.setState({ writing: null });
  if (standing === null) {
    if (text !== '') keep('text', [writing.at], text);
  } else if (text === '' && standing.kind === 'text') {
    eraseChosen();
  } else if (text !== (standing.text ?? '')) {
    void changeStage(text === '' ? 'Words taken away' : `Chalk says: ${text}`, [
      set('chalk', standing.id, { text: text === '' ? null : text }),
    ]);
  }
}

/** Opens the words of the chosen shape. */
export function writeOnChosen(): void {
  const chalk = chosenChalk();
  const at = chalk?.points.at(-1);
  if (chalk !== null && at !== undefined) useChalk.setState({ writing: { at, id: chalk.id, words: chalk.text ?? '' } });
}

/** Takes the chosen shape away. */
export function eraseChosen(): void {
  const chalk = chosenChalk();
  useChalk.setState({ chosenId: null, pointIndex: null, moved: null });
  if (chalk !== null) void changeStage(`${chalk.kind} taken away`, [remove('chalk', chalk.id)]);
}

/** Keeps a moved shape as one change. */
export function keepMoved(): void {
  const { moved } = useChalk.getState();
  useChalk.setState({ moved: null });
  const chalk = useStage.getState().game?.chalk.find(({ id }) => id === moved?.id);
  if (moved === null || chalk === undefined || samePoints(chalk, moved.points)) return;
  void changeStage(`${chalk.kind} moved`, [set('chalk', chalk.id, { points: plain(moved.points) })]);
}

const samePoints = (chalk: Chalk, points: readonly ChalkPoint[]): boolean =>
  chalk.points.length === points.length &&
  chalk.points.every(([x, y], index) => points[index]?.[0] === x && points[index]?.[1] === y);
