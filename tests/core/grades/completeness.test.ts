import { describe, expect, test } from 'vitest';
import { completeness } from '../../../src/core/grades/completeness.ts';
import { valueOf } from '../../value-of.ts';

const game = { game: 'g', carries: 18, yards: 90, attempts: 20, officialYards: 88 };

describe('completeness of a log', () => {
  test('sets logged carries against the official line, and says how the others did', () => {
    const answer = valueOf(completeness(Object.freeze([game, { ...game, carries: 12, yards: 80 }])));
    expect(answer).toMatchObject({ logged: 30, attempts: 40, share: 0.75, complete: false, unlogged: 10 });
    expect(valueOf(answer.loggedYardsPerCarry)).toBeCloseTo(170 / 30, 12);
    // The unlogged carries gained six tenths of a yard: the log was choosy.
    expect(valueOf(answer.unloggedYardsPerCarry)).toBeCloseTo(0.6, 12);
  });

  test('is enough from nine carries of ten', () => {
    expect(valueOf(completeness([game])).complete).toBe(true);
    expect(valueOf(completeness([{ ...game, carries: 17 }])).complete).toBe(false);
  });

  test('has reasons where it cannot answer', () => {
    expect(completeness([])).toMatchObject({ known: false, because: 'no official attempts' });
    expect(completeness([{ ...game, carries: 21 }])).toMatchObject({ because: 'more logged than official' });
    const whole = valueOf(completeness([{ ...game, carries: 20 }]));
    expect(whole.unloggedYardsPerCarry).toMatchObject({ because: 'nothing unlogged' });
    const none = valueOf(completeness([{ ...game, carries: 0, yards: null }]));
    expect(none.loggedYardsPerCarry).toMatchObject({ because: 'nothing logged' });
    expect(none.unloggedYardsPerCarry).toMatchObject({ because: 'yards not kept' });
    expect(() => completeness([{ ...game, carries: -1 }])).toThrow(RangeError);
  });
});
