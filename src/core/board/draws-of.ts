/** Some runners' part of a set of draws, so that a filter does not ask for new ones. */
import type { TraitDraws } from './trait-draws.ts';

/**
 * The same draws for the runners named, in their order. Runners are independent given the pooled class, so these are
 * draws of the smaller class. Throws RangeError for a runner that was not drawn.
 */
export function drawsOf(all: TraitDraws, runners: readonly string[]): TraitDraws {
  const width = all.traits.length;
  const from = runners.map((runner) => {
    const at = all.runners.indexOf(runner);
    if (at < 0) throw new RangeError(`a drawn runner wanted, got ${runner}`);
    return at * width;
  });
  const size = all.runners.length * width;
  const values = new Float32Array(all.draws * runners.length * width);
  let to = 0;
  for (let draw = 0; draw < all.draws; draw += 1) {
    for (const at of from) {
      for (let trait = 0; trait < width; trait += 1) values[to + trait] = all.values[draw * size + at + trait] ?? 0;
      to += width;
    }
  }
  return { runners, traits: all.traits, draws: all.draws, values };
}
