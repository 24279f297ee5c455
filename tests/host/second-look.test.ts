import { describe, expect, test } from 'vitest';
import { add, set, type ChangeStep } from '../../src/contract/changes.ts';
import {
  agreementView,
  blindCarry,
  secondLookSetting,
  secondLookState,
  type SecondLookPlan,
} from '../../src/contract/second-look-views.ts';
import { readAgreement } from '../../src/host/reading/agreement.ts';
import { drawSecondLook, readBlindCarry, readGivenMarks, readSecondLooks } from '../../src/host/reading/second-look.ts';
import { valueOf } from '../value-of.ts';
import { allSteps, carries, faultOfWork, frameSteps, madeStudy, uid, who } from './small-study.ts';

const day = 86_400_000;
const lookId = uid(900);
const own = { evaluatorId: who.quill, whoseId: who.quill };
const plan = (parts: readonly string[], finishedAt: number | null): SecondLookPlan => ({
  ...own,
  seed: 1,
  days: 14,
  drawnAt: 20 * day,
  parts: [...parts],
  finishedAt,
});
const kept = (value: SecondLookPlan): ChangeStep => add('setting', { id: secondLookSetting(lookId), value });

/** Second marks of Quill on all his carries, each `by(first)`, days after the first rising with the carry. */
function again(by: (first: number, at: number) => number): ChangeStep[] {
  return carries.flatMap(({ partId, marks }, carry) =>
    marks
      .filter(({ evaluatorId, value }) => evaluatorId === who.quill && value !== null)
      .map(({ trait, value }, at) =>
        add('mark', {
          id: uid(500_000 + carry * 100 + at),
          partId,
          evaluatorId: who.quill,
          rubricVersionId: who.rubric,
          lookId,
          trait,
          state: 'shown',
          value: by(value ?? 3, carry + at),
          markedAt: (20 + carry) * day,
        }),
      ),
  );
}

describe('a blind sample', () => {
  test('is drawn by its seed from carries of the named evaluator, and only from those old enough', () => {
    const study = madeStudy();
    const wanted = { ...own, count: 6, seed: 5 };
    const drawn = valueOf(drawSecondLook(study, wanted, 20 * day)).parts;
    expect(drawn).toHaveLength(6);
    expect(valueOf(drawSecondLook(study, wanted, 20 * day)).parts).toEqual(drawn);
    expect(valueOf(drawSecondLook(study, { ...wanted, seed: 6 }, 20 * day)).parts).not.toEqual(drawn);
    expect(drawSecondLook(study, wanted, 13 * day)).toMatchObject({ known: false, because: 'nothing old enough' });
    const marsh = valueOf(drawSecondLook(study, { ...wanted, whoseId: who.marsh, count: 200 }, 20 * day)).parts;
    expect(new Set(marsh)).toEqual(
      new Set(carries.filter(({ marks }) => marks.some((m) => m.evaluatorId === who.marsh)).map((c) => c.partId)),
    );
  });

  test('is the same whatever the earlier marks were', () => {
    const study = madeStudy();
    const wanted = { ...own, count: 8, seed: 11 };
    const before = valueOf(drawSecondLook(study, wanted, 20 * day)).parts;
    const steps = carries.flatMap(({ marks }) =>
      marks
        .filter(({ value }) => value !== null)
        .map(({ id, value }) => set('mark', id, { value: value === 5 ? 1 : 5 })),
    );
    study.make({ by: null, label: 'All else', steps });
    expect(valueOf(drawSecondLook(study, wanted, 20 * day)).parts).toEqual(before);
  });

  test('leaves out carries of a look still open, and counts what is left', () => {
    const under = carries.slice(0, 4).map(({ partId }) => partId);
    const study = madeStudy([...allSteps, kept(plan(under, null))]);
    const parts = valueOf(drawSecondLook(study, { ...own, count: 200, seed: 1 }, 20 * day)).parts;
    expect(parts).toHaveLength(20);
    expect(parts.filter((part) => under.includes(part))).toEqual([]);
    const state = secondLookState.parse(readSecondLooks(study, who.quill, 20 * day));
    expect(state.offers.map(({ marked, old }) => [marked, old])).toEqual([
      [20, 20],
      [10, 10],
    ]);
    expect(state.looks).toMatchObject([{ id: lookId, marked: 0, marks: 0, whose: 'Dana Quill' }]);
  });

  test('brings a carry without a mark, note, holding, or what came of it', async () => {
    const [carry] = carries;
    if (carry === undefined) throw new Error('no carry');
    const study = madeStudy([
      ...allSteps,
      add('holding', { id: uid(901), partId: carry.partId, evaluatorId: who.quill, answer: 'yes', because: 'HELD' }),
      set('part', carry.partId, { note: 'NOTED' }),
      set('play', carry.play.id, { note: 'NOTED' }),
    ]);
    const blind = readBlindCarry(study, carry.partId);
    expect(blindCarry.parse(blind)).toEqual(blind);
    const text = JSON.stringify(blind);
    for (const { id } of carry.marks) expect(text).not.toContain(id);
    for (const word of ['NOTED', 'HELD', '"gain', '"result', '"penalty', '"trait', '"value'])
      expect(text).not.toContain(word);
    expect(readGivenMarks(study, lookId, who.quill)).toEqual([]);
    expect((await faultOfWork(() => readBlindCarry(study, uid(77_777)))).fault).toBe('not-found');
  });
});

describe('agreement', () => {
  test('gives each reason in words: nothing marked, one evaluator, no second look', () => {
    const none = agreementView.parse(readAgreement(madeStudy(frameSteps), who.quill));
    expect(none.comparisons[0]?.kappa).toMatchObject({ because: 'no second look' });
    expect(none.comparisons[1]?.kappa).toMatchObject({ because: 'nothing shared' });
    expect(none.everybody).toMatchObject({ because: 'nothing paired' });
    expect(none.evaluators[0]?.leniency).toMatchObject({ because: 'no marks' });
    const alone = frameSteps.filter(
      ({ do: act, ...step }) => !('row' in step && act === 'add' && step.row['id'] === who.marsh),
    );
    expect(readAgreement(madeStudy(alone), who.quill).everybody).toMatchObject({ because: 'one evaluator' });
    const few = [...allSteps, ...again((first) => first).slice(0, 4)];
    expect(readAgreement(madeStudy(few), who.quill).comparisons[0]?.kappa).toEqual({
      known: false,
      because: 'fewer than needed',
      detail: 'It needs 10 pairs of marks and has 4 pairs.',
    });
  });

  test('of a known shift is that shift, with every pair listed and the others beside it', () => {
    const up = (first: number, at: number): number => Math.min(5, first + (at % 2 === 0 ? 0.5 : 0));
    const view = agreementView.parse(readAgreement(madeStudy([...allSteps, ...again(up)]), who.quill));
    const [looks] = view.comparisons;
    if (looks === undefined) throw new Error('no comparison');
    const gaps = carries.flatMap(({ marks }, carry) =>
      marks
        .filter(({ evaluatorId, value }) => evaluatorId === who.quill && value !== null)
        .map(({ value }, at) => up(value ?? 3, carry + at) - (value ?? 3)),
    );
    expect(looks.pairs).toBe(gaps.length);
    expect(looks.same).toBe(gaps.filter((gap) => gap === 0).length);
    expect(looks.near).toBe(gaps.length);
    expect(looks.differences).toHaveLength(gaps.filter((gap) => gap > 0).length);
    expect(valueOf(looks.shift).value).toBeCloseTo(gaps.reduce((sum, gap) => sum + gap, 0) / gaps.length, 10);
    const { value, low, high } = valueOf(looks.kappa);
    expect(low < value && value < high && high <= 1).toBe(true);
    expect(valueOf(looks.alpha).n).toBe(gaps.length);
    expect(view.evaluators.every(({ leniency, halves }) => leniency.known && halves.known)).toBe(true);
  });

  test('says nothing of carries in a look that is still open, and everything once it is finished', () => {
    const parts = carries.map(({ partId }) => partId);
    const marks = again((first, at) => (at % 3 === 0 ? 3 : first));
    const open = readAgreement(madeStudy([...allSteps, ...marks, kept(plan(parts, null))]), who.quill);
    expect(open.leftOut).toBe(parts.length);
    expect(JSON.stringify(open)).not.toContain('partId');
    const done = readAgreement(madeStudy([...allSteps, ...marks, kept(plan(parts, 50 * day))]), who.quill);
    expect(done.leftOut).toBe(0);
    expect(done.comparisons[0]?.kappa.known).toBe(true);
  });
});
