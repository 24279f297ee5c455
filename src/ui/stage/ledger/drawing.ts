import { usePlace } from '../../link/place.ts';
import { useStage } from '../stage-store.ts';
import { editLane, laneNow } from './ledger-actions.ts';
import { type Corner, useLedger } from './ledger-store.ts';

function filmNow(): { width: number; height: number } | undefined {
  const { filmId } = useStage.getState();
  return usePlace.getState().directory?.films.find(({ id }) => id === filmId);
}

const inside = ([x, y]: Corner, film: { width: number; height: number }): Corner => [
  Math.round(Math.min(film.width, Math.max(0, x))),
  Math.round(Math.min(film.height, Math.max(0, y))),
];

/** Begins a new path for the lane worked on; its first corner is looked for where the old path began, else mid-film. */
export function beginDrawing(): void {
  const lane = laneNow();
  const film = filmNow();
  if (lane === null || film === undefined) return;
  const at: Corner = lane.path[0] ?? [Math.round(film.width / 2), Math.round(film.height / 2)];
  useLedger.setState({ drawing: { laneId: lane.id, corners: [], at } });
}

/** Moves the place of the next corner, film pixels. */
export function moveCorner(dx: number, dy: number): void {
  const { drawing } = useLedger.getState();
  const film = filmNow();
  if (drawing === null || film === undefined) return;
  useLedger.setState({ drawing: { ...drawing, at: inside([drawing.at[0] + dx, drawing.at[1] + dy], film) } });
}

/** Sets a corner there. */
export function setCorner(at: Corner): void {
  const { drawing } = useLedger.getState();
  const film = filmNow();
  if (drawing === null || film === undefined || drawing.corners.length >= 200) return;
  const corner = inside(at, film);
  const last = drawing.corners.at(-1);
  // The second press of a double click is no corner of its own.
  if (last !== undefined && Math.hypot(corner[0] - last[0], corner[1] - last[1]) < 4) return;
  useLedger.setState({ drawing: { ...drawing, corners: [...drawing.corners, corner], at: corner } });
}

/** Sets a corner where the cross stands; where one was just set, the path is done. */
export function cornerByKey(): void {
  const { drawing } = useLedger.getState();
  if (drawing === null) return;
  const last = drawing.corners.at(-1);
  if (last !== undefined && last[0] === drawing.at[0] && last[1] === drawing.at[1]) endDrawing();
  else setCorner(drawing.at);
}

/** Takes the last corner away. */
export function dropCorner(): void {
  const { drawing } = useLedger.getState();
  if (drawing !== null) useLedger.setState({ drawing: { ...drawing, corners: drawing.corners.slice(0, -1) } });
}

/** Keeps the path drawn, from two corners on; with fewer the old path stands. */
export function endDrawing(): void {
  const { drawing } = useLedger.getState();
  const lane = laneNow();
  useLedger.setState({ drawing: null });
  if (drawing === null || lane === null || lane.id !== drawing.laneId || drawing.corners.length < 2) return;
  editLane(lane, { path: drawing.corners.map(([x, y]): [number, number] => [x, y]) }, `${lane.name}: path drawn`);
}

/** Leaves the old path as it was. */
export function leaveDrawing(): void {
  useLedger.setState({ drawing: null });
}
