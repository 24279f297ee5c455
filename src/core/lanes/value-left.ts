/** What the lane taken left against the best one, and how much of that equal lanes would show by chance. */
import { type Known, known, unknown } from '../known.ts';
import type { Lane } from './lane.ts';
import { largestOfEquals } from './largest-of-equals.ts';

/** What valueLeft reads of a lane. */
export type ValuedLane = {
  readonly lane: Lane;
  readonly yards: number;
  readonly points: number;
  readonly standardError: number;
  readonly chanceOfLoss: number;
};

/** Points and yards left; see each field. */
export type ValueLeft = {
  /** Best value less the taken lane's, points, from 0. */
  readonly points: number;
  /** Mean yards of the best lane (by points) less those of the taken one; may be below 0. */
  readonly yards: number;
  /** Of the points left, from the errors of both lanes; 0 when the taken lane is the best. */
  readonly standardError: number;
  /** What choosing at will among this many equal lanes, as surely known as these, would seem to leave; points, from 0. */
  readonly byChance: number;
  /** points less byChance: over many decisions its mean is 0 for a runner who chooses at will among equals. */
  readonly beyondChance: number;
  readonly takenIsBest: boolean;
  /** Taken less the best other lane, points, and the error of that: how clear the choice was. */
  readonly margin: number;
  readonly marginError: number;
  /** Whether the taken lane had the lower chance of a loss than the best other lane. */
  readonly takenIsSafer: boolean;
};

/**
 * The value left by the lane taken. The order of the lanes does not matter; listing another lane that is worth no more
 * than the best never raises beyondChance. Reasons: 'one lane' (nothing to choose), 'none taken', 'several taken'. Throws
 * RangeError on values that are not numbers within 1000 either way.
 * Source of the correction: the mean of the largest of equal normal estimates, see largest-of-equals.ts.
 */
export function valueLeft(lines: readonly ValuedLane[]): Known<ValueLeft, 'one lane' | 'none taken' | 'several taken'> {
  for (const { points, yards, standardError, chanceOfLoss } of lines) {
    if (![points, yards, standardError, chanceOfLoss].every((value) => Math.abs(value) <= 1000)) {
      throw new RangeError(
        `a valued lane wants numbers of at most 1000 either way, got ${points}, ${yards}, ${standardError}, ${chanceOfLoss}`,
      );
    }
  }
  if (lines.length < 2) return unknown('one lane', 'Value left needs at least two lanes to choose from.');
  const taken = lines.filter(({ lane }) => lane.taken);
  const [own] = taken;
  if (own === undefined) return unknown('none taken', 'Value left needs to know which lane was taken.');
  if (taken.length > 1) return unknown('several taken', `One lane is taken, got ${taken.length}.`);
  const other = bestOf(lines.filter((line) => line !== own));
  const takenIsBest = own.points >= other.points;
  const points = takenIsBest ? 0 : other.points - own.points;
  const marginError = Math.hypot(own.standardError, other.standardError);
  const byChance = largestOfEquals(lines.map(({ standardError }) => standardError));
  return known({
    points,
    yards: takenIsBest ? 0 : other.yards - own.yards,
    standardError: takenIsBest ? 0 : marginError,
    byChance,
    beyondChance: points - byChance,
    takenIsBest,
    margin: own.points - other.points,
    marginError,
    takenIsSafer: own.chanceOfLoss < other.chanceOfLoss,
  });
}

/** The lane with most points; among equals the safest, then the surest, so that the order given never matters. */
function bestOf(lines: readonly ValuedLane[]): ValuedLane {
  const [best] = [...lines].sort(
    (a, b) =>
      b.points - a.points || a.chanceOfLoss - b.chanceOfLoss || a.standardError - b.standardError || a.yards - b.yards,
  );
  if (best === undefined) throw new RangeError('the best lane wants at least one lane, got none');
  return best;
}
