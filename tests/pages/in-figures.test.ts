import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  countOf,
  dateInWords,
  feetAndInches,
  gradeInFigures,
  marginOf,
  markInFigures,
  shareInFigures,
  signedShare,
  signedYards,
  wholeYards,
} from '../../src/pages/in-figures.ts';

describe('figures as they are printed', () => {
  it('writes shares without a leading nought and whole ones in full', () => {
    expect([0.525, 0.0449, 1, 0].map((share) => shareInFigures(share))).toEqual(['.525', '.045', '1.000', '.000']);
    expect(shareInFigures(0.583, 2)).toBe('.58');
  });

  it('writes yards with a sign, a true minus, and never a minus nought', () => {
    expect([0.44, -1.16, 0.04, -0.04, 0].map(signedYards)).toEqual(['+0.4', '−1.2', '0.0', '0.0', '0.0']);
    expect([9, -2, 0].map(wholeYards)).toEqual(['9', '−2', '0']);
    expect([0.061, -0.019, 0.0001, -0.0001].map(signedShare)).toEqual(['+.061', '−.019', '.000', '.000']);
  });

  it('writes marks in halves, heights in feet and inches, dates with the month in letters', () => {
    expect([4.5, 3, 1.5].map(markInFigures)).toEqual(['4½', '3', '1½']);
    expect([70, 70.5, 71.9, 60].map(feetAndInches)).toEqual(['5 ft 10', '5 ft 10½', '6 ft 0', '5 ft 0']);
    expect(['2026-11-14', '2026-03-01', 'soon'].map(dateInWords)).toEqual(['14 Nov 2026', '1 March 2026', 'soon']);
    expect([countOf(1, 'carry', 'carries'), countOf(0, 'carry', 'carries')]).toEqual(['1 carry', '0 carries']);
    expect(gradeInFigures(3.94)).toBe('3.9');
  });

  // Abramowitz & Stegun, Handbook of Mathematical Functions (1964), table 26.1: P(1.96) = .97500 21 (citation from memory).
  it('takes half a 95 % interval as 1.96 standard errors', () => {
    expect(marginOf(1)).toBe(1.96);
  });

  it('never prints a word that is not a figure', () => {
    fc.assert(
      fc.property(fc.double({ min: -99, max: 99, noNaN: true }), (yards) => {
        expect(signedYards(yards)).toMatch(/^(0\.0|[+−]\d+\.\d)$/);
        expect(signedYards(yards).startsWith('+')).toBe(yards >= 0.05 || (yards > 0 && signedYards(yards) === '+0.1'));
      }),
    );
  });
});
