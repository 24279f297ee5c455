/** The chance of each gain down a lane. */
import type { GainChances } from '../expectation/hazard.ts';
import { checkSituation, type Situation } from '../plays/situation.ts';
import { checkLane, type Lane } from './lane.ts';
import { splitNormalCdf, splitNormalFrom } from './split-normal.ts';

/** Losses beyond this are counted here, and none goes past the own goal line. */
const longestLoss = 30;

/**
 * The chance of each whole yard, from the longest loss to the goal line. Up to high it is the split normal of the lane's
 * low, likely and high, a yard at a time; what the split normal leaves beyond high is laid out as the model lays out
 * runs that long, so that a breakaway keeps its worth; and all of it is cut at the goal line. `model` is the chance of
 * each gain in this situation (hazard.ts). Throws RangeError on a lane that checkLane refuses and on a snap that cannot be.
 * Background of judging by three figures: Malcolm, Roseboom, Clark & Fazar 1959, Operations Research 7:646-669.
 */
export function laneGains(lane: Lane, situation: Situation, model: GainChances): GainChances {
  checkSituation(situation);
  const checked = checkLane(lane);
  if (!checked.known) throw new RangeError(checked.detail);
  const body = splitNormalFrom(lane.low, lane.likely, lane.high);
  const goal = situation.yardsToGoal;
  const from = -Math.min(longestLoss, 100 - goal);
  const chances: number[] = [];
  let below = 0;
  const bodyEnds = Math.min(Math.max(lane.high, from), goal);
  for (let gain = from; gain <= bodyEnds; gain += 1) {
    const upTo = gain === goal ? 1 : splitNormalCdf(body, gain + 0.5);
    chances.push(Math.max(0, upTo - below));
    below = upTo;
  }
  if (bodyEnds === goal) return { from, chances };
  const left = 1 - below;
  let beyond = 0;
  for (let gain = bodyEnds + 1; gain <= goal; gain += 1) beyond += chanceAt(model, gain);
  for (let gain = bodyEnds + 1; gain <= goal; gain += 1) {
    // A model that sees no run beyond high leaves the rest one yard past it.
    const share = beyond > 0 ? chanceAt(model, gain) / beyond : gain === bodyEnds + 1 ? 1 : 0;
    chances.push(left * share);
  }
  return { from, chances };
}

function chanceAt(model: GainChances, gain: number): number {
  return model.chances[gain - model.from] ?? 0;
}
