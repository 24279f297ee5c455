import type { FitCarry } from '../../../src/core/expectation/fit-carry.ts';
import { type GainChances, gainChances } from '../../../src/core/expectation/hazard.ts';
import type { YardsModel } from '../../../src/core/expectation/yards-model.ts';
import type { Down } from '../../../src/core/plays/situation.ts';
import type { Random } from '../../../src/core/random.ts';

/** Draws a gain from a distribution. */
export function drawGain(pmf: GainChances, random: Random): number {
  let left = random.uniform();
  for (const [at, chance] of pmf.chances.entries()) {
    if (left < chance) return pmf.from + at;
    left -= chance;
  }
  return pmf.from + pmf.chances.length - 1;
}

const downs: readonly Down[] = [1, 1, 1, 1, 2, 2, 2, 3, 3, 4];

/** Draws carries all over the field from a known model, with shotgun and box where the model reads them. */
export function drawCarries(model: YardsModel, count: number, random: Random): readonly FitCarry[] {
  const made = new Map<string, GainChances>();
  const withBox = model.features.includes('box');
  const withShotgun = model.features.includes('shotgun');
  return Array.from({ length: count }, (_, at): FitCarry => {
    const down = downs[random.below(downs.length)] ?? 1;
    const yardsToGoal = 1 + random.below(99);
    const wanted = down === 1 ? (random.below(20) === 0 ? 5 + random.below(15) : 10) : 1 + random.below(14);
    const toGo = Math.min(yardsToGoal, wanted);
    const shotgun = withShotgun ? random.below(2) === 1 : null;
    const box = withBox ? 5 + random.below(6) : null;
    const key = `${down} ${toGo} ${yardsToGoal} ${shotgun} ${box}`;
    let pmf = made.get(key);
    if (pmf === undefined) made.set(key, (pmf = gainChances(model, { down, toGo, yardsToGoal, shotgun, box })));
    const gain = drawGain(pmf, random);
    return { down, toGo, yardsToGoal, gain, shotgun, box, season: String(2014 + (at % 6)), runner: null };
  });
}
