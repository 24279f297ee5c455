import { useEffect, useMemo, useState } from 'react';
import {
  boardField,
  boardRest,
  boardScores,
  boardShares,
  boardStandings,
  type BoardField,
  type NoRanking,
} from '../../contract/board-answer.ts';
import type { BoardAnswer, BoardChoice, BoardView } from '../../contract/comparison-views.ts';
import { drawsOf } from '../../core/board/draws-of.ts';
import type { Standing } from '../../core/board/standings.ts';
import type { TraitDraws } from '../../core/board/trait-draws.ts';
import { known, type Known } from '../../core/known.ts';

/** A board on screen. */
export type ShownBoard = {
  readonly field: BoardField;
  readonly standings: Known<readonly Standing[], NoRanking>;
  /** Intervals, pairwise chances and swap points; of the weights before while the sliders have not come to rest. */
  readonly rest: BoardAnswer | null;
  readonly settled: boolean;
};

/** Milliseconds without a move after which the slower parts are worked out. */
const quiet = 120;

/** Answers a choice from the fixed draws: standings at once, the rest when the hand rests. Null before there are draws. */
export function useAnswer(view: BoardView | null, all: TraitDraws | null, choice: BoardChoice): ShownBoard | null {
  const { position, classYear, atLeast, includeThin } = choice;
  const field = useMemo(
    () => (view === null ? null : boardField(view, { ...choice, position, classYear, atLeast, includeThin })),
    // oxlint-disable-next-line react-hooks/exhaustive-deps -- weights do not change who is on the board
    [view, position, classYear, atLeast, includeThin],
  );
  const draws = useMemo(
    () =>
      all === null || field === null
        ? null
        : drawsOf(
            all,
            field.placed.map(({ id }) => id),
          ),
    [all, field],
  );
  const fast = useMemo(() => {
    if (view === null || field === null || draws === null) return null;
    const shares = boardShares(view, choice, field);
    if (!shares.known) return { standings: shares, work: null };
    const scored = boardScores(draws, shares.value, choice, view.seed);
    const standings = boardStandings(field.placed, scored, shares.value);
    return {
      standings: known(standings),
      work: () => boardRest(view.rubric.body, field.placed, scored, shares.value, standings),
    };
  }, [view, field, draws, choice]);
  const [kept, setKept] = useState<{ readonly of: unknown; readonly answer: BoardAnswer | null }>({
    of: null,
    answer: null,
  });
  useEffect(() => {
    if (fast === null) return;
    const { work } = fast;
    if (work === null) {
      setKept({ of: fast, answer: null });
      return;
    }
    const waiting = setTimeout(() => setKept({ of: fast, answer: work() }), quiet);
    return () => clearTimeout(waiting);
  }, [fast]);
  if (field === null || fast === null) return null;
  return { field, standings: fast.standings, rest: kept.answer, settled: kept.of === fast };
}
