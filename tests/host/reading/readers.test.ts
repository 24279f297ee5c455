import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { calls } from '../../../src/contract/calls.ts';
import { add, remove, set } from '../../../src/contract/changes.ts';
import { rubricBody } from '../../../src/contract/rows.ts';
import { carryJudge } from '../../../src/core/expectation/carry-figures.ts';
import { deltaSummary, successOverExpected } from '../../../src/core/expectation/delta.ts';
import { yardstickOf } from '../../../src/core/expectation/yardstick.ts';
import { gradeClass } from '../../../src/core/grades/grade-class.ts';
import type { GradeMark } from '../../../src/core/grades/grade-mark.ts';
import { rateOf } from '../../../src/core/plays/success-rate.ts';
import { defaultRubric } from '../../../src/core/rubric/default-rubric.ts';
import { readDirectory, readStudyInfo } from '../../../src/host/reading/directory.ts';
import { readDossier, stillsWanted } from '../../../src/host/reading/dossier.ts';
import { readSheet } from '../../../src/host/reading/sheet.ts';
import { readStageGame } from '../../../src/host/reading/stage-game.ts';
import { valueOf } from '../../value-of.ts';
import { carries, faultOfWork, frameSteps, madeStudy, uid, who } from '../small-study.ts';

const yardstick = yardstickOf({
  successRule: 'college',
  ownShares: [40, 60, 100, 100],
  yardsModel: 'college',
  borrowBox: false,
});
const ofRunner = (runnerId: string) => carries.filter((carry) => carry.runnerId === runnerId);
const counted = (runnerId: string) => ofRunner(runnerId).filter(({ counts }) => counts);
const figuresOf = (runnerId: string) =>
  counted(runnerId).map(({ play, gain }) => valueOf(carryJudge(yardstick)({ ...play, gain })));

function marksOf(evaluatorId: string | null): GradeMark[] {
  return carries
    .filter(({ counts }) => counts)
    .flatMap(({ runnerId, play, partId, marks }) =>
      marks.flatMap(({ state, value, trait, clearness, evaluatorId: evaluator }) =>
        state === 'shown' && value !== null && (evaluatorId === null || evaluator === evaluatorId)
          ? [
              {
                runner: runnerId,
                game: play.gameId,
                carry: partId,
                evaluator,
                trait,
                value,
                clearness: clearness ?? 'clear',
              },
            ]
          : [],
      ),
    );
}

describe('the sheet', () => {
  test.each([who.lyle, who.brask])('of %s counts success and yards over expected as core does', (runnerId) => {
    const sheet = calls['sheet.read'].output.parse(readSheet(madeStudy(), runnerId, null));
    const figures = figuresOf(runnerId);
    const residuals = figures.flatMap(({ residual }) => (residual === null ? [] : [residual]));
    const hits = figures.filter(({ success }) => success === true).length;
    expect(sheet.success).toEqual(rateOf({ hits, n: figures.length }));
    expect(valueOf(sheet.delta)).toMatchObject({
      n: 11,
      mean: residuals.reduce((sum, { delta }) => sum + delta, 0) / residuals.length,
    });
    const delta = valueOf(deltaSummary(residuals, yardstick.model.spread.delta));
    expect(valueOf(sheet.delta)).toEqual({
      mean: delta.mean,
      standardError: delta.standardError,
      shrunk: delta.shrunk,
      n: delta.n,
      small: delta.small,
    });
    const over = valueOf(successOverExpected(residuals, yardstick.model.spread.success));
    expect(valueOf(sheet.successOverExpected)).toEqual({ mean: over.mean, shrunk: over.shrunk, n: over.n });
  });

  test.each([
    ['one evaluator', who.quill],
    ['the other evaluator', who.marsh],
    ['all', null],
  ])('by %s grades as core does from the same marks', (_, evaluatorId) => {
    const study = madeStudy();
    const runners = [who.lyle, who.brask, who.unplayed];
    const grades = gradeClass(marksOf(evaluatorId), rubricBody.parse(defaultRubric), { runners });
    for (const runnerId of runners) {
      const sheet = readSheet(study, runnerId, evaluatorId);
      const own = grades.runners[runnerId];
      if (own === undefined) throw new Error('every runner is graded');
      const same = (shown: { known: boolean; value?: object }, computed: { known: boolean; value?: object }): void => {
        expect(shown.known).toBe(computed.known);
        // The view leaves out what no room shows; what it shows is the same to the digit.
        for (const [key, value] of Object.entries(shown.value ?? {}))
          expect(value).toEqual((computed.value as Record<string, unknown>)[key]);
      };
      same(sheet.overall, own.overall);
      for (const family of sheet.families) {
        const computed = own.families[family.key];
        if (computed === undefined) throw new Error(`no family ${family.key}`);
        same(family.grade, computed);
        for (const trait of family.traits) {
          const grade = own.traits[trait.key];
          if (grade === undefined) throw new Error(`no trait ${trait.key}`);
          same(trait.grade, grade);
        }
      }
    }
  });

  test('one evaluator’s marks and all evaluators’ are told apart, down to the carry', () => {
    const study = madeStudy();
    const [quill, marsh, all] = [who.quill, who.marsh, null].map((by) => readSheet(study, who.lyle, by));
    const marksIn = (sheet: typeof all) => sheet?.carries.map(({ marks }) => Object.keys(marks).length);
    expect(marksIn(quill)).toEqual(
      ofRunner(who.lyle).map(({ marks }) => marks.filter((mark) => mark.evaluatorId === who.quill).length),
    );
    expect(marksIn(marsh)).toEqual(
      ofRunner(who.lyle).map(({ marks }) => marks.filter((mark) => mark.evaluatorId === who.marsh).length),
    );
    expect([quill?.evaluator, marsh?.evaluator, all?.evaluator]).toEqual(['Dana Quill', 'Ivo Marsh', null]);
    expect(valueOf(quill?.overall ?? raise()).grade).not.toBe(valueOf(all?.overall ?? raise()).grade);
  });

  test('counts how often each trait was shown, not shown, not to be seen, and not looked at', () => {
    const sheet = readSheet(madeStudy(), who.lyle, who.quill);
    for (const trait of sheet.families.flatMap((family) => family.traits)) {
      const states = counted(who.lyle).map(
        ({ marks }) => marks.find((mark) => mark.trait === trait.key && mark.evaluatorId === who.quill)?.state,
      );
      const times = (state: string | undefined) => states.filter((one) => one === state).length;
      expect([trait.shown, trait.notShown, trait.unseen, trait.unlooked]).toEqual(
        ['shown', 'not shown', 'unseen', undefined].map(times),
      );
      expect(trait.shown + trait.notShown + trait.unseen + trait.unlooked).toBe(11);
    }
  });

  test('lists carries in the order of the games, the uncounted too, and sets the log beside the book', () => {
    const sheet = readSheet(madeStudy(), who.lyle, null);
    expect(sheet.carries.map(({ number }) => number)).toEqual([1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12]);
    expect(sheet.carries.map(({ partId }) => partId)).toEqual(ofRunner(who.lyle).map(({ partId }) => partId));
    expect(sheet.carries.map(({ counts }) => counts)).toEqual(ofRunner(who.lyle).map(({ counts }) => counts));
    expect(sheet.carries.map(({ decided }) => decided)).toEqual([...Array<boolean>(11).fill(false), true]);
    expect(sheet.games.map(({ label, logged, official }) => [label, logged, official])).toEqual([
      ['Harlan Ridge at Coldwater, week 3', 4, 4],
      ['Harlan Ridge at Coldwater, week 4', 4, 11],
      ['Harlan Ridge at Coldwater, week 5', 4, null],
    ]);
    expect(valueOf(sheet.completeness)).toEqual({ logged: 8, official: 15, share: 8 / 15, complete: false });
    expect(sheet.thin.join(' ')).toContain('Only 8 of 15 official carries are logged');
    for (const { field, rows } of sheet.splits)
      expect([field, rows.reduce((sum, { n }) => sum + n, 0)]).toEqual([field, 11]);
  });

  test('answers with reasons, not figures, where nothing is charted or marked', () => {
    const bare = [
      ...frameSteps,
      add('play', { id: uid(100), gameId: who.games[0], position: 1 }),
      add('part', { id: uid(200), playId: uid(100), runnerId: who.lyle }),
    ];
    const sheet = calls['sheet.read'].output.parse(readSheet(madeStudy(bare), who.lyle, null));
    expect(sheet.carries).toMatchObject([
      { situation: 'not charted', run: 'not charted', gain: null, expected: null, delta: null, success: null },
    ]);
    for (const answer of [sheet.success, sheet.delta, sheet.overall, sheet.completeness])
      expect(answer.known).toBe(false);
    expect(JSON.stringify(sheet)).not.toMatch(/NaN|Infinity/);
    const empty = calls['sheet.read'].output.parse(readSheet(madeStudy(frameSteps), who.unplayed, who.marsh));
    expect([empty.carries, empty.thin]).toEqual([[], ['No carry is logged yet.']]);
  });

  test('follows a change of mark, of rule and of model at once', () => {
    const study = madeStudy();
    const before = readSheet(study, who.lyle, null);
    const shown = ofRunner(who.lyle)[0]?.marks.find(({ value, state }) => state === 'shown' && value !== 5);
    study.make({ by: who.quill, label: 'x', steps: [set('mark', shown?.id ?? '', { value: 5 })] });
    expect(valueOf(readSheet(study, who.lyle, null).overall).grade).toBeGreaterThan(valueOf(before.overall).grade);
    study.undo(who.quill);
    expect(readSheet(study, who.lyle, null)).toEqual(before);
    study.make({
      by: who.quill,
      label: 'x',
      steps: [
        add('setting', { id: 'successRule', value: 'classic' }),
        add('setting', { id: 'yardsModel', value: 'professional' }),
      ],
    });
    const other = readSheet(study, who.lyle, null);
    expect([before.successRule, other.successRule]).not.toEqual([before.successRule, before.successRule]);
    expect(valueOf(other.delta).mean).not.toBe(valueOf(before.delta).mean);
    expect(other.overall).toEqual(before.overall);
  });

  test('of a runner who was removed is a fault, and the rest of the class stands', async () => {
    const study = madeStudy();
    study.make({ by: who.quill, label: 'x', steps: [remove('runner', who.unplayed)] });
    for (const read of [
      () => readSheet(study, who.unplayed, null),
      () => readDossier(study, who.unplayed, null, { filmFolders: [], programVersion: '0', now: 0 }),
    ])
      expect((await faultOfWork(read)).fault).toBe('not-found');
    expect(readDirectory(study, []).runners.map(({ name }) => name)).toEqual(['Dez Okafor-Lyle', 'Tavian Brask']);
    expect(readSheet(study, who.lyle, null).overall.known).toBe(true);
  });

  test('of a study without a rubric says so', async () => {
    const bare = frameSteps.filter((step) => step.table !== 'rubricVersion');
    const fault = await faultOfWork(() => readSheet(madeStudy(bare), who.lyle, null));
    expect(fault).toMatchObject({ fault: 'not-found', says: 'This study has no rubric.' });
  });
});

describe('the directory', () => {
  test('counts plays and carries, and says which film is not there', () => {
    const study = madeStudy();
    const directory = calls['directory.read'].output.parse(readDirectory(study, []));
    expect(directory.runners.map(({ name, carries: n }) => [name, n])).toEqual([
      ['Dez Okafor-Lyle', 12],
      ['Tavian Brask', 12],
      ['Jonah Quillane', 0],
    ]);
    expect(directory.games.map(({ plays, carries: n }) => [plays, n])).toEqual([
      [8, 8],
      [8, 8],
      [8, 8],
    ]);
    expect(directory.films).toMatchObject([{ name: 'coldwater.mp4', missing: true }]);
    expect(directory.study).toMatchObject({ name: 'class', readOnly: false, version: 10, journalEntries: 1 });
    expect(readStudyInfo(study).path).toBe(join(study.path));
  });

  test('gives names of any allowed length without breaking', () => {
    const long = 'x'.repeat(200);
    const study = madeStudy();
    study.make({
      by: null,
      label: 'x',
      steps: [set('team', who.harlan, { name: long }), set('team', who.coldwater, { name: long })],
    });
    const directory = calls['directory.read'].output.parse(readDirectory(study, []));
    expect(directory.games[0]?.label).toBe(`${'x'.repeat(90)} at ${'x'.repeat(90)}, week 3`);
    calls['sheet.read'].output.parse(readSheet(study, who.lyle, null));
  });
});

describe('the stage', () => {
  test('has one game whole: plays in order with all that hangs on them, and nothing of another game', () => {
    const study = madeStudy();
    const game = calls['stage.game'].output.parse(readStageGame(study, who.games[1]));
    const own = carries.filter(({ play }) => play.gameId === who.games[1]);
    expect(game.plays.map(({ id }) => id)).toEqual(own.map(({ play }) => play.id));
    expect(game.parts.map(({ id }) => id)).toEqual(own.map(({ partId }) => partId));
    expect(game.spans.map(({ id }) => id)).toEqual(own.map(({ spanId }) => spanId));
    expect(game.marks.map(({ id }) => id).toSorted()).toEqual(
      own.flatMap(({ marks }) => marks.map(({ id }) => id)).toSorted(),
    );
    for (const list of [game.moments, game.steps, game.holdings, game.decisions, game.lanes, game.chalk])
      expect(list).toEqual([]);
  });

  test('of a game that is not there is a fault', async () => {
    const study = madeStudy();
    expect((await faultOfWork(() => readStageGame(study, uid(1)))).fault).toBe('not-found');
  });
});

describe('the dossier', () => {
  const surroundings = { filmFolders: [], programVersion: '0.1.0', now: Date.UTC(2026, 10, 14) };
  const [first, second] = ofRunner(who.lyle);
  const writeup = add('writeup', {
    id: uid(70_000),
    runnerId: who.lyle,
    evaluatorId: who.quill,
    role: 'Early downs',
    verdict: [{ text: 'Takes what is there.', cites: [second?.partId ?? '', first?.partId ?? ''], against: [uid(1)] }],
  });

  test('has the sheet’s own figures, and the words with the numbers of the carries they cite', () => {
    const study = madeStudy();
    study.make({ by: who.quill, label: 'x', steps: [writeup] });
    const view = calls['dossier.read'].output.parse(readDossier(study, who.lyle, who.quill, surroundings));
    expect(view.sheet).toEqual(calls['sheet.read'].output.parse(readSheet(study, who.lyle, who.quill)));
    expect(view).toMatchObject({
      evaluatorName: 'Dana Quill',
      date: '2026-11-14',
      role: 'Early downs',
      writeupId: uid(70_000),
    });
    // A cited carry that is no longer there is left out.
    expect(view.verdict).toEqual([{ text: 'Takes what is there.', cites: [1, 2], against: [] }]);
    expect(view.evidence.map(({ number, frame, missing }) => [number, frame, missing])).toEqual([
      [2, 100, 'The film coldwater.mp4 was not found when this was printed, and no still of frame 100 was kept.'],
    ]);
    expect(stillsWanted(study, who.lyle, who.quill, [])).toEqual([]);
  });

  test('by another evaluator has none of the first one’s words', () => {
    const study = madeStudy();
    study.make({ by: who.quill, label: 'x', steps: [writeup] });
    expect(readDossier(study, who.lyle, who.marsh, surroundings)).toMatchObject({
      role: null,
      verdict: [],
      evidence: [],
      writeupId: null,
    });
    expect(readDossier(study, who.lyle, null, surroundings)).toMatchObject({
      role: 'Early downs',
      evaluatorName: 'Dana Quill',
    });
  });
});

function raise(): never {
  throw new Error('wanted a sheet');
}
