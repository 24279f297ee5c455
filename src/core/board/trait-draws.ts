/** Joint draws of every runner's traits: made once, read again for every set of weights while a slider moves. */
import { CholeskyDecomposition, Matrix } from 'ml-matrix';
import type { JointPosterior } from '../grades/joint-posterior.ts';
import type { Random } from '../random.ts';

/** A runner as the board draws him; `joint` is from his grades. */
export type BoardRunner = { readonly id: string; readonly joint: JointPosterior };

/** `values` holds draw by draw, runner by runner, trait by trait: points of the 1 to 5 scale, as 32-bit floats. */
export type TraitDraws = {
  readonly runners: readonly string[];
  readonly traits: readonly string[];
  readonly draws: number;
  readonly values: Float32Array;
};

/**
 * Draws every trait of every runner `draws` times: normal with the runner's joint covariance, each trait divided by the
 * root of a chi-square over its degrees of freedom. That divisor is shared by all runners of a draw because the spread
 * it stands for was pooled over them. Runners are independent of one another given the pooled class. Every second draw
 * is the one before turned over around the means (antithetic draws, Hammersley & Morton 1956, from memory): half the
 * work for chances that are told as well. Equal seeds give equal bits on every machine. Throws RangeError unless draws is
 * a whole number from 1 and all runners have the same traits in the same order.
 */
export function drawTraits(runners: readonly BoardRunner[], draws: number, random: Random): TraitDraws {
  if (!Number.isInteger(draws) || draws < 1) throw new RangeError(`draws want a whole number from 1, got ${draws}`);
  const traits = runners[0]?.joint.traits ?? [];
  const width = traits.length;
  const df = runners[0]?.joint.df ?? [];
  const means = new Float64Array(runners.length * width);
  const packed = (width * (width + 1)) / 2;
  const roots = new Float64Array(runners.length * packed);
  for (const [at, runner] of runners.entries()) {
    if (runner.joint.traits.join('\n') !== traits.join('\n')) {
      throw new RangeError(`the same traits for every runner wanted, ${runner.id} has others`);
    }
    means.set(runner.joint.mean, at * width);
    if (width > 0) roots.set(rootOf(runner.joint.covariance), at * packed);
  }
  const values = new Float32Array(draws * runners.length * width);
  const normal = new Float64Array(width);
  const stretch = new Float64Array(width);
  const sums = new Float64Array(width);
  const size = runners.length * width;
  for (let draw = 0; draw < draws; draw += 2) {
    for (let trait = 0; trait < width; trait += 1) {
      const degrees = df[trait] ?? 1;
      stretch[trait] = Math.sqrt(degrees / (2 * random.gamma(degrees / 2)));
    }
    const opposite = draw + 1 < draws ? size : 0;
    let root = 0;
    let at = draw * size;
    for (let runner = 0; runner < runners.length; runner += 1) {
      for (let trait = 0; trait < width; trait += 1) normal[trait] = random.normal();
      // Column by column: the sums of a column do not wait for one another.
      sums.fill(0);
      for (let column = 0; column < width; column += 1) {
        const own = normal[column] ?? 0;
        for (let row = column; row < width; row += 1) {
          sums[row] = (sums[row] ?? 0) + (roots[root] ?? 0) * own;
          root += 1;
        }
      }
      for (let row = 0; row < width; row += 1) {
        const mean = means[runner * width + row] ?? 0;
        const away = (stretch[row] ?? 1) * (sums[row] ?? 0);
        values[at] = mean + away;
        if (opposite > 0) values[at + opposite] = mean - away;
        at += 1;
      }
    }
  }
  return { runners: runners.map((runner) => runner.id), traits, draws, values };
}

/** The first draws of a set, sharing its memory: for answers that have to be fast. */
export function firstDraws(all: TraitDraws, draws: number): TraitDraws {
  const kept = Math.min(draws, all.draws);
  const size = all.runners.length * all.traits.length;
  return { ...all, draws: kept, values: all.values.subarray(0, kept * size) };
}

/** Lower root of a covariance, column by column without the zeros; a trace of rounding on the diagonal keeps a nearly singular one from failing. */
function rootOf(covariance: readonly (readonly number[])[]): number[] {
  const matrix = new Matrix(covariance.map((row) => [...row]));
  for (let at = 0; at < matrix.rows; at += 1) matrix.set(at, at, matrix.get(at, at) * (1 + 1e-12) + 1e-15);
  const decomposition = new CholeskyDecomposition(matrix);
  if (!decomposition.isPositiveDefinite()) throw new RangeError('a covariance wants to be positive semi-definite');
  const lower = decomposition.lowerTriangularMatrix.to2DArray();
  return lower.flatMap((_, column) => lower.slice(column).map((row) => row[column] ?? 0));
}
