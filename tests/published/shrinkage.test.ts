/** The prior and the shrinkage under every grade, beside published examples. */
import { describe, expect, test } from 'vitest';
import { betweenVariance, normalPrior, shrunken } from '../../src/core/grades/normal-prior.ts';
import { weightedSpread } from '../../src/core/grades/weighted-spread.ts';
import data from './data/shrinkage.json' with { type: 'json' };
import { valueOf } from '../value-of.ts';

describe('batting averages after 45 at-bats', () => {
  // Efron & Morris 1977, Scientific American 236(5):119-127; 1975, Journal of the American Statistical Association
  // 70:311-319. Data seen in a package, c = .212 and its formula in a secondary page; recomputed.
  const { hits45, rest, js1977, sigma2, grand_mean, c1977 } = data.efronMorris;
  const averages = hits45.map((hits) => hits / 45);
  const variances = averages.map(() => sigma2);

  test('are shrunk by the published factor to the published estimates', () => {
    const prior = valueOf(normalPrior(averages, variances));
    expect(prior.mean).toBeCloseTo(grand_mean, 9);
    for (const [at, estimate] of averages.entries()) {
      const posterior = shrunken(prior, { estimate, variance: sigma2 });
      expect(1 - posterior.shrink).toBeCloseTo(c1977, 9);
      expect(posterior.mean).toBeCloseTo(js1977[at] ?? NaN, 6);
    }
  });

  test('come three and a half times nearer to the rest of the season', () => {
    const prior = valueOf(normalPrior(averages, variances));
    let plain = 0;
    let shrunk = 0;
    let nearer = 0;
    for (const [at, estimate] of averages.entries()) {
      const truth = rest[at] ?? 0;
      const posterior = shrunken(prior, { estimate, variance: sigma2 }).mean;
      plain += (estimate - truth) ** 2;
      shrunk += (posterior - truth) ** 2;
      if (Math.abs(posterior - truth) < Math.abs(estimate - truth)) nearer += 1;
    }
    expect(plain / shrunk).toBeCloseTo(3.5, 1);
    expect(nearer).toBe(16);
  });

  test('in the root-arcsine scale of the 1975 paper keep .209 of what was observed', () => {
    // 1975: mean -3.3166, V = 18.96, shrinkage .791; citation from memory, recomputed.
    const scaled = averages.map((average) => Math.sqrt(45) * Math.asin(2 * average - 1));
    const prior = valueOf(
      normalPrior(
        scaled,
        scaled.map(() => 1),
      ),
    );
    expect(prior.mean).toBeCloseTo(-3.316563, 6);
    expect(shrunken(prior, { estimate: -1, variance: 1 }).shrink).toBeCloseTo(0.791026, 6);
  });
});

describe('thirteen vaccine trials', () => {
  test('have the published between-trial variance, Q and pooled effect', () => {
    // DerSimonian & Laird 1986, Controlled Clinical Trials 7:177-188, on the trials of Colditz and others 1994, JAMA
    // 271:698-702. Data seen in a package; digits recomputed with another.
    const effects: number[] = [];
    const variances: number[] = [];
    for (const [sick = 0, well = 0, otherSick = 0, otherWell = 0] of data.bcg.rows) {
      effects.push(Math.log(sick / (sick + well) / (otherSick / (otherSick + otherWell))));
      variances.push(1 / sick - 1 / (sick + well) + 1 / otherSick - 1 / (otherSick + otherWell));
    }
    const answer = valueOf(betweenVariance(effects, variances));
    expect(answer.between).toBeCloseTo(0.30876, 6);
    expect(answer.q).toBeCloseTo(152.233008, 6);
    expect(answer.degrees).toBe(12);
    expect(100 * answer.share).toBeCloseTo(92.12, 2);
    expect(answer.mean).toBeCloseTo(-0.714117, 6);
    expect(Math.sqrt(answer.meanVariance)).toBeCloseTo(0.178742, 6);
    // An estimate with a huge variance between trials leaves the fixed-effect mean.
    const fixed = valueOf(
      betweenVariance(
        effects.map(() => -0.430285),
        variances,
      ),
    );
    expect(Math.sqrt(fixed.meanVariance)).toBeCloseTo(0.040499, 6);
  });
});

describe('weighted standard deviation', () => {
  test('is that of the manual, values of weight 0 not counting', () => {
    // NIST Dataplot Reference Manual 2-66 (seen): primes with weights, 5.82; the mean 11.5; recomputed.
    const answer = valueOf(weightedSpread([2, 3, 5, 7, 11, 13, 17, 19, 23], [1, 1, 0, 0, 4, 1, 2, 1, 0]));
    expect(answer.mean).toBeCloseTo(11.5, 12);
    expect(answer.sd).toBeCloseTo(5.82, 2);
    expect(answer.sd).toBeCloseTo(5.822371, 6);
    expect(answer.values).toBe(6);
  });

  test('gives a second manual its weighted mean', () => {
    // A statistics package's manual (seen).
    const answer = valueOf(weightedSpread([49.01, 2.2, 16.7, 93.97, 6.16, 27.75], [5, 12, 8, 14, 9, 4]));
    expect(answer.mean).toBeCloseTo(36.2898, 4);
    expect(answer.sd).toBeCloseTo(41.006, 3);
  });
});
