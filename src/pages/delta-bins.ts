/** Gains against expected yards gathered in bins of equal width, long runs and losses kept at the ends. */
import { bin } from 'd3-array';
import type { CarryView } from '../contract/views.ts';

/** Carries whose delta lies in [from, to) yards; `open` says that the bin takes everything beyond its outer end too. */
export type DeltaBin = {
  readonly from: number;
  readonly to: number;
  readonly count: number;
  readonly open: 'below' | 'above' | null;
};

// Beyond these a bin takes all: one 60-yard run would press the rest of the picture flat.
const lowest = -8;
const highest = 16;

/** The deltas of the carries that count and have one, in the order of the carries, in yards. */
export function deltasOf(carries: readonly CarryView[]): readonly number[] {
  return carries.flatMap(({ counts, delta }) => (counts && delta !== null ? [delta] : []));
}

/** Gathers deltas in bins one yard wide with a bin's edge at 0, from the lowest to the highest delta; none for none. */
export function deltaBins(deltas: readonly number[]): readonly DeltaBin[] {
  if (deltas.length === 0) return [];
  const low = Math.max(lowest, Math.min(-1, Math.floor(Math.min(...deltas))));
  const high = Math.min(highest, Math.max(1, Math.floor(Math.max(...deltas)) + 1));
  const edges = Array.from({ length: high - low - 1 }, (_, at) => low + 1 + at);
  // The last bin of the library is closed above, so the domain's end lies a hair beyond what is clamped to.
  const clamped = deltas.map((delta) => Math.min(high - 1e-9, Math.max(low, delta)));
  return bin()
    .domain([low, high])
    .thresholds(edges)(clamped)
    .map((members) => {
      const from = members.x0 ?? low;
      const to = members.x1 ?? high;
      const below = from === low && deltas.some((delta) => delta < low);
      const above = to === high && deltas.some((delta) => delta >= high);
      return { from, to, count: members.length, open: below ? 'below' : above ? 'above' : null };
    });
}
