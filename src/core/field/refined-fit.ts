/**
 * A homography refined on its reprojection error, with the error of its nine numbers. The search is our own
 * Levenberg-Marquardt: eight parameters with an exact derivative take forty lines, where a general package
 * differentiates numerically and leaves out the covariance that everything after this is built on.
 */
import { EigenvalueDecomposition, Matrix, solve } from 'ml-matrix';
import { known, type Known } from '../known.ts';
import { directFit, normalisation, type DirectFitProblem, type PointPair } from './direct-fit.ts';
import { inverseOf, mapped, product, scaled, type Homography, type PlanePoint } from './homography.ts';

/** A pair whose `to` was measured with standard deviation `sd` a coordinate (same unit as `to`, above 0). */
export type MeasuredPair = PointPair & { readonly sd: number };

/** A fitted map. The homography's scale is such that w is 1 at the centroid of the `from` points. */
export type RefinedFit = {
  readonly homography: Homography;
  /** Columns of a factor F of the nine numbers' covariance: covariance = F F'. At most eight, linear in the sd given. */
  readonly factor: readonly Homography[];
  /** Where the map puts each point less where it was measured, in the unit of `to`. */
  readonly residuals: readonly PlanePoint[];
  /** Sum of squared residuals in their standard deviations; chi-square with `degrees` when the fit is right. */
  readonly chiSquare: number;
  /** 2 n - 8. */
  readonly degrees: number;
  /** Largest over smallest root of the normal equations' eight values: above about 1e6 nothing is held firmly. */
  readonly condition: number;
};

/**
 * The homography of least weighted squared error in the `to` plane, started from the direct fit. Same reasons as
 * `directFit`. Throws RangeError when an sd is not above 0. Sources: Hartley & Zisserman 2004 section 4.5 and 5.2
 * (covariance by back-propagation); Marquardt 1963, J. SIAM 11:431-441; citations from memory.
 */
export function refinedFit(pairs: readonly MeasuredPair[], tolerance?: number): Known<RefinedFit, DirectFitProblem> {
  for (const { sd } of pairs) if (!(sd > 0)) throw new RangeError(`a measured point wants an sd above 0, got ${sd}`);
  const start = directFit(pairs, tolerance);
  if (!start.known) return start;
  const before = normalisation(pairs.map(({ from }) => from));
  const after = normalisation(pairs.map(({ to }) => to));
  const inner = pairs.map(({ from, to, sd }) => ({
    from: mapped(before, from),
    to: mapped(after, to),
    sd: sd * after[0],
  }));
  let h = unit(product(after, product(start.value, inverseOf(before))));
  let state = normalEquations(h, inner);
  let damping = 1e-3;
  for (let round = 0; round < 100 && damping < 1e12; round += 1) {
    const step = stepFrom(state, h, damping);
    const next = unit(plus(h, step));
    const trial = normalEquations(next, inner);
    if (trial.chiSquare < state.chiSquare) {
      const gained = state.chiSquare - trial.chiSquare;
      h = next;
      state = trial;
      damping = Math.max(damping / 10, 1e-12);
      if (gained <= 1e-14 * (trial.chiSquare + 1e-12)) break;
    } else damping *= 10;
  }
  const outwards = inverseOf(after);
  const outer = (change: Homography) => product(outwards, product(change, before));
  const raw = outer(h);
  // The centroid is the origin of the inner plane, so its w is the inner map's last number.
  const scale = 1 / (h[8] === 0 ? 1 : h[8]);
  const values = new EigenvalueDecomposition(new Matrix(state.normal), { assumeSymmetric: true });
  const order = [...values.realEigenvalues.keys()].sort(
    (a, b) => (values.realEigenvalues[b] ?? 0) - (values.realEigenvalues[a] ?? 0),
  );
  const held = order.slice(0, 8);
  const sizeOf = (index: number | undefined) => Math.max(values.realEigenvalues[index ?? 0] ?? 0, Number.MIN_VALUE);
  const factor = held.map((index) => {
    const c = (row: number) => values.eigenvectorMatrix.get(row, index);
    const column: Homography = [c(0), c(1), c(2), c(3), c(4), c(5), c(6), c(7), c(8)];
    return scaled(outer(column), scale / Math.sqrt(sizeOf(index)));
  });
  const homography = scaled(raw, scale);
  return known({
    homography,
    factor,
    residuals: pairs.map(({ from, to }) => {
      const at = mapped(homography, from);
      return { x: at.x - to.x, y: at.y - to.y };
    }),
    chiSquare: state.chiSquare,
    degrees: 2 * pairs.length - 8,
    condition: Math.sqrt(sizeOf(held[0]) / sizeOf(held[7])),
  });
}

type NormalState = { readonly normal: number[][]; readonly gradient: number[]; readonly chiSquare: number };

function normalEquations(h: Homography, pairs: readonly MeasuredPair[]): NormalState {
  const normal = Array.from({ length: 9 }, () => Array.from({ length: 9 }, () => 0));
  const gradient = Array.from({ length: 9 }, () => 0);
  let chiSquare = 0;
  const add = (row: readonly number[], residual: number) => {
    chiSquare += residual * residual;
    for (const [i, a] of row.entries()) {
      gradient[i] = (gradient[i] ?? 0) + a * residual;
      const line = normal[i];
      if (line !== undefined) for (const [j, b] of row.entries()) line[j] = (line[j] ?? 0) + a * b;
    }
  };
  for (const { from, to, sd } of pairs) {
    const at = mapped(h, from);
    const k = 1 / (at.w * sd);
    const x = from.x * k;
    const y = from.y * k;
    add([x, y, k, 0, 0, 0, -at.x * x, -at.x * y, -at.x * k], (at.x - to.x) / sd);
    add([0, 0, 0, x, y, k, -at.y * x, -at.y * y, -at.y * k], (at.y - to.y) / sd);
  }
  return { normal, gradient, chiSquare };
}

/** One damped step; the term h h' holds the free scale still. */
function stepFrom({ normal, gradient }: NormalState, h: Homography, damping: number): Homography {
  const trace = normal.reduce((sum, row, i) => sum + (row[i] ?? 0), 0);
  const left = normal.map((row, i) =>
    row.map((value, j) => {
      const gauge = ((h[i] ?? 0) * (h[j] ?? 0) * trace) / 9;
      return value + gauge + (i === j ? damping * value + 1e-15 * trace : 0);
    }),
  );
  const s = solve(new Matrix(left), Matrix.columnVector(gradient.map((value) => -value)));
  const n = (row: number) => s.get(row, 0);
  return [n(0), n(1), n(2), n(3), n(4), n(5), n(6), n(7), n(8)];
}

function plus(a: Homography, b: Homography): Homography {
  return [
    a[0] + b[0],
    a[1] + b[1],
    a[2] + b[2],
    a[3] + b[3],
    a[4] + b[4],
    a[5] + b[5],
    a[6] + b[6],
    a[7] + b[7],
    a[8] + b[8],
  ];
}

const unit = (h: Homography) => scaled(h, 1 / Math.hypot(...h));
