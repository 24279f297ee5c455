import { describe, expect, test } from 'vitest';
import {
  boardDraws,
  boardField,
  boardRest,
  boardScores,
  boardShares,
  boardStandings,
  rankBoard,
} from '../../src/contract/board-answer.ts';
import {
  boardRanked,
  boardResults,
  boardView,
  plainChoice,
  watchNextView,
} from '../../src/contract/comparison-views.ts';
import { remove, set } from '../../src/contract/changes.ts';
import { board } from '../../src/core/board/board.ts';
import { drawsOf } from '../../src/core/board/draws-of.ts';
import { watchNext } from '../../src/core/board/watch-next.ts';
import { randomFrom } from '../../src/core/random.ts';
import { traitWeights } from '../../src/core/rubric/weights.ts';
import { readBoard, readBoardResults, readRanked, readWatchNext } from '../../src/host/reading/board.ts';
import { classGrades } from '../../src/host/reading/class-grades.ts';
import { keptMarks } from '../../src/host/reading/kept-marks.ts';
import { readSheet } from '../../src/host/reading/sheet.ts';
import { valueOf } from '../value-of.ts';
import { faultOfWork, madeStudy } from './small-study.ts';
import { classOf, classSteps } from './study-of-class.ts';

const plan = { runners: 8, games: 3, carries: 12 } as const;
const study = (part: Partial<Parameters<typeof classSteps>[0]> = {}) => madeStudy(classSteps({ ...plan, ...part }));

describe('the board of a study', () => {
  test('is what core ranks from the same marks, weights and seed', () => {
    const made = study();
    const view = readBoard(made, null);
    const shares = valueOf(traitWeights(view.rubric.body)).map(({ overall }) => overall);
    const thick = Object.entries(classGrades(made, null).runners);
    for (const concentration of [null, 40]) {
      const ours = valueOf(readRanked(made, null, { ...plainChoice, concentration, includeThin: true }).answer);
      const core = valueOf(
        board({
          grades: { ...classGrades(made, null), runners: Object.fromEntries(thick) },
          marks: keptMarks(made, null),
          weights: shares,
          draws: view.draws,
          random: randomFrom(view.seed),
          weightRandom: randomFrom(view.seed + 1),
          includeThin: true,
          ...(concentration === null ? {} : { concentration }),
        }),
      );
      expect(ours.rows).toEqual(core.rows);
      expect(ours.pairwise).toEqual(core.pairwise);
    }
  });

  test('crosses the door in the shapes of the contract', () => {
    const made = study();
    expect(boardView.parse(readBoard(made, null))).toEqual(readBoard(made, null));
    const ranked = readRanked(made, classOf.one, { ...plainChoice, concentration: 20 });
    expect(boardRanked.parse(ranked)).toEqual(ranked);
    const results = readBoardResults(made);
    expect(results.map((row) => boardResults.parse(row))).toEqual(results);
    const next = valueOf(readWatchNext(made, null));
    expect(next.map((row) => watchNextView.parse(row))).toEqual(next);
  });

  test('drawn in parts as a page draws it is the same board bit for bit', () => {
    const view = readBoard(study(), null);
    const choice = { ...plainChoice, concentration: 60, families: { vision: 3 }, position: 'running back' };
    const random = randomFrom(view.seed);
    const parts = Array.from({ length: 10 }, () => boardDraws(view, view.draws / 10, random));
    const values = new Float32Array(parts.flatMap((part) => [...part.values]));
    const [first] = parts;
    if (first === undefined) throw new Error('nothing was drawn');
    const field = boardField(view, choice);
    const shares = valueOf(boardShares(view, choice, field));
    const ids = field.placed.map(({ id }) => id);
    const scored = boardScores(drawsOf({ ...first, draws: view.draws, values }, ids), shares, choice, view.seed);
    const order = boardStandings(field.placed, scored, shares);
    expect(boardRest(view.rubric.body, field.placed, scored, shares, order)).toEqual(
      valueOf(rankBoard(view, choice).answer),
    );
  });

  test('sets thin and unmarked runners apart with the reason in words, and places the thin ones when asked', () => {
    const made = study();
    const { apart, answer } = readRanked(made, null, plainChoice);
    expect(apart.map(({ runner }) => runner)).toEqual([classOf.runner(6), classOf.runner(7)]);
    expect(apart[0]?.because).toMatch(
      /^Thin: his marks tell as much as \d+\.\d clear ones, from 1 game; 6 clear ones from 2 games/,
    );
    expect(apart[1]?.because).toBe('The whole is not marked on any carry.');
    expect(valueOf(answer).rows).toHaveLength(6);
    expect(valueOf(readRanked(made, null, { ...plainChoice, includeThin: true }).answer).rows).toHaveLength(7);
  });

  test('says not comparable by the evaluators’ names when each runner has his own evaluator', () => {
    const made = study({ by: (runner) => [runner < 4 ? classOf.one : classOf.other] });
    const { answer } = readRanked(made, null, plainChoice);
    expect(answer).toMatchObject({ known: false, because: 'not comparable' });
    expect(answer.known ? '' : answer.detail).toContain('(R. Amari; T. Osgaard)');
    // One evaluator's own marks can always be ranked.
    expect(readRanked(made, classOf.one, plainChoice).answer.known).toBe(true);
  });

  test('ranks across evaluators once they share carries', () => {
    const made = study({
      by: (runner, carry) =>
        runner === 3 && carry < 4 ? [classOf.one, classOf.other] : [runner < 4 ? classOf.one : classOf.other],
    });
    expect(readRanked(made, null, plainChoice).answer.known).toBe(true);
  });

  test('gives a reason for weights that are all zero, for a filter that leaves one runner, and for no marks at all', () => {
    const made = study();
    const families = Object.fromEntries(readBoard(made, null).rubric.body.families.map(({ key }) => [key, 0]));
    expect(readRanked(made, null, { ...plainChoice, families }).answer).toMatchObject({ because: 'no weight' });
    const few = readRanked(made, null, { ...plainChoice, position: 'fullback' });
    expect(few.answer).toMatchObject({ because: 'fewer than two' });
    expect(few.filtered).toBe(6);
    expect(readRanked(made, null, { ...plainChoice, atLeast: 1000 })).toMatchObject({
      answer: { because: 'no marks' },
      filtered: 8,
    });
    expect(readRanked(madeStudy(classSteps({ ...plan, by: () => [] })), null, plainChoice).answer.known).toBe(false);
  });

  test('passes over weights of traits and families the rubric no longer has', () => {
    const view = readBoard(study(), null);
    expect(rankBoard(view, { ...plainChoice, families: { gone: 5 }, traits: { toString: 3 } })).toEqual(
      rankBoard(view, plainChoice),
    );
  });

  test('has swap points at which the two named draw level: a little beyond, the other is first', () => {
    const view = readBoard(study({ spread: 0.2 }), null);
    const answer = valueOf(rankBoard(view, plainChoice).answer);
    let seen = 0;
    for (const { key, swap } of answer.families) {
      if (!swap.known || swap.value.to > 0.999) continue;
      seen += 1;
      const others = view.rubric.body.families.filter((family) => family.key !== key);
      const rest = others.reduce((sum, { weight }) => sum + weight, 0);
      const at = (share: number) => ({ ...plainChoice, families: { [key]: (rest * share) / (1 - share) } });
      const beyond = swap.value.to + Math.sign(swap.value.change) * 1e-6;
      const before = swap.value.to - Math.sign(swap.value.change) * 1e-6;
      const topAt = (share: number) => valueOf(rankBoard(view, at(share)).answer).rows[0]?.runner;
      if (beyond > 0) expect(topAt(beyond)).toBe(swap.value.challenger);
      expect(topAt(before)).toBe(swap.value.first);
    }
    for (const { key, swap } of answer.traits) {
      if (!swap.known || swap.value.to > 0.999 || swap.value.to < 0.001) continue;
      const family = view.rubric.body.families.find(({ traits }) => traits.some((trait) => trait.key === key));
      const rest = (family?.traits ?? []).reduce((sum, trait) => sum + (trait.key === key ? 0 : trait.weight), 0);
      if (rest === 0) continue;
      seen += 1;
      const { to, change, challenger } = swap.value;
      const share = to + Math.sign(change) * 1e-6;
      const choice = { ...plainChoice, traits: { [key]: (rest * share) / (1 - share) } };
      expect(valueOf(rankBoard(view, choice).answer).rows[0]?.runner).toBe(challenger);
    }
    expect(seen).toBeGreaterThan(0);
  });
});

describe('results beside the board', () => {
  test('are the sheet’s own, runner by runner', () => {
    const made = study();
    for (const { runnerId, success, delta, carries, games, completeness } of readBoardResults(made)) {
      const sheet = readSheet(made, runnerId, null);
      expect(success).toEqual(sheet.success);
      expect(delta).toEqual(sheet.delta);
      expect(completeness).toEqual(sheet.completeness);
      expect(carries).toBe(sheet.carries.filter(({ counts }) => counts).length);
      expect(games).toBe(sheet.games.filter(({ logged }) => logged > 0).length);
    }
  });

  test('follow a change and a removed runner', () => {
    const made = study();
    const [before] = readBoardResults(made);
    const part = made.rows.where('part', 'runnerId', classOf.runner(0))[0];
    if (part === undefined) throw new Error('no carry');
    made.make({
      by: null,
      label: 'Not a carry',
      steps: [set('part', part.id, { counts: false, countsBecause: 'kneel' })],
    });
    expect(readBoardResults(made)[0]?.carries).toBe((before?.carries ?? 0) - 1);
    const plays = made.rows.where('part', 'runnerId', classOf.runner(7)).map(({ playId }) => remove('play', playId));
    made.make({ by: null, label: 'Gone', steps: [...plays, remove('runner', classOf.runner(7))] });
    expect(readBoardResults(made)).toHaveLength(7);
    expect(readBoard(made, null).runners).toHaveLength(7);
  });
});

describe('what to watch next', () => {
  test('is core’s order, carries of one runner and game together, the first of them to open', () => {
    const made = study();
    const next = valueOf(readWatchNext(made, null));
    const parts = made.rows.all('part').filter(({ id }) => made.rows.where('mark', 'partId', id).length === 0);
    const core = valueOf(
      watchNext(
        parts.map(({ id, playId, runnerId }) => ({
          runner: runnerId,
          game: made.rows.get('play', playId)?.gameId ?? '',
          carry: id,
        })),
        keptMarks(made, null),
        classGrades(made, null).pooled,
        readBoard(made, null).rubric.body,
      ),
    );
    expect(next[0]).toMatchObject({ runnerId: core[0]?.runner, swaps: core[0]?.swaps, movement: core[0]?.movement });
    expect(next.map(({ swaps }) => swaps)).toEqual(next.map(({ swaps }) => swaps).toSorted((a, b) => b - a));
    expect(next[0]?.carries).toBe(
      core.filter(({ runner, game, swaps }) => {
        const [first] = next;
        return runner === first?.runnerId && game === first.gameId && swaps === first.swaps;
      }).length,
    );
  });

  test('says so when everything is marked or there is nobody to compare', () => {
    expect(readWatchNext(madeStudy(classSteps({ runners: 1, games: 1, carries: 2 })), null)).toMatchObject({
      because: 'nothing unmarked',
    });
    expect(readWatchNext(madeStudy(classSteps({ runners: 1, games: 1, carries: 12 })), null)).toMatchObject({
      because: 'fewer than two',
    });
  });
});

test('A study without a rubric is a fault that says what to do', async () => {
  const made = madeStudy([]);
  expect(await faultOfWork(() => readBoard(made, null))).toMatchObject({ fault: 'not-found' });
});
