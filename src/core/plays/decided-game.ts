/** Whether a game was already decided when a carry was run, by a rule the evaluator may edit. */
import { type Known, known, unknown } from '../known.ts';

/** From this margin on (points, either way) a game counts as decided in this quarter (1 to 4). */
export type DecidedLine = { readonly quarter: number; readonly margin: number };

/** One line a quarter; a quarter without a line, and overtime, is never decided. */
export type DecidedRule = { readonly lines: readonly DecidedLine[] };

/** Second quarter 38 points, third 28, fourth 22. Common practice, no source; made to be edited. */
export const usualDecidedRule: DecidedRule = {
  lines: [
    { quarter: 2, margin: 38 },
    { quarter: 3, margin: 28 },
    { quarter: 4, margin: 22 },
  ],
};

/** Quarter 1 to 9 (5 and up is overtime) and the two scores before the snap; null is not charted. */
export type GameMoment = {
  readonly quarter: number | null;
  readonly scoreFor: number | null;
  readonly scoreAgainst: number | null;
};

/**
 * Whether the game was decided by the rule. Reasons: 'quarter not charted', 'score not charted'. Throws RangeError on a
 * rule whose margins, or scores that, are not numbers of points from 0.
 */
export function isDecided(
  moment: GameMoment,
  rule: DecidedRule,
): Known<boolean, 'quarter not charted' | 'score not charted'> {
  for (const { quarter, margin } of rule.lines) {
    if (!(Number.isInteger(quarter) && quarter >= 1 && quarter <= 4 && margin >= 0 && margin < Infinity)) {
      throw new RangeError(
        `a decided-game line wants a quarter from 1 to 4 and a margin from 0, got ${quarter}, ${margin}`,
      );
    }
  }
  const { quarter, scoreFor, scoreAgainst } = moment;
  if (quarter === null) return unknown('quarter not charted', 'Whether the game was decided needs the quarter.');
  const line = rule.lines.find((one) => one.quarter === quarter);
  if (line === undefined) return known(false);
  if (scoreFor === null || scoreAgainst === null) {
    return unknown('score not charted', 'Whether the game was decided needs both scores before the snap.');
  }
  if (!(scoreFor >= 0 && scoreFor < Infinity && scoreAgainst >= 0 && scoreAgainst < Infinity)) {
    throw new RangeError(`scores want points from 0, got ${scoreFor} and ${scoreAgainst}`);
  }
  return known(Math.abs(scoreFor - scoreAgainst) >= line.margin);
}

/** Items parted by whether their game was decided; what cannot be told is kept among the live ones and counted. */
export type DecidedParts<Item> = {
  readonly live: readonly Item[];
  readonly decided: readonly Item[];
  readonly cannotTell: number;
};

/** Parts items, in their own order, for splits with and without decided games. Throws as isDecided. */
export function partByDecided<Item>(
  items: readonly Item[],
  momentOf: (item: Item) => GameMoment,
  rule: DecidedRule,
): DecidedParts<Item> {
  const live: Item[] = [];
  const decided: Item[] = [];
  let cannotTell = 0;
  for (const item of items) {
    const answer = isDecided(momentOf(item), rule);
    if (!answer.known) cannotTell += 1;
    if (answer.known && answer.value) decided.push(item);
    else live.push(item);
  }
  return { live, decided, cannotTell };
}
