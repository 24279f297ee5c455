/** Two spans locked on one moment: which frame of each shows the same instant, each at its own rate and time scale. */
import type { Moment, Span } from '../../contract/rows.ts';
import { momentNames, type MomentName } from '../../contract/words.ts';
import { nearestFrame, type FrameTimes } from '../../core/time/frame-times.ts';

/** One side: its span, the times of its film's frames in film seconds, and the moments tagged in the span. */
export type LockedSide = {
  readonly span: Span;
  readonly times: FrameTimes;
  readonly moments: readonly Moment[];
};

/** Moments tagged on both sides, in the order they happen. */
export function sharedMoments(first: readonly Moment[], second: readonly Moment[]): readonly MomentName[] {
  return momentNames.filter(
    (name) => first.some((moment) => moment.name === name) && second.some((moment) => moment.name === name),
  );
}

/** Film seconds at which a side stands at instant 0: its moment, or where its span begins when null or untagged. */
export function anchorOf({ span, moments }: LockedSide, moment: MomentName | null): number {
  return moments.find(({ name }) => name === moment)?.time ?? span.inTime;
}

const scaleOf = ({ span }: LockedSide): number => span.timeScale ?? 1;
const inside = ({ span }: LockedSide, frame: number): number => Math.min(span.outFrame, Math.max(span.inFrame, frame));

/** The frame of a side at an instant, in real seconds from its anchor; its span's ends hold beyond them. */
export function frameAt(side: LockedSide, moment: MomentName | null, instant: number): number {
  const found = nearestFrame(side.times, anchorOf(side, moment) + instant * scaleOf(side));
  return found.known ? inside(side, found.value) : side.span.inFrame;
}

/** The instant at which a side shows a frame, real seconds from its anchor. */
export function instantOf(side: LockedSide, moment: MomentName | null, frame: number): number {
  const anchor = anchorOf(side, moment);
  return ((side.times[frame] ?? anchor) - anchor) / scaleOf(side);
}

/** The instants from a side's first to its last frame. */
export function reachOf(side: LockedSide, moment: MomentName | null): { readonly from: number; readonly to: number } {
  return {
    from: instantOf(side, moment, side.span.inFrame),
    to: instantOf(side, moment, side.span.outFrame),
  };
}

/** The instants at which both have a picture; from the anchor to itself when their reaches never meet. */
export function bothReach(
  sides: readonly [LockedSide, LockedSide],
  moment: MomentName | null,
): { readonly from: number; readonly to: number } {
  const [one, other] = [reachOf(sides[0], moment), reachOf(sides[1], moment)];
  const from = Math.max(one.from, other.from);
  const to = Math.min(one.to, other.to);
  return from <= to ? { from, to } : { from: 0, to: 0 };
}

/**
 * The instant some frames on (below 0: back), counted on the side whose frames are closer together, so that no picture of
 * either is passed over; a side that is at its end leaves the counting to the other.
 */
export function stepFrom(
  sides: readonly [LockedSide, LockedSide],
  moment: MomentName | null,
  instant: number,
  by: number,
): number {
  const moves = sides.flatMap((side) => {
    const frame = frameAt(side, moment, instant);
    const next = inside(side, frame + by);
    if (next === frame) return [];
    const each = Math.abs(instantOf(side, moment, next) - instantOf(side, moment, frame)) / Math.abs(next - frame);
    return [{ each, to: instantOf(side, moment, next) }];
  });
  const [finer] = moves.toSorted((a, b) => a.each - b.each);
  return finer?.to ?? instant;
}
