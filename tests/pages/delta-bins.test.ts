import fc from 'fast-check';
import { mean } from 'simple-statistics';
import { describe, expect, it } from 'vitest';
import { deltaBins, deltasOf } from '../../src/pages/delta-bins.ts';
import { runningMean } from '../../src/pages/running-mean.ts';
import { carriesOf, deltaOf } from './dossier-fixture.ts';

const yards = fc.array(fc.double({ min: -60, max: 95, noNaN: true }), { minLength: 1, maxLength: 200 });

describe('bins of gain against expected', () => {
  it('holds each carry once, a yard a bin, with an edge at nought', () => {
    fc.assert(
      fc.property(yards, (deltas) => {
        const bins = deltaBins(Object.freeze(deltas));
        expect(bins.reduce((sum, { count }) => sum + count, 0)).toBe(deltas.length);
        expect(bins.every(({ from, to }) => to - from === 1)).toBe(true);
        expect(bins.some(({ from }) => from === 0)).toBe(true);
        expect(bins.filter(({ from }) => from >= 0).reduce((sum, { count }) => sum + count, 0)).toBe(
          deltas.filter((delta) => delta >= 0).length,
        );
      }),
    );
  });

  it('says which end takes everything beyond it', () => {
    const bins = deltaBins([-20, 0.5, 61]);
    expect(bins[0]).toEqual({ from: -8, to: -7, count: 1, open: 'below' });
    expect(bins.at(-1)).toEqual({ from: 15, to: 16, count: 1, open: 'above' });
  });

  it('has no bin for no carry, and leaves out carries that do not count', () => {
    expect(deltaBins([])).toEqual([]);
    const [first] = carriesOf(1);
    expect(
      deltasOf(
        first === undefined
          ? []
          : [
              { ...first, counts: false },
              { ...first, delta: null },
            ],
      ),
    ).toEqual([]);
  });
});

describe('the running mean of delta', () => {
  // The mean by simple-statistics, a library that the pages do not use.
  it('is the mean of the carries so far, and its last margin is the one printed beside the mean', () => {
    const carries = carriesOf(61);
    const delta = deltaOf(0.4, 61);
    const points = runningMean(carries, delta);
    const deltas = deltasOf(carries);
    for (const { n, mean: soFar } of points) expect(soFar).toBeCloseTo(mean(deltas.slice(0, n)), 10);
    expect(points).toHaveLength(61);
    expect(points.at(-1)?.margin).toBeCloseTo(1.96 * delta.standardError, 10);
  });
});
