import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { playInWords, runInWords, situationInWords } from '../../src/contract/play-in-words.ts';
import { rows, type Part, type Play } from '../../src/contract/rows.ts';
import { problemsOf, spotInWords } from '../../src/contract/rules.ts';
import { studySettings } from '../../src/contract/study-settings.ts';
import { calls, isCallName } from '../../src/contract/calls.ts';
import { uid } from '../host/small-study.ts';

const play = (values: Partial<Play>): Play =>
  Object.freeze(rows.play.parse({ id: uid(1), gameId: uid(2), position: 1, ...values }));
const part = (values: Partial<Part>): Part =>
  Object.freeze(rows.part.parse({ id: uid(3), playId: uid(1), runnerId: uid(4), ...values }));
const says = (values: Partial<Play>) =>
  problemsOf('play', play(values)).map(({ weight, column }) => `${weight} ${column}`);

describe('what can not be, and what is doubtful', () => {
  test.each<[string, Partial<Play>, string[]]>([
    ['first and ten at the own 25', { down: 1, toGo: 10, spot: 25, gain: 4 }, []],
    ['first and goal at the 3', { down: 1, toGo: 3, spot: 97, gain: 3, result: 'touchdown' }, []],
    ['first and 5 at midfield', { down: 1, toGo: 5, spot: 50 }, ['doubtful toGo']],
    ['first and 10 at the 5', { down: 1, toGo: 10, spot: 95 }, ['impossible toGo']],
    ['a gain of 6 from the 5', { spot: 95, gain: 6 }, ['impossible gain']],
    ['a gain of 5 from the 5', { spot: 95, gain: 5 }, []],
    ['a loss of 12 from the own 2, into the end zone', { spot: 2, gain: -12 }, []],
    ['a loss of 13 from the own 2', { spot: 2, gain: -13 }, ['impossible gain']],
    ['a touchdown that stops short', { spot: 90, gain: 4, result: 'touchdown' }, ['doubtful result']],
    ['third and 31', { down: 3, toGo: 31, spot: 20 }, ['doubtful toGo']],
    ['overtime with eleven minutes left', { quarter: 5, clockSeconds: 660 }, ['doubtful clockSeconds']],
    ['nothing charted', {}, []],
  ])('%s', (_, values, found) => {
    expect(says(values)).toEqual(found);
  });

  test('is told of parts, marks, lanes and chalk too', () => {
    expect(problemsOf('part', part({ gain: 3, contactAt: 5 }))).toMatchObject([
      { weight: 'doubtful', column: 'contactAt' },
    ]);
    expect(problemsOf('part', part({ counts: false }))).toMatchObject([
      { weight: 'doubtful', column: 'countsBecause' },
    ]);
    expect(problemsOf('part', part({ counts: false, countsBecause: 'kneel' }))).toEqual([]);
    expect(problemsOf('team', { id: uid(1), name: 'x', defenceDelta: null, defenceCarries: null })).toEqual([]);
  });

  test('never grows with what is not charted: a play without a spot is never impossible', () => {
    fc.assert(
      fc.property(
        fc.option(fc.integer({ min: 1, max: 4 }), { nil: null }),
        fc.option(fc.integer({ min: 1, max: 99 }), { nil: null }),
        fc.option(fc.integer({ min: -99, max: 99 }), { nil: null }),
        (down, toGo, gain) => {
          expect(says({ down, toGo, gain, spot: null }).filter((word) => word.startsWith('impossible'))).toEqual([]);
        },
      ),
    );
  });

  test('a situation and a gain that are possible by the rules of the field are never called impossible', () => {
    const drawn = fc.integer({ min: 1, max: 99 }).chain((spot) =>
      fc.record({
        spot: fc.constant(spot),
        down: fc.integer({ min: 1, max: 4 }),
        toGo: fc.integer({ min: 1, max: 100 - spot }),
        gain: fc.integer({ min: -spot, max: 100 - spot }),
      }),
    );
    fc.assert(fc.property(drawn, (values) => says(values).every((word) => !word.startsWith('impossible'))));
  });
});

describe('a play in words', () => {
  test.each([
    [1, 'own 1'],
    [49, 'own 49'],
    [50, 'midfield'],
    [51, 'opponent 49'],
    [99, 'opponent 1'],
  ])('spot %d is the %s', (spot, words) => {
    expect(spotInWords(spot)).toBe(words);
  });

  test('says what is charted and leaves out what is not', () => {
    expect(situationInWords(play({ down: 2, toGo: 7, spot: 34 }))).toBe('2nd and 7 at own 34');
    expect(situationInWords(play({ down: 1, toGo: 4, spot: 96 }))).toBe('1st and goal at opponent 4');
    expect(situationInWords(play({ down: 3 }))).toBe('3rd down');
    expect(situationInWords(play({}))).toBe('not charted');
    expect(runInWords(play({ concept: 'power', direction: 'right', gain: 9 }), null)).toBe('power right, gain of 9');
    expect(runInWords(play({ gain: 9 }), part({ gain: -2 }))).toBe('loss of 2');
    expect(runInWords(play({ gain: 0, result: 'fumble lost' }), null)).toBe('no gain, fumble lost');
    expect(
      playInWords(play({ hash: 'left', quarter: 4, box: 8, safetiesDeep: 1 }), part({ path: 'bend', comeBack: true })),
    ).toBe('not charted, left hash, quarter 4, not charted, eight 8 in the box, one 1 safety deep, bend, flagged');
  });
});

describe('the settings of a study', () => {
  test('have a default for each that is missing or can not be read', () => {
    const plain = studySettings([]);
    expect(plain).toMatchObject({
      successRule: 'college',
      yardsModel: 'college',
      borrowBox: false,
      ownShares: [40, 60, 100, 100],
    });
    expect(
      studySettings([
        { id: 'successRule', value: 'magic' },
        { id: 'ownShares', value: [1, 2] },
        { id: 'decidedLines', value: null },
        { id: 'other', value: 1 },
      ]),
    ).toEqual(plain);
    expect(studySettings([{ id: 'successRule', value: 'own' }]).successRule).toBe('own');
  });
});

describe('the rows', () => {
  test('take whole figures in their range, and a missing one as not charted', () => {
    expect(rows.play.safeParse({ id: uid(1), gameId: uid(2), position: 1 }).data).toMatchObject({
      down: null,
      hash: null,
      giveIsChoice: null,
    });
    for (const [column, values] of [
      ['down', [0, 5, 1.5, '1']],
      ['toGo', [0, 100]],
      ['spot', [0, 100, 103, -1]],
      ['quarter', [0, 10]],
      ['box', [12]],
      ['position', [Number.NaN, Infinity]],
    ] as const) {
      for (const value of values)
        expect([
          column,
          value,
          rows.play.safeParse({ id: uid(1), gameId: uid(2), position: 1, [column]: value }).success,
        ]).toEqual([column, value, false]);
    }
  });

  test('have halves from 1 to 5 as marks and nothing between', () => {
    const mark = (value: unknown) =>
      rows.mark.safeParse({
        id: uid(1),
        partId: uid(2),
        evaluatorId: uid(3),
        rubricVersionId: uid(4),
        trait: 'press',
        state: 'shown',
        value,
        markedAt: 0,
      }).success;
    expect([1, 1.5, 2, 3.5, 5].map(mark)).toEqual([true, true, true, true, true]);
    expect([0.5, 5.5, 6, 3.25, 1.1, '3', Number.NaN].map(mark)).toEqual([
      false,
      false,
      false,
      false,
      false,
      false,
      false,
    ]);
  });
});

test('a call is named in the table itself, never inherited', () => {
  expect(Object.keys(calls).every(isCallName)).toBe(true);
  for (const name of ['__proto__', 'constructor', 'toString', '', 'Study.open']) expect(isCallName(name)).toBe(false);
});
