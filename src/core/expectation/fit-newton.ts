/** Penalised logistic regression on counted rows. */
import { CholeskyDecomposition, Matrix } from 'ml-matrix';
import { type Known, known, unknown } from '../known.ts';
import type { FitDesign } from './fit-design.ts';

/** Fitted coefficients and their standard errors, in the design's order; `steps` Newton steps were taken. */
export type FittedCoefficients = {
  readonly values: readonly number[];
  /** Square roots of the diagonal of the inverse penalised information. */
  readonly errors: readonly number[];
  readonly steps: number;
};

/** Weights of half the squared coefficient: on effects and sticks, and (small, only to keep it solvable) on baselines. */
export const ridge = { effects: 2, baselines: 0.01 } as const;
const smallestStep = 1e-6;
const mostSteps = 100;

/**
 * Newton's method on the log-likelihood less ridge / 2 x coefficient^2, until the largest step is below 1e-6. Reason
 * 'does not settle' when it has not after 100 steps.
 * Source: McCullagh & Nelder 1989, Generalized Linear Models; ridge: le Cessie & van Houwelingen 1992, Applied
 * Statistics 41:191-201 (citations from memory).
 */
export function fitCoefficients(design: FitDesign): Known<FittedCoefficients, 'does not settle'> {
  const size = design.coefficients.length;
  const penalties = design.coefficients.map(({ kind }) => (kind === 'alpha' ? ridge.baselines : ridge.effects));
  const values = new Float64Array(size);
  for (let step = 1; step <= mostSteps; step += 1) {
    const { gradient, information } = derivatives(design, values, penalties);
    const solver = new CholeskyDecomposition(information);
    const move = solver.solve(Matrix.columnVector(gradient)).to1DArray();
    let largest = 0;
    // A step of more than 2 on the logit scale is cut: far from the answer the quadratic overshoots.
    const longest = move.reduce((most, one) => Math.max(most, Math.abs(one)), 0);
    const share = longest > 2 ? 2 / longest : 1;
    for (let at = 0; at < size; at += 1) {
      const change = share * (move[at] ?? 0);
      values[at] = (values[at] ?? 0) + change;
      largest = Math.max(largest, Math.abs(change));
    }
    if (largest < smallestStep) {
      const inverse = solver.solve(Matrix.eye(size, size));
      return known({
        values: [...values],
        errors: Array.from({ length: size }, (_, at) => Math.sqrt(inverse.get(at, at))),
        steps: step,
      });
    }
  }
  return unknown('does not settle', `The fit did not settle in ${mostSteps} Newton steps.`);
}

function derivatives(design: FitDesign, values: Float64Array, penalties: readonly number[]) {
  const size = values.length;
  const gradient = Array.from(values, (value, at) => -(penalties[at] ?? 0) * value);
  const square = new Float64Array(size * size);
  for (let at = 0; at < size; at += 1) square[at * size + at] = penalties[at] ?? 0;
  for (const { columns, reached, ended } of design.rows) {
    let logit = 0;
    for (const column of columns) logit += values[column] ?? 0;
    const chance = 1 / (1 + Math.exp(-logit));
    const miss = ended - reached * chance;
    const weight = reached * chance * (1 - chance);
    for (const column of columns) {
      gradient[column] = (gradient[column] ?? 0) + miss;
      for (const other of columns) {
        const place = column * size + other;
        square[place] = (square[place] ?? 0) + weight;
      }
    }
  }
  const information = Matrix.zeros(size, size);
  for (let row = 0; row < size; row += 1) {
    for (let column = 0; column < size; column += 1) information.set(row, column, square[row * size + column] ?? 0);
  }
  return { gradient, information };
}
