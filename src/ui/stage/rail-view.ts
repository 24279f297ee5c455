/** The first and last frame that the rail shows; not whole while it zooms. */
export type RailView = readonly [number, number];

/** A view with its length times a factor (0.8 zooms in), the given frame kept in its place; never shorter than twelve frames. */
export function zoomedView([from, to]: RailView, factor: number, about: number, last: number): RailView {
  const length = Math.min(last, Math.max(12, (to - from) * factor));
  const share = Math.min(1, Math.max(0, (about - from) / Math.max(1, to - from)));
  const start = Math.min(Math.max(0, about - share * length), Math.max(0, last - length));
  return [start, Math.min(last, start + length)];
}
