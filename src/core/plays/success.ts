/** Whether a carry was a success. */
import { checkGain, checkSituation, type Situation } from './situation.ts';
import { checkRule, type SuccessRule } from './success-rules.ts';

/** A carry with a possible situation and its gain in whole yards, at most yardsToGoal. */
export type GainedCarry = { readonly situation: Situation; readonly gain: number };

/**
 * Yards a carry must gain to succeed: the rule's share of the yards to go, rounded up to a whole yard, and never past
 * the goal line: min(ceil(share x toGo), yardsToGoal), from 0 to 99. Whole-number arithmetic throughout. Throws
 * RangeError on a rule or a snap that cannot be.
 * Source: Carroll, Palmer & Thorn 1988 (via secondary text); the goal-line rule as worked in Stuart 2012 (secondary).
 */
export function yardsNeeded(situation: Situation, rule: SuccessRule): number {
  checkRule(rule);
  checkSituation(situation);
  const [first, second, third, fourth] = rule.shares;
  const share = { 1: first, 2: second, 3: third, 4: fourth }[situation.down];
  const product = share.part * situation.toGo;
  const short = product % share.whole === 0 ? 0 : 1;
  return Math.min((product - (product % share.whole)) / share.whole + short, situation.yardsToGoal);
}

/**
 * Whether the carry gained what the rule asks; a touchdown always did. The gain alone decides: a fumble or penalty is
 * charted beside it. Throws RangeError on a gain that is not whole or goes past the goal line.
 */
export function isSuccess(carry: GainedCarry, rule: SuccessRule): boolean {
  checkGain(carry.situation, carry.gain);
  return carry.gain >= yardsNeeded(carry.situation, rule);
}
