import { useEffect, useState } from 'react';
import { boardDraws } from '../../contract/board-answer.ts';
import type { BoardView } from '../../contract/comparison-views.ts';
import type { TraitDraws } from '../../core/board/trait-draws.ts';
import { randomFrom } from '../../core/random.ts';

/** Small enough that no part holds the window up; even, because draws come in pairs. */
const part = 100;

/** Draws the class once for every weight to come, in parts between which the window breathes; null until all are there. */
export function useDraws(view: BoardView | null): TraitDraws | null {
  const [drawn, setDrawn] = useState<{ readonly of: BoardView; readonly draws: TraitDraws } | null>(null);
  useEffect(() => {
    if (view === null) return;
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
      else setDrawn({ of: view, draws: { ...some, draws: view.draws, values } });
    };
    draw();
    return () => {
      gone = true;
    };
  }, [view]);
  return drawn !== null && drawn.of === view ? drawn.draws : null;
}
