import { getStroke } from 'perfect-freehand';

/** A point in film pixels. */
export type ChalkPoint = readonly [number, number];

/** What a hand can draw; a distance waits for a calibrated frame. */
export type ChalkTool = 'arrow' | 'line' | 'lane' | 'ring' | 'freehand' | 'text';

/** The most points the study keeps of one shape, and how near two points of a freehand line may lie, film pixels. */
const mostPoints = 2000;
const nearest = 3;

/** Thickness of strokes, their dark edge, heads of arrows and letters, in film pixels for a film of this width. */
export function chalkSizes(filmWidth: number): { stroke: number; edge: number; head: number; letters: number } {
  const unit = filmWidth / 256;
  return { stroke: unit, edge: unit * 2.2, head: unit * 5, letters: unit * 6 };
}

/** The point in whole pixels and inside the picture. */
export function insideFilm([x, y]: ChalkPoint, film: { readonly width: number; readonly height: number }): ChalkPoint {
  return [Math.round(Math.min(film.width, Math.max(0, x))), Math.round(Math.min(film.height, Math.max(0, y)))];
}

/** The points moved together by whole pixels, no farther than the picture's edge lets all of them go. */
export function movedInside(
  points: readonly ChalkPoint[],
  [dx, dy]: ChalkPoint,
  film: { readonly width: number; readonly height: number },
): ChalkPoint[] {
  const room = (values: readonly number[], by: number, size: number): number =>
    Math.round(Math.min(size - Math.max(...values), Math.max(-Math.min(...values), by)));
  const across = points.map(([x]) => x);
  const down = points.map(([, y]) => y);
  const [bx, by] = [room(across, dx, film.width), room(down, dy, film.height)];
  return points.map(([x, y]) => [x + bx, y + by]);
}

/** A freehand line's points without those that hardly move it, and never more than the study keeps. */
export function thinned(points: readonly ChalkPoint[]): ChalkPoint[] {
  const kept: ChalkPoint[] = [];
  for (const [index, point] of points.entries()) {
    const last = kept.at(-1);
    const far = last === undefined || Math.hypot(point[0] - last[0], point[1] - last[1]) >= nearest;
    if (far || index === points.length - 1) kept.push(point);
  }
  const every = Math.ceil(kept.length / mostPoints);
  return every <= 1 ? kept : kept.filter((_, index) => index % every === 0);
}

/** The outline of a freehand line, thicker where the hand was slow. */
export function freehandOutline(points: readonly ChalkPoint[], size: number): string {
  const outline = getStroke(
    points.map(([x, y]) => [x, y]),
    { size, thinning: 0.35, smoothing: 0.6, streamline: 0.35 },
  );
  return outline.length === 0 ? '' : `M${outline.map(([x, y]) => `${x.toFixed(1)} ${y.toFixed(1)}`).join('L')}Z`;
}

/** A line through the points. */
export const linePath = (points: readonly ChalkPoint[]): string =>
  points.map(([x, y], index) => `${index === 0 ? 'M' : 'L'}${x} ${y}`).join('');

/** The two strokes of an arrow's head, 25 degrees to either side of the way it came; nothing for an arrow of no length. */
export function headPath(points: readonly ChalkPoint[], size: number): string {
  const tip = points.at(-1);
  if (tip === undefined) return '';
  const before = points.findLast(([x, y]) => Math.hypot(tip[0] - x, tip[1] - y) > size / 4);
  if (before === undefined) return '';
  const back = Math.atan2(before[1] - tip[1], before[0] - tip[0]);
  const wing = (turn: number): string =>
    `${(tip[0] + size * Math.cos(back + turn)).toFixed(1)} ${(tip[1] + size * Math.sin(back + turn)).toFixed(1)}`;
  return `M${wing(0.44)}L${tip[0]} ${tip[1]}L${wing(-0.44)}`;
}

/** How far a ring's second point lies from its centre; a ring of one point is a dot's width. */
export const ringRadius = ([centre, rim]: readonly ChalkPoint[]): number =>
  centre === undefined || rim === undefined ? 1 : Math.max(1, Math.hypot(rim[0] - centre[0], rim[1] - centre[1]));

/** The last frame chalk lies on by default: a second after its first, inside the span. `times` are the film's. */
export function secondLater(times: ArrayLike<number>, from: number, lastFrame: number): number {
  const until = (times[from] ?? 0) + 1 + 1e-6;
  let to = from;
  while (to < lastFrame && (times[to + 1] ?? Infinity) <= until) to += 1;
  return to;
}

/** How many points finish a shape by themselves; null: as many as are set. */
export const pointsOf: Readonly<Record<ChalkTool, number | null>> = {
  arrow: 2,
  line: 2,
  ring: 2,
  text: 1,
  lane: null,
  freehand: null,
};
