import { create } from 'zustand';
import type { Chalk } from '../../../contract/rows.ts';
import type { ChalkPoint, ChalkTool } from './chalk-geometry.ts';

/** What the hands are in the middle of while chalk is drawn. */
export type ChalkState = {
  open: boolean;
  tool: ChalkTool;
  /** Where the next point would be set, film pixels. */
  cross: ChalkPoint;
  /** Points of the shape being drawn; null: none is. */
  drawing: readonly ChalkPoint[] | null;
  /** True while a freehand line follows the hand or the cross. */
  tracing: boolean;
  chosenId: string | null;
  /** The point of the chosen shape that is moved; null: the whole shape. */
  pointIndex: number | null;
  /** A shape as it looks while it is moved; kept as one change when it is let go. */
  moved: { readonly id: string; readonly points: readonly ChalkPoint[] } | null;
  /** Words being written: a new text's place, or the shape whose words are changed. */
  writing: { readonly at: ChalkPoint; readonly id: string | null; readonly words: string } | null;
  /** From and to frame of what is drawn next, where set by hand. */
  from: number | null;
  to: number | null;
};

export const useChalk = create<ChalkState>(() => ({
  open: false,
  tool: 'arrow',
  cross: [0, 0],
  drawing: null,
  tracing: false,
  chosenId: null,
  pointIndex: null,
  moved: null,
  writing: null,
  from: null,
  to: null,
}));

/** The chalk as it looks now: the shape that is moved where the hand holds it. */
export function chalkNow(chalk: readonly Chalk[], moved: ChalkState['moved']): Chalk[] {
  return chalk.map((each) =>
    each.id === moved?.id ? { ...each, points: moved.points.map(([x, y]): [number, number] => [x, y]) } : each,
  );
}
