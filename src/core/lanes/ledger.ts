/** The lane ledger of one decision: what each way was worth, and what the one taken left. It never reads the result. */
import { type ClockFault, clockAllows, type GameClock } from '../expectation/expected-points.ts';
import { type ExpectationFault, expectedYards } from '../expectation/expected-yards.ts';
import type { GainChances, RunSituation } from '../expectation/hazard.ts';
import { type NextState, pointsAfter, stateAfter } from '../expectation/next-state.ts';
import { surfaceError } from '../expectation/points-error.ts';
import { type PointsSurface, surfacePoints } from '../expectation/points-surface.ts';
import type { YardsModel } from '../expectation/yards-model.ts';
import { type Known, known, unknown } from '../known.ts';
import { type Situation, situationFrom } from '../plays/situation.ts';
import { classicRule, type SuccessRule } from '../plays/success-rules.ts';
import { yardsNeeded } from '../plays/success.ts';
import { checkLane, type Lane, type LaneFault } from './lane.ts';
import { laneGains } from './lane-gains.ts';
import { type ValueLeft, valueLeft } from './value-left.ts';

/** A decision: its snap, its moment, and the lanes that were there. */
export type Decision = {
  readonly snap: Omit<RunSituation, 'down'> & { readonly down: number };
  readonly clock?: GameClock;
  readonly lanes: readonly Lane[];
};

/** What values are made with: the study's choices. */
export type LedgerChoices = {
  readonly model: YardsModel;
  readonly surface: PointsSurface;
  readonly rule?: SuccessRule;
  /** How many carries down the very lane an estimate is worth; see estimateWorth. */
  readonly worth?: number;
};

/**
 * A lane's value is not surer than if it had been seen run this many times: its standard error is the spread of its
 * outcomes over the square root of this. Own convention, no source; made to be edited.
 */
export const estimateWorth = 9;

/** One lane of the ledger. Points are those of the next score in the half; chances from 0 to 1. */
export type LaneLine = {
  readonly lane: Lane;
  readonly gains: GainChances;
  /** Mean gain, yards. */
  readonly yards: number;
  /** Mean of expected points after the run, and how well that is known (estimate and surface together). */
  readonly points: number;
  readonly standardError: number;
  /** Points less those of the snap. */
  readonly added: number;
  readonly chanceOfLoss: number;
  readonly chanceOfSuccess: number;
  readonly chanceOfFirstDown: number;
  readonly chanceOfScore: number;
  /** What low, likely and high lead to. */
  readonly leadsTo: { readonly low: NextState; readonly likely: NextState; readonly high: NextState };
};

/** The ledger: lanes in the order given. */
export type Ledger = {
  readonly situation: Situation;
  /** Expected points of the snap itself. */
  readonly before: number;
  readonly lines: readonly LaneLine[];
  readonly left: Known<ValueLeft, 'none taken' | 'several taken' | 'one lane'>;
};

/** Why there is no ledger. */
export type LedgerFault = ExpectationFault | ClockFault | LaneFault | 'no lanes';

/**
 * Values the lanes of a decision. Reasons: those of expectedYards, of clockAllows (end of half, end of game, overtime),
 * of checkLane, and 'no lanes'. Throws RangeError on a worth that is not above 0.
 * Value = sum over gains of P(gain) x expected points after it (next-state.ts).
 */
export function ledger(decision: Decision, choices: LedgerChoices): Known<Ledger, LedgerFault> {
  const worth = choices.worth ?? estimateWorth;
  if (!(worth > 0 && worth < Infinity))
    throw new RangeError(`an estimate's worth wants a number above 0, got ${worth}`);
  const expected = expectedYards(choices.model, decision.snap);
  if (!expected.known) return expected;
  const snap = situationFrom(decision.snap);
  if (!snap.known) return snap;
  const situation = snap.value;
  const allowed = clockAllows(decision.clock ?? { quarter: null, clockSeconds: null });
  if (!allowed.known) return allowed;
  if (decision.lanes.length === 0) return unknown('no lanes', 'A ledger needs at least one lane, got none.');
  for (const lane of decision.lanes) {
    const checked = checkLane(lane);
    if (!checked.known) return checked;
  }
  const before = surfacePoints(choices.surface, situation);
  const after = afterEachGain(situation, choices.surface);
  const needed = yardsNeeded(situation, choices.rule ?? classicRule);
  const lines = decision.lanes.map((lane) => {
    const gains = laneGains(lane, situation, expected.value.chances);
    const value = valueOf(gains, after, worth);
    const chanceFrom = (yards: number) => sumFrom(gains, yards);
    return {
      lane,
      gains,
      ...value,
      added: value.points - before,
      chanceOfLoss: 1 - chanceFrom(0),
      chanceOfSuccess: chanceFrom(needed),
      chanceOfFirstDown: chanceFrom(situation.toGo),
      chanceOfScore: chanceFrom(situation.yardsToGoal),
      leadsTo: {
        low: stateAfter(situation, Math.min(lane.low, situation.yardsToGoal)),
        likely: stateAfter(situation, Math.min(lane.likely, situation.yardsToGoal)),
        high: stateAfter(situation, Math.min(lane.high, situation.yardsToGoal)),
      },
    };
  });
  return known({ situation, before, lines, left: valueLeft(lines) });
}

/** Points after each gain from -30 (or the own goal line) to the goal line, and their sampling error. */
type After = { readonly from: number; readonly points: readonly number[]; readonly errors: readonly number[] };

function afterEachGain(situation: Situation, surface: PointsSurface): After {
  const from = -Math.min(30, 100 - situation.yardsToGoal);
  const points: number[] = [];
  const errors: number[] = [];
  for (let gain = from; gain <= situation.yardsToGoal; gain += 1) {
    points.push(pointsAfter(surface, situation, gain));
    const next = stateAfter(situation, gain);
    errors.push(next.kind === 'touchdown' || next.kind === 'safety' ? 0 : surfaceError(surface, next));
  }
  return { from, points, errors };
}

function valueOf(gains: GainChances, after: After, worth: number) {
  let yards = 0;
  let points = 0;
  let squares = 0;
  let surface = 0;
  for (const [at, chance] of gains.chances.entries()) {
    const gain = gains.from + at;
    const value = after.points[gain - after.from] ?? 0;
    yards += chance * gain;
    points += chance * value;
    squares += chance * value * value;
    surface += chance * (after.errors[gain - after.from] ?? 0);
  }
  const spread = Math.max(0, squares - points * points);
  return { yards, points, standardError: Math.sqrt(spread / worth + surface * surface) };
}

function sumFrom(gains: GainChances, yards: number): number {
  let sum = 0;
  for (const [at, chance] of gains.chances.entries()) if (gains.from + at >= yards) sum += chance;
  return Math.min(1, sum);
}
