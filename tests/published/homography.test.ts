/** Homographies against published point sets and laws. */
import { describe, expect, test } from 'vitest';
import { directFit, type PointPair } from '../../src/core/field/direct-fit.ts';
import { inverseOf, mapped, pointJacobian, scaled, type Homography } from '../../src/core/field/homography.ts';
import { distanceBetween, placeCovariance, placesFrom } from '../../src/core/field/places.ts';
import { refinedFit } from '../../src/core/field/refined-fit.ts';
import { randomFrom } from '../../src/core/random.ts';
import { valueOf } from '../value-of.ts';

const pair = (x: number, y: number, u: number, v: number): PointPair =>
  Object.freeze({ from: Object.freeze({ x, y }), to: Object.freeze({ x: u, y: v }) });

/** scikit-image, tests of its geometric transforms (BSD): the point set. The matrices are not printed there. */
const eight: readonly PointPair[] = Object.freeze([
  pair(-12.3705, -10.5075, 0, 0),
  pair(-10.7865, 15.4305, 0, 5800),
  pair(8.6985, 10.8675, 4900, 5800),
  pair(11.4975, -9.5715, 4900, 0),
  pair(7.8435, 7.4835, 4479, 4580),
  pair(-5.3325, 6.5025, 1176, 3660),
  pair(6.7905, -6.3765, 3754, 790),
  pair(-6.1695, -0.8235, 1024, 1931),
]);
const lastOne = (h: Homography) => scaled(h, 1 / h[8]);
const misses = (h: Homography) =>
  eight.reduce((sum, { from, to }) => {
    const at = mapped(h, from);
    return sum + (at.x - to.x) ** 2 + (at.y - to.y) ** 2;
  }, 0);
const expectAll = (actual: readonly number[], wanted: readonly number[], relative: number) => {
  for (const [index, value] of wanted.entries()) {
    expect(Math.abs((actual[index] ?? Number.NaN) - value)).toBeLessThanOrEqual(
      relative * Math.max(Math.abs(value), 1e-3),
    );
  }
};
const withSd = (pairs: readonly PointPair[], sd: number) => pairs.map((one) => ({ ...one, sd }));

describe('published homographies', () => {
  test('the unit square maps to the trapezoid by whole numbers (closed form of Heckbert 1989)', () => {
    const h = valueOf(directFit([pair(0, 0, 0, 0), pair(1, 0, 4, 0), pair(1, 1, 3, 2), pair(0, 1, 1, 2)]));
    for (const [index, value] of [4, 2, 0, 0, 4, 0, 0, 1, 1].entries())
      expect(lastOne(h)[index]).toBeCloseTo(value, 10);
    expect(mapped(h, { x: 0.5, y: 0.5 }).x).toBeCloseTo(2, 10);
    expect(mapped(h, { x: 0.5, y: 0.5 }).y).toBeCloseTo(4 / 3, 10);
  });

  test('four points of the set give the exact map, and it takes the other four to their places', () => {
    const h = valueOf(directFit(eight.slice(0, 4)));
    expectAll(
      lastOne(h),
      [
        194.66901290777315, -11.888183994367797, 2283.237930854789, -8.691007753944545, 221.62069772558254,
        2221.1673699313887, -0.012695966735107263, -0.00960536242895394, 1,
      ],
      1e-9,
    );
    const wanted = [
      [4491.238248105642, 4600.272345240652],
      [1161.7720601317808, 3689.2602757284253],
      [3775.184182474217, 768.1626295878436],
      [1005.3207433943398, 1926.1730082975828],
    ];
    for (const [index, [x, y]] of wanted.entries()) {
      const at = mapped(h, eight[index + 4]?.from ?? { x: 0, y: 0 });
      expect(at.x).toBeCloseTo(x ?? 0, 6);
      expect(at.y).toBeCloseTo(y ?? 0, 6);
    }
  });

  test('eight points by normalised direct transform, and another map of less error once refined', () => {
    const direct = valueOf(directFit(eight));
    expectAll(
      lastOne(direct),
      [
        194.26893767616778, -11.984438217162484, 2285.55473797228, -8.267301627800862, 220.68431785560918,
        2217.7506241175633, -0.012589674142721531, -0.00970093039256955, 1,
      ],
      1e-8,
    );
    expect(misses(direct)).toBeCloseTo(2149.23313, 5);
    const refined = valueOf(refinedFit(withSd(eight, 1)));
    expectAll(
      lastOne(refined.homography),
      [
        194.07960318, -12.168057904, 2285.0620238, -8.3711803852, 220.59427712, 2216.952629, -0.012631224986,
        -0.0097382478846, 1,
      ],
      1e-6,
    );
    expect(refined.chiSquare).toBeCloseTo(2126.878492, 5);
    expect(misses(refined.homography)).toBeCloseTo(2126.878492, 5);
  });

  test('residuals and error follow sqrt(1 - 4/n) and sqrt(4/n) (Hartley & Zisserman section 5.1.3, from memory)', () => {
    const random = randomFrom(5);
    const law = [
      { n: 4, residual: 0, error: 1 },
      { n: 5, residual: 0.4472, error: 0.8944 },
      { n: 8, residual: Math.SQRT1_2, error: Math.SQRT1_2 },
      { n: 20, residual: 0.8944, error: 0.4472 },
    ];
    for (const { n, residual, error } of law) {
      let left = 0;
      let off = 0;
      const rounds = 200;
      for (let round = 0; round < rounds; round += 1) {
        const truth = Array.from({ length: n }, (_, at) => {
          const turn = (2 * Math.PI * (at + 0.3 * random.uniform())) / n;
          return { x: 300 * Math.cos(turn), y: 200 * Math.sin(turn) };
        });
        const pairs = truth.map(({ x, y }) => ({
          from: { x, y },
          to: { x: x + random.normal(), y: y + random.normal() },
          sd: 1,
        }));
        const fit = valueOf(refinedFit(pairs));
        left += fit.chiSquare / (2 * n);
        off +=
          truth.reduce((sum, from) => {
            const at = mapped(fit.homography, from);
            return sum + (at.x - from.x) ** 2 + (at.y - from.y) ** 2;
          }, 0) /
          (2 * n);
      }
      expect(Math.abs(Math.sqrt(left / rounds) - residual)).toBeLessThan(0.04);
      expect(Math.abs(Math.sqrt(off / rounds) - error)).toBeLessThan(0.04);
    }
  });

  test('a point and its error come out of the worked Jacobian (Criminisi, Reid & Zisserman 1999, from memory)', () => {
    const homography: Homography = [1.2, 0.35, 100, -0.08, 0.9, 300, -0.0004, 0.0011, 1];
    const back = inverseOf(homography);
    const pixel = { x: 300, y: 350 };
    expect(mapped(back, pixel).x).toBeCloseTo(150.30946065, 8);
    expect(mapped(back, pixel).y).toBeCloseTo(79.57559682, 8);
    const wanted = [0.7797168091689268, -0.030280264433744437, -0.0908407933012342, 1.9984974526271517];
    expectAll(pointJacobian(back, pixel), wanted, 1e-10);
    const map = { frame: 0, homography, sources: [] };
    // That example's plane is no football field: at 150 yards the click would be refused, so the field is left out here.
    expect(placesFrom([{ map, ...pixel, sd: 2 }])).toMatchObject({ known: false, because: 'off the field' });
    // The same map with the plane counted in units a third as long lies on the field; errors shrink with it.
    const third: Homography = [3.6, 1.05, 100, -0.24, 2.7, 300, -0.0012, 0.0033, 1];
    const places = valueOf(placesFrom([{ map: { ...map, homography: third }, ...pixel, sd: 2 }]));
    expectAll(
      placeCovariance(places, 0).map((value) => 9 * value),
      [2.435500787659001, -0.5253804993237086, 16.00897647153925],
      1e-9,
    );
    expect(distanceBetween(places, 0, 0).value).toBe(0);
  });
});
