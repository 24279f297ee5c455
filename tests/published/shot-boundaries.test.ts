import { describe, expect, it } from 'vitest';
import { scoreCuts } from '../../src/core/cutting/score-cuts.ts';

const cut = (last: number, first = last + 1) => Object.freeze({ last, first });

/** Rules of the TRECVID shot boundary measures page; the digits were worked out by hand from its text. */
describe('shot boundaries are scored as TRECVID does', () => {
  it('gives 2 of 3 right, with P = R = F1 = 2/3, for the worked example', () => {
    const truth = [cut(99), cut(250), cut(400)];
    const proposed = [cut(99), cut(251), cut(300)];
    const score = scoreCuts(truth, proposed, 'cut');
    expect(score).toMatchObject({ truePositives: 2, falsePositives: 1, falseNegatives: 1 });
    for (const share of [score.precision, score.recall, score.f1]) {
      expect(share).toEqual({ known: true, value: expect.closeTo(2 / 3, 12) });
    }
  });

  it('matches one to one: two proposals for one cut are one right and one wrong', () => {
    expect(scoreCuts([cut(99)], [cut(98), cut(99)], 'cut')).toMatchObject({ truePositives: 1, falsePositives: 1 });
  });

  it('takes the proposal that overlaps most, then the one of which the larger share overlaps, then the earlier', () => {
    const truth = [cut(100, 130), cut(131, 160)];
    const proposed = [cut(90, 140), cut(120, 170)];
    expect(scoreCuts(truth, proposed, 'gradual')).toMatchObject({
      truePositives: 2,
      falsePositives: 0,
      falseNegatives: 0,
    });
  });

  it('counts a gradual change of at most 5 frames as a cut, and a longer one never', () => {
    expect(scoreCuts([cut(99)], [cut(98, 104)], 'cut')).toMatchObject({ truePositives: 1 });
    expect(scoreCuts([cut(99)], [cut(96, 106)], 'cut')).toMatchObject({ truePositives: 0, falseNegatives: 1 });
    expect(scoreCuts([cut(99)], [cut(96, 106)], 'gradual')).toMatchObject({ truePositives: 0, falsePositives: 1 });
  });

  it('says why there is no precision or recall', () => {
    expect(scoreCuts([cut(9)], [], 'cut').precision).toMatchObject({ because: 'nothing-proposed' });
    expect(scoreCuts([], [cut(9)], 'cut').recall).toMatchObject({ because: 'nothing-true' });
    expect(scoreCuts([], [], 'cut').f1).toMatchObject({ because: 'nothing-true-or-proposed' });
  });
});
