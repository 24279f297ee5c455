import { residualOf, deltaSummary } from '../../../src/core/expectation/delta.ts';
import type { ExpectedYards } from '../../../src/core/expectation/expected-yards.ts';
import { expectedYards } from '../../../src/core/expectation/expected-yards.ts';
import { type YardsModel, yardsModels } from '../../../src/core/expectation/yards-model.ts';
import { rateOf } from '../../../src/core/plays/success-rate.ts';
import type { Random } from '../../../src/core/random.ts';
import { drawGain } from './draw-carry.ts';

const college = yardsModels.college;

/** The college model of a runner who ends his runs later (below 0) or sooner (above 0), on the logit scale. */
function shifted(shift: number): YardsModel {
  return { ...college, alpha: Object.fromEntries(Object.entries(college.alpha).map(([key, at]) => [key, at + shift])) };
}

const places = [
  { down: 1, toGo: 10, yardsToGoal: 75 },
  { down: 1, toGo: 10, yardsToGoal: 45 },
  { down: 1, toGo: 10, yardsToGoal: 18 },
  { down: 2, toGo: 7, yardsToGoal: 60 },
  { down: 2, toGo: 3, yardsToGoal: 38 },
  { down: 3, toGo: 2, yardsToGoal: 55 },
  { down: 1, toGo: 4, yardsToGoal: 4 },
] as const;

function expectationsOf(model: YardsModel): readonly ExpectedYards[] {
  return places.map((place) => {
    const answer = expectedYards(model, place);
    if (!answer.known) throw new Error(answer.detail);
    return answer.value;
  });
}

const ordinary = expectationsOf(college);
/** Runners and games come from a fixed ladder of shifts, so that each distribution is worked out once. */
const step = 0.02;
const ladder = new Map<number, readonly ExpectedYards[]>();
function onLadder(shift: number): readonly ExpectedYards[] {
  const rung = Math.max(-50, Math.min(50, Math.round(shift / step)));
  let made = ladder.get(rung);
  if (made === undefined) ladder.set(rung, (made = expectationsOf(shifted(rung * step))));
  return made;
}

/**
 * Share of 95 % intervals of success and of delta that hold the runner's own true value, over worlds of 20 runners with
 * 2 to 10 games of 6 to 12 carries. `betweenGames` is the spread of games about a runner on the logit scale: 0 is what
 * the intervals assume.
 */
export function coverage(
  worlds: number,
  random: Random,
  betweenGames = 0,
): { readonly success: number; readonly delta: number } {
  let success = 0;
  let delta = 0;
  for (let runner = 0; runner < worlds * 20; runner += 1) {
    const own = 0.08 * random.normal();
    const truth = onLadder(own);
    const residuals = [];
    let hits = 0;
    let trueSuccess = 0;
    let trueDelta = 0;
    const games = 2 + random.below(9);
    for (let game = 0; game < games; game += 1) {
      const today = betweenGames === 0 ? truth : onLadder(own + betweenGames * random.normal());
      const carries = 6 + random.below(7);
      for (let carry = 0; carry < carries; carry += 1) {
        const at = random.below(places.length);
        const [expected, runners, now] = [ordinary[at], truth[at], today[at]];
        if (expected === undefined || runners === undefined || now === undefined) throw new Error('a place exists');
        const gain = drawGain(now.chances, random);
        residuals.push(residualOf(gain, expected));
        if (gain >= expected.needed) hits += 1;
        trueSuccess += runners.chanceOfSuccess;
        trueDelta += runners.mean - expected.mean;
      }
    }
    const n = residuals.length;
    const rate = rateOf({ hits, n });
    const summary = deltaSummary(residuals, college.spread.delta);
    if (!rate.known || !summary.known) throw new Error('a runner has carries');
    if (rate.value.low <= trueSuccess / n && trueSuccess / n <= rate.value.high) success += 1;
    if (Math.abs(summary.value.mean - trueDelta / n) <= 1.959964 * summary.value.standardError) delta += 1;
  }
  return { success: success / (worlds * 20), delta: delta / (worlds * 20) };
}
