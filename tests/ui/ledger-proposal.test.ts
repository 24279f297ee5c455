import { describe, expect, it } from 'vitest';
import { ledger, type Ledger } from '../../src/core/lanes/ledger.ts';
import { pointsSurface } from '../../src/core/expectation/points-surface.ts';
import { yardstickOf } from '../../src/core/expectation/yardstick.ts';
import { studySettings } from '../../src/contract/study-settings.ts';
import { proposal } from '../../src/ui/stage/ledger/proposal.ts';
import { chanceInWords, plain, signed, stateInWords, typedYards } from '../../src/ui/stage/ledger/lane-words.ts';

const { model, rule } = yardstickOf(studySettings([]));
type Three = readonly [number, number, number];

function valued(taken: Three, other: Three | null): Ledger {
  const lane = ([low, likely, high]: Three, name: string) => ({
    name,
    state: 'open' as const,
    low,
    likely,
    high,
    taken: name === 'taken',
  });
  const made = ledger(
    Object.freeze({
      snap: { down: 2, toGo: 4, yardsToGoal: 60, box: null },
      lanes: [lane(taken, 'taken'), ...(other === null ? [] : [lane(other, 'other')])],
    }),
    { model, surface: pointsSurface, rule },
  );
  if (!made.known) throw new Error(made.detail);
  return made.value;
}

describe('the mark a ledger proposes', () => {
  it('is one of risk where the two lanes differ in their chance of a loss', () => {
    const proposed = proposal(valued([-6, 0, 14], [2, 4, 7]));
    expect(proposed.known && proposed.value.trait).toBe('risk');
  });

  it('is one of crease where they are as safe as each other', () => {
    const proposed = proposal(valued([1, 3, 6], [2, 5, 9]));
    expect(proposed.known && proposed.value.trait).toBe('crease');
  });

  it('is none with one lane, and says why', () => {
    expect(proposal(valued([1, 3, 6], null))).toMatchObject({ known: false, because: 'one lane' });
  });
});

describe('the words of a ledger', () => {
  it('say where a gain leads', () => {
    expect(stateInWords({ kind: 'touchdown' })).toBe('score');
    expect(stateInWords({ kind: 'first down', down: 1, toGo: 8, yardsToGoal: 8 })).toBe('1st & goal');
    expect(stateInWords({ kind: 'next down', down: 3, toGo: 2, yardsToGoal: 40 })).toBe('3rd & 2');
    expect(stateInWords({ kind: 'turnover on downs', down: 1, toGo: 10, yardsToGoal: 60 })).toBe('ball lost on downs');
  });

  it('write no minus nought, and no chance as nothing or certain that is not', () => {
    expect(signed(-0.001)).toBe('+0.00');
    expect(signed(-0.12)).toBe('−0.12');
    expect(plain(-0.04, 1)).toBe('0.0');
    expect(chanceInWords(0)).toBe('0 %');
    expect(chanceInWords(0.001)).toBe('under 1 %');
    expect(chanceInWords(0.999)).toBe('over 99 %');
  });

  it('read whole yards with either minus, and nothing else', () => {
    expect(typedYards(' −3')).toBe(-3);
    expect(typedYards('-0')).toBe(0);
    expect(typedYards('12')).toBe(12);
    for (const text of ['', '1.5', '-21', 'four', '123']) expect(typedYards(text)).toBeNull();
  });
});
