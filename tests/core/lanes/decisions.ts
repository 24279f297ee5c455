import { pointsSurface } from '../../../src/core/expectation/points-surface.ts';
import { yardsModels } from '../../../src/core/expectation/yards-model.ts';
import type { Lane } from '../../../src/core/lanes/lane.ts';
import { ledger, type Ledger } from '../../../src/core/lanes/ledger.ts';

/** What the tests value lanes with. */
export const choices = Object.freeze({ model: yardsModels.college, surface: pointsSurface });

/** A lane of three figures. */
export function lane(name: string, low: number, likely: number, high: number, taken = false): Lane {
  return Object.freeze({ name, state: 'open', low, likely, high, taken });
}

/** The ledger of lanes at a snap; throws where there is none. */
export function ledgerAt(down: number, toGo: number, yardsToGoal: number, lanes: readonly Lane[]): Ledger {
  const answer = ledger({ snap: { down, toGo, yardsToGoal }, lanes: Object.freeze([...lanes]) }, choices);
  if (!answer.known) throw new Error(answer.detail);
  return answer.value;
}
