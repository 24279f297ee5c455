import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { defaultRubric } from '../../../src/core/rubric/default-rubric.ts';
import { contactFamily, protectionFamily, receivingFamily } from '../../../src/core/rubric/optional-families.ts';
import { rubricFaults } from '../../../src/core/rubric/rubric.ts';
import { normaliseWeights, rankOrderCentroid, rankSum, traitWeights } from '../../../src/core/rubric/weights.ts';
import { valueOf } from '../../value-of.ts';

const full = {
  ...defaultRubric,
  families: [...defaultRubric.families, contactFamily, protectionFamily, receivingFamily],
};

describe('the default rubric', () => {
  test('has no faults, alone or with every optional family', () => {
    expect(rubricFaults(defaultRubric)).toEqual([]);
    expect(rubricFaults(full)).toEqual([]);
  });

  test('weighs vision .38, footwork .32, judgment .22 and ball security .08', () => {
    expect(defaultRubric.families.map((family) => [family.key, family.weight])).toEqual([
      ['vision', 0.38],
      ['footwork', 0.32],
      ['judgment', 0.22],
      ['security', 0.08],
    ]);
  });

  test('gives each trait its share of the whole, which add up to 1', () => {
    const shares = valueOf(traitWeights(defaultRubric));
    expect(shares).toHaveLength(12);
    expect(shares.reduce((sum, share) => sum + share.overall, 0)).toBeCloseTo(1, 12);
    expect(shares[0]).toMatchObject({ trait: 'press', family: 'vision' });
    expect(shares[0]?.overall).toBeCloseTo(0.38 * 0.28, 12);
  });

  test('has five different anchors a trait, none of them used for another trait', () => {
    const anchors = full.families.flatMap((family) => family.traits.flatMap((trait) => trait.anchors));
    expect(new Set(anchors).size).toBe(anchors.length);
    expect(anchors.every((anchor) => anchor.endsWith('.') && anchor.length > 10 && anchor.length < 120)).toBe(true);
  });

  test('says that its bars are not calibrated', () => {
    expect(defaultRubric.bars.map(({ key, value, calibrated }) => [key, value, calibrated])).toEqual([
      ['professional', 3.4, false],
      ['college', 2.9, false],
    ]);
  });

  test('leaves optional families without weight until a study gives them one', () => {
    const shares = valueOf(traitWeights(full));
    expect(shares.filter((share) => share.family === 'contact').map((share) => share.overall)).toEqual([0, 0]);
  });
});

describe('faults of a rubric', () => {
  test('name a repeated letter, a blank anchor, a bar off the scale and weights that are all zero', () => {
    const [vision, footwork] = defaultRubric.families;
    const trait = vision?.traits[0];
    if (vision === undefined || footwork === undefined || trait === undefined) throw new Error('no rubric');
    const broken = {
      families: [
        { ...vision, weight: 0 },
        { ...footwork, weight: 0, traits: [{ ...trait, key: 'other', anchors: ['', 'b', 'c', 'd', 'e'] as const }] },
      ],
      bars: [{ key: 'high', name: 'High', value: 6, calibrated: false }],
    };
    const faults = rubricFaults(broken);
    expect(faults).toContain('letter "p" is used twice');
    expect(faults).toContain('an anchor of other is blank');
    expect(faults).toContain('the bar high is 6, wanted 1 to 5');
    expect(faults).toContain('no weight of the families is above 0');
  });
});

describe('weights', () => {
  const weight = fc.double({ min: 0, max: 1e6, noNaN: true });

  test('add up to 1 and do not care for their scale', () => {
    fc.assert(
      fc.property(
        fc.array(weight, { minLength: 1 }),
        fc.double({ min: 1e-3, max: 1e3, noNaN: true }),
        (given, scale) => {
          fc.pre(given.some((one) => one > 1e-200));
          const plain = valueOf(normaliseWeights(Object.freeze(given)));
          const scaled = valueOf(normaliseWeights(given.map((one) => one * scale)));
          expect(plain.reduce((sum, one) => sum + one, 0)).toBeCloseTo(1, 9);
          for (const [at, one] of plain.entries()) expect(scaled[at]).toBeCloseTo(one, 9);
        },
      ),
    );
  });

  test('that are all zero, or none, have a reason and no value', () => {
    expect(normaliseWeights([0, 0])).toMatchObject({ known: false, because: 'no weight' });
    expect(normaliseWeights([])).toMatchObject({ known: false, because: 'no weight' });
    expect(rankOrderCentroid(0)).toMatchObject({ known: false, because: 'no weight' });
  });

  test('that are negative or not numbers are refused', () => {
    expect(() => normaliseWeights([1, -1])).toThrow('a weight wants 0 or more, got -1');
    expect(() => normaliseWeights([Number.NaN])).toThrow(RangeError);
    expect(() => rankSum(1.5)).toThrow(RangeError);
  });

  test('from a ranking fall from first to last and add up to 1', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 60 }), fc.constantFrom(rankOrderCentroid, rankSum), (count, made) => {
        const weights = valueOf(made(count));
        expect(weights.reduce((sum, one) => sum + one, 0)).toBeCloseTo(1, 12);
        for (let at = 1; at < count; at += 1) expect(weights[at] ?? 0).toBeLessThan(weights[at - 1] ?? 0);
      }),
    );
  });
});
