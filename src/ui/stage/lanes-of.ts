import type { StageGame } from '../../contract/calls.ts';
import type { Decision, Lane, Play } from '../../contract/rows.ts';
import type { StudySettings } from '../../contract/study-settings.ts';
import { pointsSurface } from '../../core/expectation/points-surface.ts';
import { yardstickOf } from '../../core/expectation/yardstick.ts';
import { ledger, type Ledger, type LedgerFault } from '../../core/lanes/ledger.ts';
import type { Known } from '../../core/known.ts';

/** A carry's decision with its lanes in order. */
export type DecisionLanes = { readonly decision: Decision; readonly lanes: readonly Lane[] };

/** An evaluator's decision on a part, with its lanes; null when there is none. */
export function decisionOf(game: StageGame, partId: string, evaluatorId: string | null): DecisionLanes | null {
  const decision = game.decisions.find((each) => each.partId === partId && each.evaluatorId === evaluatorId);
  if (decision === undefined) return null;
  const lanes = game.lanes
    .filter((lane) => lane.decisionId === decision.id)
    .toSorted((a, b) => a.position - b.position);
  return { decision, lanes };
}

/** What a play's lanes are worth by the study's choices; never reads the result. */
export function laneValues(
  play: Play,
  lanes: readonly Lane[],
  settings: StudySettings,
): Known<Ledger, LedgerFault | 'not charted'> {
  const { down, toGo, spot, box } = play;
  if (down === null || toGo === null || spot === null) {
    return { known: false, because: 'not charted', detail: 'Values need down, to go and spot.' };
  }
  const { model, rule } = yardstickOf(settings);
  return ledger(
    {
      snap: { down, toGo, yardsToGoal: 100 - spot, box },
      clock: { quarter: play.quarter, clockSeconds: play.clockSeconds },
      lanes: lanes.map(({ name, state, low, likely, high, taken }) => ({ name, state, low, likely, high, taken })),
    },
    { model, surface: pointsSurface, rule },
  );
}
