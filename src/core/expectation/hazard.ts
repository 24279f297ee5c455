/** From a model and a situation to the chance of each gain. */
import { checkSituation, type Situation } from '../plays/situation.ts';
import {
  alphaRanges,
  type Feature,
  longestShortGain,
  lowestGain,
  type Segment,
  segments,
  type YardsModel,
} from './yards-model.ts';

/** A possible snap with what else may be charted: shotgun yes or no, men in the box 0 to 11; left out where not known. */
export type RunSituation = Situation & {
  readonly shotgun?: boolean | null | undefined;
  readonly box?: number | null | undefined;
};

/** The chance of each whole-yard gain from `from` on; chances are from 0 to 1 and add up to 1. */
export type GainChances = { readonly from: number; readonly chances: readonly number[] };

/** The level of a feature in a situation; null where it is not charted (which adds nothing). */
export function levelOf(feature: Feature, run: RunSituation): string | null {
  return levels[feature](run);
}

const levels: Readonly<Record<Feature, (run: RunSituation) => string | null>> = {
  down: ({ down }) => String(down),
  toGo: ({ toGo }) => (toGo <= 3 ? String(toGo) : toGo <= 6 ? '4-6' : toGo <= 9 ? '7-9' : toGo === 10 ? '10' : '11+'),
  yardsToGoal: ({ yardsToGoal }) => {
    if (yardsToGoal <= 2) return '1-2';
    if (yardsToGoal <= 5) return '3-5';
    if (yardsToGoal <= 10) return '6-10';
    if (yardsToGoal <= 20) return '11-20';
    if (yardsToGoal <= 50) return '21-50';
    return yardsToGoal <= 80 ? '51-80' : '81-99';
  },
  shotgun: ({ shotgun }) => (shotgun === null || shotgun === undefined ? null : shotgun ? '1' : '0'),
  box: ({ box }) => (box === null || box === undefined ? null : box <= 5 ? '5-' : box >= 10 ? '10+' : String(box)),
  shortYardageLateDown: ({ down, toGo }) => (down >= 3 && toGo <= 2 ? '1' : '0'),
};

/** The segment a gain lies in; any whole yard. */
export function segmentOf(gain: number): Segment {
  if (gain < 0) return 'loss';
  if (gain <= 2) return gain === 0 ? '0' : gain === 1 ? '1' : '2';
  return gain <= 5 ? '3-5' : gain <= 9 ? '6-9' : '10+';
}

/** Whether the line to gain pulls runs towards it: it lies short of the goal line and within 20 yards. */
export function hasSticks(situation: Situation): boolean {
  return situation.toGo < situation.yardsToGoal && situation.toGo <= 20;
}

/**
 * The chance of each gain from -4 (which stands for -4 and below) to the goal line, where the run ends in a touchdown:
 * P(g) = h(g) x product of (1 - h(j)) over j < g, with h logistic in the situation. `boxFrom` adds another model's
 * effect of men in the box, relative to seven, in place of this model's own. Throws RangeError on a snap that cannot be.
 * Source of the form: discrete-time hazard (continuation-ratio) regression, Cox 1972, J. R. Stat. Soc. B 34:187-220,
 * sec. on discrete time (citation from memory).
 */
export function gainChances(model: YardsModel, run: RunSituation, boxFrom?: YardsModel): GainChances {
  checkSituation(run);
  const effect = segmentEffects(model, run, boxFrom);
  const sticks = hasSticks(run);
  const last = Math.min(run.yardsToGoal, longestShortGain + 1);
  const chances: number[] = [];
  let alive = 1;
  for (const { key, from, to } of alphaRanges) {
    const base = model.alpha[key] ?? 0;
    for (let gain = from; gain <= to && gain < last; gain += 1) {
      let logit = base + effect[segmentOf(gain)];
      if (sticks && gain === run.toGo - 1) logit += model.sticks.oneShort;
      if (sticks && gain === run.toGo) logit += model.sticks.atSticks;
      const ends = 1 / (1 + Math.exp(-logit));
      chances.push(alive * ends);
      alive *= 1 - ends;
    }
  }
  chances.push(alive);
  return { from: lowestGain, chances };
}

function segmentEffects(model: YardsModel, run: RunSituation, boxFrom?: YardsModel): Readonly<Record<Segment, number>> {
  const own: readonly Feature[] = [...model.features, 'shortYardageLateDown'];
  const read = own
    .filter((feature) => boxFrom === undefined || feature !== 'box')
    .map((feature) => ({ feature, level: levelOf(feature, run) }));
  const boxLevel = boxFrom === undefined ? null : levelOf('box', run);
  const total = { loss: 0, '0': 0, '1': 0, '2': 0, '3-5': 0, '6-9': 0, '10+': 0 };
  for (const segment of segments) {
    const beta = model.beta[segment] ?? {};
    let sum = 0;
    for (const { feature, level } of read) if (level !== null) sum += beta[feature]?.[level] ?? 0;
    if (boxFrom !== undefined && boxLevel !== null) sum += boxFrom.beta[segment]?.box?.[boxLevel] ?? 0;
    total[segment] = sum;
  }
  return total;
}
