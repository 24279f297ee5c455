import type { Part, Play, Setting } from '../../contract/rows.ts';
import { studySettings } from '../../contract/study-settings.ts';
import { carryJudge, type CarryFigures, type CarryFiguresFault } from '../../core/expectation/carry-figures.ts';
import { yardstickOf } from '../../core/expectation/yardstick.ts';
import { known, type Known } from '../../core/known.ts';

type Judge = ReturnType<typeof carryJudge>;
const judges = new WeakMap<readonly Setting[], Judge>();

function judgeFor(settings: readonly Setting[]): Judge {
  const kept = judges.get(settings);
  if (kept !== undefined) return kept;
  const made = carryJudge(yardstickOf(studySettings(settings)));
  judges.set(settings, made);
  return made;
}

/** Expected yards of a carry, and its delta (yards) and success where the gain is charted, by the study's choices. */
export function carryFigures(
  play: Play,
  part: Part,
  settings: readonly Setting[],
): Known<{ expected: number; delta: number | null; success: boolean | null }, CarryFiguresFault> {
  const answer = judgeFor(settings)({ ...play, gain: part.gain });
  if (!answer.known) return answer;
  const { expected, residual, success }: CarryFigures = answer.value;
  return known({ expected: expected.mean, delta: residual?.delta ?? null, success });
}
