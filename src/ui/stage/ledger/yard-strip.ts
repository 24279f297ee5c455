import type { Lane } from '../../../contract/rows.ts';

/** A lane's three yards. */
export type LaneYards = Pick<Lane, 'low' | 'likely' | 'high'>;
export const yardHandles = ['low', 'likely', 'high'] as const;
export type YardHandle = (typeof yardHandles)[number];

/** First and last yard of the strip. */
export type StripRange = readonly [number, number];

/** The yards the strips of a decision go over: -5 to 15, or as far as any lane goes and a little more; one for all lanes. */
export function stripRange(lanes: readonly LaneYards[]): StripRange {
  const low = Math.min(-5, ...lanes.map((lane) => lane.low - 2));
  const high = Math.max(15, ...lanes.map((lane) => lane.high + 3));
  return [Math.max(-20, low), Math.min(99, high)];
}

/** Where a yard lies on a strip `width` long, from 0 to `width`. */
export function placeOnStrip(yards: number, [from, to]: StripRange, width: number): number {
  return ((yards - from) / (to - from)) * width;
}

/** The whole yard nearest to a place on a strip `width` long, kept within the range. */
export function yardAt(place: number, [from, to]: StripRange, width: number): number {
  const yards = Math.round(from + (place / width) * (to - from));
  return Math.min(to, Math.max(from, yards)) + 0;
}

/** A lane's yards with one handle moved: the others give way, so that low, likely and high stay in order, -20 to 99. */
export function withHandle(lane: LaneYards, handle: YardHandle, to: number): LaneYards {
  const yards = Math.min(99, Math.max(-20, Math.round(to)));
  switch (handle) {
    case 'low':
      return { low: yards, likely: Math.max(yards, lane.likely), high: Math.max(yards, lane.high) };
    case 'likely':
      return { low: Math.min(yards, lane.low), likely: yards, high: Math.max(yards, lane.high) };
    case 'high':
      return { low: Math.min(yards, lane.low), likely: Math.min(yards, lane.likely), high: yards };
  }
}

/** A box in film pixels. */
export type Box = { readonly x: number; readonly y: number; readonly width: number; readonly height: number };

/** Boxes kept inside the film and moved up or down until none lies over an earlier one, as far as there is room. */
export function apart(
  boxes: readonly Box[],
  film: { readonly width: number; readonly height: number },
  gap = 6,
): Box[] {
  const placed: Box[] = [];
  for (const box of boxes) {
    const x = Math.min(film.width - box.width - gap, Math.max(gap, box.x));
    const lowest = film.height - box.height - gap;
    const wanted = Math.min(lowest, Math.max(gap, box.y));
    const free = (y: number): boolean =>
      y >= gap &&
      y <= lowest &&
      placed.every(
        (other) =>
          y + box.height + gap <= other.y ||
          other.y + other.height + gap <= y ||
          x + box.width + gap <= other.x ||
          other.x + other.width + gap <= x,
      );
    const edges = placed.flatMap((other) => [other.y + other.height + gap, other.y - box.height - gap]);
    const y = [wanted, ...edges].filter(free).toSorted((a, b) => Math.abs(a - wanted) - Math.abs(b - wanted))[0];
    placed.push({ ...box, x, y: y ?? wanted });
  }
  return placed;
}
