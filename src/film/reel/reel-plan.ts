import type { FrameTable } from '../table/frame-table.ts';

/** A film a reel takes frames from. */
export type ReelFilm = { readonly id: string; readonly url: string; readonly table: FrameTable };

/** A stretch of a film: frames `from` to `to`, both shown, at `speed` (1 as filmed, 0.5 half as fast; above 0). */
export type ReelSpan = {
  readonly kind: 'span';
  readonly film: ReelFilm;
  readonly from: number;
  readonly to: number;
  readonly speed: number;
  /** True when something is drawn on its pictures, so that they must be encoded anew. */
  readonly drawn: boolean;
};

/** A card with lines of text, shown for some seconds above 0. */
export type ReelCard = { readonly kind: 'card'; readonly lines: readonly string[]; readonly seconds: number };

/** One part of a reel. */
export type ReelPart = ReelSpan | ReelCard;

/** When a frame of a span is shown in the reel, and for how long; in seconds from the span's beginning. */
export type ReelFrame = { readonly frame: number; readonly start: number; readonly length: number };

/** Throws when a span is not within its film, or its speed not above 0. */
function check({ film, from, to, speed }: ReelSpan): void {
  const last = film.table.times.length - 1;
  if (!(from >= 0 && from <= to && to <= last)) {
    throw new Error(`A span lies within its film's frames 0 to ${last}, got ${from} to ${to}.`);
  }
  if (!(speed > 0)) throw new Error(`A span's speed is above 0, got ${speed}.`);
}

/**
 * The frames of a span with their times in the reel: the film's own times, uneven ones too, over the speed. Throws
 * when the span is not within its film or its speed is not above 0.
 */
export function reelFrames(span: ReelSpan): ReelFrame[] {
  check(span);
  const { film, from, to, speed } = span;
  const begins = film.table.times[from] ?? 0;
  const endOf = (frame: number): number => film.table.times[frame + 1] ?? film.table.duration;
  return Array.from({ length: to - from + 1 }, (_, at) => {
    const time = film.table.times[from + at] ?? 0;
    return { frame: from + at, start: (time - begins) / speed, length: Math.max(0, endOf(from + at) - time) / speed };
  });
}

/**
 * The key packet (as a place in `keyDecode`) from which a span's packets can be copied as they are, or null when they
 * can't: the span must begin with a key frame and its packets must lie together without any that is not shown.
 */
export function copyableFrom(span: ReelSpan): number | null {
  check(span);
  const { table } = span.film;
  if (span.drawn) return null;
  const first = table.decode[span.from] ?? 0;
  const key = table.keyDecode.indexOf(first);
  if (key < 0) return null;
  let last = first;
  for (let frame = span.from; frame <= span.to; frame += 1) {
    const place = table.decode[frame] ?? 0;
    if (place < first) return null;
    last = Math.max(last, place);
  }
  return last - first === span.to - span.from ? key : null;
}
