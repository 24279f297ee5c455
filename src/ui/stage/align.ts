import type { StageGame } from '../../contract/calls.ts';
import { nearestFrame } from '../../core/time/frame-times.ts';
import type { FrameTable } from '../../film/table/frame-table.ts';

/**
 * The frame of another span that shows the same instant as a frame of this one: by the nearest moment tagged in both,
 * each at its own frame rate and time scale. Undefined when the two share no moment.
 */
export function alignedFrame(
  game: StageGame,
  tables: Readonly<Record<string, FrameTable>>,
  fromSpan: string,
  toSpan: string,
  frame: number,
): number | undefined {
  const from = game.spans.find(({ id }) => id === fromSpan);
  const to = game.spans.find(({ id }) => id === toSpan);
  if (from === undefined || to === undefined) return undefined;
  const there = new Map(game.moments.filter(({ spanId }) => spanId === toSpan).map((moment) => [moment.name, moment]));
  const [nearest] = game.moments
    .filter((moment) => moment.spanId === fromSpan && there.has(moment.name))
    .toSorted((a, b) => Math.abs(a.frame - frame) - Math.abs(b.frame - frame));
  const twin = nearest === undefined ? undefined : there.get(nearest.name);
  if (nearest === undefined || twin === undefined) return undefined;
  const here = tables[from.filmId]?.times;
  const times = tables[to.filmId]?.times;
  if (nearest.frame === frame || here === undefined || times === undefined) return twin.frame;
  const passed = ((here[frame] ?? nearest.time) - nearest.time) / (from.timeScale ?? 1);
  const found = nearestFrame(times, Math.max(0, twin.time + passed * (to.timeScale ?? 1)));
  return found.known ? Math.min(to.outFrame, Math.max(to.inFrame, found.value)) : twin.frame;
}
