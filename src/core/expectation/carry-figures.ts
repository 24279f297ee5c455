/** What one carry is worth by the study's own choices: the same for the strip, the sentence, the sheet and the page. */
import { known, unknown, type Known } from '../known.ts';
import { situationOf, type ChartedSituation } from '../plays/situation.ts';
import type { SuccessRule } from '../plays/success-rules.ts';
import { residualOf, type Residual } from './delta.ts';
import { expectedYards, type ExpectationFault, type ExpectedYards } from './expected-yards.ts';
import type { YardsModel } from './yards-model.ts';

/** By what a carry is judged. */
export type CarryYardstick = {
  readonly model: YardsModel;
  readonly rule: SuccessRule;
  readonly borrowBox: boolean;
};

/** A charted carry: spot in yards from the own goal line, gain in whole yards, box in men; null: not charted. */
export type ChartedCarry = ChartedSituation & { readonly gain: number | null; readonly box: number | null };

/** Its expectation, and where the gain is charted what it made of it. */
export type CarryFigures = {
  readonly expected: ExpectedYards;
  /** Null while the gain is not charted. */
  readonly residual: Residual | null;
  readonly success: boolean | null;
};

export type CarryFiguresFault = ExpectationFault | 'not charted' | 'gain past the goal line';

/**
 * Makes the judge of carries for one yardstick; it remembers expectations by situation, so a season of carries costs
 * little more than its different situations. Reasons: those of situationOf and expectedYards, and 'gain past the goal line'.
 */
export function carryJudge({
  model,
  rule,
  borrowBox,
}: CarryYardstick): (carry: ChartedCarry) => Known<CarryFigures, CarryFiguresFault> {
  const remembered = new Map<string, Known<ExpectedYards, ExpectationFault>>();
  return (carry) => {
    const situation = situationOf(carry);
    if (!situation.known) return situation;
    const { down, toGo, yardsToGoal } = situation.value;
    const key = `${down} ${toGo} ${yardsToGoal} ${carry.box ?? ''}`;
    let expected = remembered.get(key);
    if (expected === undefined) {
      expected = expectedYards(model, { ...situation.value, box: carry.box }, { rule, borrowBox });
      remembered.set(key, expected);
    }
    if (!expected.known) return expected;
    const { gain } = carry;
    if (gain === null) return known({ expected: expected.value, residual: null, success: null });
    if (gain > yardsToGoal) {
      return unknown(
        'gain past the goal line',
        `The goal line is ${yardsToGoal} yards away, the gain charted is ${gain}.`,
      );
    }
    return known({
      expected: expected.value,
      residual: residualOf(gain, expected.value),
      success: gain >= expected.value.needed,
    });
  };
}
