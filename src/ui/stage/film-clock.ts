import { timecodeOf } from '../../core/time/timecode.ts';
import type { FrameTable } from '../../film/table/frame-table.ts';

/** A frame's timecode at the film's rate, or for a variable rate the words that say why it has none. */
export function formatTimecode(table: FrameTable, frame: number): string {
  if (table.variableRate) return 'variable rate';
  const code = timecodeOf(frame, table.rate);
  return code.known ? code.value : 'no timecode';
}
