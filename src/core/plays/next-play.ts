/** What the rules of the game say of the next snap once a play's result is known. */

/** The situation before a snap; spot in yards from the offence's own goal line, 1-99. Null: not known. */
export type Snap = {
  readonly down: number | null;
  readonly toGo: number | null;
  readonly spot: number | null;
  readonly gain: number | null;
  readonly result: string | null;
  readonly penalty: string | null;
};

/** The next situation, as far as the play tells it. */
export type NextSnap = { readonly down: number; readonly toGo: number; readonly spot: number };

/**
 * Predicts the next down, to go (yards) and spot (yards from the own goal line) from a play by the rules of the game.
 * Null when the play does not tell it: something is not charted, the ball changed hands, it scored, or there was a penalty.
 * Source: common practice, no source; the ten-yard series and goal to go are the rule book's (rule 5).
 */
export function nextSnap({ down, toGo, spot, gain, result, penalty }: Snap): NextSnap | null {
  if (down === null || toGo === null || spot === null || gain === null) return null;
  if (penalty !== null && penalty !== '') return null;
  if (result === 'touchdown' || result === 'fumble lost' || result === 'safety' || result === 'no play') return null;
  const next = spot + gain;
  if (next >= 100 || next < 1) return null;
  if (gain >= toGo) return { down: 1, toGo: Math.min(10, 100 - next), spot: next };
  return down >= 4 ? null : { down: down + 1, toGo: toGo - gain, spot: next };
}
