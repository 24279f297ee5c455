import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { completeness, type GameLine, unlogged } from '../../../src/core/plays/completeness.ts';
import { credit, lineShare } from '../../../src/core/plays/credit.ts';
import { isDecided, partByDecided, usualDecidedRule } from '../../../src/core/plays/decided-game.ts';
import {
  distanceBand,
  distanceBands,
  fieldZone,
  fieldZones,
  isGoalToGo,
  runSide,
} from '../../../src/core/plays/situation-facts.ts';
import { situationFrom, situationOf } from '../../../src/core/plays/situation.ts';
import { splitBy } from '../../../src/core/plays/splits.ts';
import { situations } from './situations.ts';

const because = (answer: { known: boolean; because?: string }) => (answer.known ? 'known' : answer.because);

const zone = (yardsToGoal: number) => fieldZone({ down: 1, toGo: 1, yardsToGoal });
const at = (quarter: number, scoreFor: number, scoreAgainst: number) =>
  isDecided({ quarter, scoreFor, scoreAgainst }, usualDecidedRule);
const line = (
  logged: number,
  official: number | null,
  loggedYards = 0,
  officialYards: number | null = null,
): GameLine => Object.freeze({ logged, official, loggedYards, officialYards });

describe('a charted situation', () => {
  test('is read from the spot and gives yards to goal', () => {
    expect(situationOf({ down: 2, toGo: 7, spot: 34 })).toEqual({
      known: true,
      value: { down: 2, toGo: 7, yardsToGoal: 66 },
    });
  });

  test.each([
    [{ down: null, toGo: 7, spot: 34 }, 'not charted'],
    [{ down: 5, toGo: 7, spot: 34 }, 'impossible down'],
    [{ down: 1, toGo: 7, spot: 100 }, 'impossible spot'],
    [{ down: 1, toGo: 7, spot: 33.5 }, 'impossible spot'],
    [{ down: 1, toGo: 0, spot: 34 }, 'impossible to go'],
    [{ down: 1, toGo: 10, spot: 95 }, 'to go past the goal line'],
  ])('%o is refused because of: %s', (charted, reason) => {
    expect(because(situationOf(charted))).toBe(reason);
  });

  test('of any numbers is known or refused with words, never broken', () => {
    fc.assert(
      fc.property(fc.double(), fc.double(), fc.double(), (down, toGo, yardsToGoal) => {
        const answer = situationFrom({ down, toGo, yardsToGoal });
        if (answer.known) expect(answer.value).toEqual({ down, toGo, yardsToGoal });
        else expect(answer.detail).toMatch(/got/);
      }),
    );
  });

  test('has one distance band and one zone, and goal to go exactly when the goal line is the line to gain', () => {
    fc.assert(
      fc.property(situations, (situation) => {
        expect(distanceBands).toContain(distanceBand(situation));
        expect(fieldZones).toContain(fieldZone(situation));
        expect(isGoalToGo(situation)).toBe(situation.toGo === situation.yardsToGoal);
      }),
    );
    expect([90, 89, 60, 59, 40, 39, 21, 20, 6, 5].map(zone)).toEqual([
      'own 10 and back',
      'own 11 to 40',
      'own 11 to 40',
      'between the 40s',
      'between the 40s',
      'opponent 39 to 21',
      'opponent 39 to 21',
      'opponent 20 to 6',
      'opponent 20 to 6',
      'opponent 5 and in',
    ]);
  });

  test('gives field and boundary from hash and direction', () => {
    expect(runSide('left', 'left')).toEqual({ known: true, value: 'boundary' });
    expect(runSide('left', 'right')).toEqual({ known: true, value: 'field' });
    expect(runSide('middle', 'right')).toEqual({ known: true, value: 'neither' });
    expect(because(runSide(null, 'right'))).toBe('hash not charted');
    expect(because(runSide('left', null))).toBe('direction not charted');
  });
});

describe('a decided game', () => {
  test('follows the rule of its quarter, either way, and never overtime', () => {
    expect(at(4, 31, 9)).toEqual({ known: true, value: true });
    expect(at(4, 9, 31)).toEqual({ known: true, value: true });
    expect(at(4, 30, 9)).toEqual({ known: true, value: false });
    expect(at(1, 70, 0)).toEqual({ known: true, value: false });
    expect(at(5, 70, 0)).toEqual({ known: true, value: false });
    expect(isDecided({ quarter: 2, scoreFor: 3, scoreAgainst: 0 }, { lines: [{ quarter: 2, margin: 3 }] })).toEqual({
      known: true,
      value: true,
    });
  });

  test('parts carries into live and decided ones and keeps what it cannot tell', () => {
    const moments = [
      { quarter: 4, scoreFor: 40, scoreAgainst: 0 },
      { quarter: 1, scoreFor: 0, scoreAgainst: 0 },
      { quarter: null, scoreFor: 40, scoreAgainst: 0 },
    ];
    expect(partByDecided(moments, (moment) => moment, usualDecidedRule)).toEqual({
      live: [moments[1], moments[2]],
      decided: [moments[0]],
      cannotTell: 1,
    });
  });

  test('cannot be told without quarter or score, and refuses a rule that is none', () => {
    expect(because(isDecided({ quarter: null, scoreFor: 1, scoreAgainst: 2 }, usualDecidedRule))).toBe(
      'quarter not charted',
    );
    expect(because(isDecided({ quarter: 4, scoreFor: null, scoreAgainst: 2 }, usualDecidedRule))).toBe(
      'score not charted',
    );
    const wrong = { lines: [{ quarter: 4, margin: NaN }] };
    expect(() => isDecided({ quarter: 4, scoreFor: 1, scoreAgainst: 2 }, wrong)).toThrow(RangeError);
  });
});

describe('splits', () => {
  test('put every carry in exactly one row, in the order asked for, uncharted last', () => {
    fc.assert(
      fc.property(
        fc.array(fc.record({ id: fc.nat(), key: fc.option(fc.constantFrom('b', 'a', 'c', '10', '9')) })),
        (items) => {
          const rows = splitBy(
            items,
            ({ key }) => key,
            (group) => group.map(({ id }) => id),
            ['c', 'b'],
          );
          expect(rows.reduce((sum, { n }) => sum + n, 0)).toBe(items.length);
          const labels = rows.map(({ label }) => label);
          const wanted = ['c', 'b', '9', '10', 'a', null].filter((label) => items.some(({ key }) => key === label));
          expect(labels).toEqual(wanted);
          for (const { label, answer } of rows) {
            expect(answer).toEqual(items.filter(({ key }) => key === label).map(({ id }) => id));
          }
        },
      ),
    );
  });
});

describe('completeness', () => {
  test('is complete from nine of ten, exactly', () => {
    expect(completeness([line(9, 10)])).toMatchObject({ known: true, value: { share: 0.9, complete: true } });
    expect(completeness([line(89, 100)])).toMatchObject({ known: true, value: { complete: false } });
    expect(completeness([line(9, 10), line(3, null)])).toMatchObject({ value: { logged: 9, official: 10 } });
    expect(because(completeness([line(3, null)]))).toBe('no official line');
    expect(because(completeness([line(0, 0)]))).toBe('no official attempts');
    expect(() => completeness([line(0.5, 3)])).toThrow(RangeError);
  });

  test('says what the carries that are not logged must have gained', () => {
    expect(unlogged([line(10, 15, 80, 92)])).toEqual({
      known: true,
      value: { carries: 5, yards: 12, loggedMean: 8, unloggedMean: 2.4 },
    });
    expect(because(unlogged([line(10, 15)]))).toBe('no official yards');
    expect(because(unlogged([line(10, 10, 80, 92)]))).toBe('nothing unlogged');
    expect(because(unlogged([line(0, 10, 0, 92)]))).toBe('nothing logged');
  });
});

describe('credit', () => {
  test("never falls as the gain grows, and stays between a loss's 1.2 and seven yards", () => {
    fc.assert(
      fc.property(fc.integer({ min: -30, max: 98 }), (gain) => {
        expect(lineShare(gain + 1)).toBeGreaterThanOrEqual(lineShare(gain));
        expect(lineShare(gain)).toBeLessThanOrEqual(Math.min(7, Math.max(gain, gain * 1.2)));
      }),
    );
  });

  test('keeps its figures apart, each with its own n, and before plus after contact is the gain', () => {
    const carries = Object.freeze([
      { gain: 5, clearedYards: 3, contactAt: 2 },
      { gain: -1, clearedYards: null, contactAt: -2 },
      { gain: 12, clearedYards: 4, contactAt: null },
    ]);
    expect(credit(carries)).toEqual({
      lineShare: { known: true, value: { mean: (4.5 - 1.2 + 7) / 3, n: 3, of: 3 } },
      cleared: { known: true, value: { mean: 3.5, n: 2, of: 3 } },
      beforeContact: { known: true, value: { mean: 0, n: 2, of: 3 } },
      afterContact: { known: true, value: { mean: 2, n: 2, of: 3 } },
    });
    expect(because(credit([]).lineShare)).toBe('no carries');
    expect(because(credit([{ gain: 3, clearedYards: null, contactAt: null }]).beforeContact)).toBe('not charted');
    expect(() => credit([{ gain: 3, clearedYards: NaN, contactAt: null }])).toThrow(RangeError);
  });
});
