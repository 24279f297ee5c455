/** Where a viewer is, which way he goes, how many frames the cache has room for, and how many the film has. */
export type Playhead = {
  readonly frame: number;
  readonly direction: 1 | -1;
  readonly room: number;
  readonly frames: number;
};

/** Frames kept ready in the direction of travel, where there is room. */
const onwards = 24;
const back = 90;
/** Going back, decoding begins again once fewer than this many frames are ready: a whole group is decoded at a time. */
const backLow = 45;

/**
 * The next frame worth decoding before anyone asks: the first one missing in the direction of travel, or null when
 * enough are ready. Backwards the distance is longer, because frames come a whole group of pictures at a time, and
 * nothing is begun while enough frames are ready.
 */
export function nextAhead(head: Playhead, has: (frame: number) => boolean): number | null {
  const reach = Math.min(head.direction === 1 ? onwards : back, Math.floor(head.room * 0.6));
  for (let away = 1; away <= reach; away += 1) {
    const frame = head.frame + away * head.direction;
    if (frame < 0 || frame >= head.frames) return null;
    if (!has(frame)) return head.direction === -1 && away > Math.min(backLow, reach / 2) ? null : frame;
  }
  return null;
}
