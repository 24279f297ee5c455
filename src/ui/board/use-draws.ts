import { useEffect, useState } from 'react';
import { boardDraws } from '../../contract/board-answer.ts';
import type { BoardView } from '../../contract/comparison-views.ts';
import type { TraitDraws } from '../../core/board/trait-draws.ts';
import { randomFrom } from '../../core/random.ts';

/** Small enough that no part holds the window up; even, because draws come in pairs. */
const part = 100;

/** Draws of views still held somewhere: entering the room again asks for none. */
const drawn = new WeakMap<BoardView, TraitDraws>();

/** Draws the class once for every weight to come, in parts between which the window breathes; null until all are there. */
export function useDraws(view: BoardView | null): TraitDraws | null {
  const [, setDone] = useState<BoardView | null>(null);
  useEffect(() => {
    if (view === null || drawn.has(view)) return;
    let gone = false;
    const random = randomFrom(view.seed);
    let values: Float32Array | null = null;
    let done = 0;
    const draw = (): void => {
      if (gone) return;
      const some = boardDraws(view, Math.min(part, view.draws - done), random);
      values ??= new Float32Array((some.values.length / some.draws) * view.draws);
      values.set(some.values, (some.values.length / some.draws) * done);
      done += some.draws;
      if (done < view.draws) setTimeout(draw, 0);
      else {
        drawn.set(view, { ...some, draws: view.draws, values });
        setDone(view);
      }
    };
    draw();
    return () => {
      gone = true;
    };
  }, [view]);
  return view === null ? null : (drawn.get(view) ?? null);
}
