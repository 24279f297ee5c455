import { describe, expect, test } from 'vitest';
import { add, remove, set, type ChangeStep } from '../../../src/contract/changes.ts';
import type { Study } from '../../../src/host/study/study.ts';
import { allSteps, carries, contentOf, faultOfWork, madeStudy, uid, who } from '../small-study.ts';

const first = carries[0];
if (first === undefined) throw new Error('the small study has carries');
const change = (study: Study, ...steps: ChangeStep[]) => study.make({ by: who.quill, label: 'A change', steps });
const mark = {
  id: uid(90_000),
  partId: first.partId,
  evaluatorId: who.marsh,
  rubricVersionId: who.rubric,
  lookId: uid(90_001),
  trait: 'press',
  state: 'shown',
  value: 3,
  markedAt: 0,
} as const;
const play = (values: Record<string, unknown>): ChangeStep => ({
  do: 'add',
  table: 'play',
  row: { id: uid(91_000), gameId: who.games[0], position: 99, ...values },
});
const span = (values: Record<string, unknown>): ChangeStep => ({
  do: 'add',
  table: 'span',
  row: {
    id: uid(92_000),
    playId: null,
    filmId: who.film,
    inFrame: 9000,
    inTime: 300,
    outFrame: 9090,
    outTime: 303,
    ...values,
  },
});

describe('a change', () => {
  test('adds rows with what is not charted as null and what has a default as that', () => {
    const study = madeStudy();
    const made = change(study, play({ down: 3, toGo: 4 }));
    expect(made).toMatchObject({ label: 'A change', operations: 1, canUndo: true, canRedo: false });
    expect(study.rows.get('play', uid(91_000))).toMatchObject({ down: 3, toGo: 4, spot: null, giveIsChoice: null });
  });

  test('sets only what differs, and is no change at all when nothing does', () => {
    const study = madeStudy();
    const before = study.position();
    expect(change(study, set('runner', who.lyle, { name: 'Dez Okafor-Lyle' })).operations).toBe(0);
    expect(study.position()).toBe(before);
    change(study, set('runner', who.lyle, { name: 'Dez Okafor-Lyle', jersey: 22 }));
    expect(study.history('runner', who.lyle).at(-1)?.operations).toEqual([
      { table: 'runner', id: who.lyle, before: { jersey: null }, after: { jersey: 22 } },
    ]);
  });

  test('removes a play with all that hangs on it, and undo brings all of it back', () => {
    const study = madeStudy();
    change(
      study,
      add('moment', {
        id: uid(93_000),
        spanId: first.spanId,
        partId: first.partId,
        name: 'snap',
        frame: 10,
        time: 0.3,
      }),
      add('decision', {
        id: uid(93_001),
        partId: first.partId,
        evaluatorId: who.quill,
        spanId: first.spanId,
        frame: 20,
        time: 0.7,
      }),
      add('lane', {
        id: uid(93_002),
        decisionId: uid(93_001),
        position: 1,
        name: 'backside A',
        state: 'open',
        low: 1,
        likely: 3,
        high: 8,
        path: [
          [1, 2],
          [3, 4],
        ],
      }),
      add('chalk', {
        id: uid(93_003),
        spanId: first.spanId,
        evaluatorId: who.quill,
        fromFrame: 5,
        toFrame: 9,
        kind: 'arrow',
        points: [
          [0, 0],
          [9, 9],
        ],
      }),
    );
    const before = contentOf(study);
    const { operations } = change(study, remove('play', first.play.id));
    // Play, part, span, its marks, and the four rows just added.
    expect(operations).toBe(3 + first.marks.length + 4);
    for (const table of ['moment', 'decision', 'lane', 'chalk'] as const) expect(study.rows.all(table)).toEqual([]);
    expect(study.database.pragma('foreign_key_check')).toEqual([]);
    study.undo(who.quill);
    const tables = (content: unknown) =>
      (content as [string, unknown[]][]).filter(([name]) => !name.startsWith('journal'));
    const sorted = (content: unknown) =>
      tables(content).map(([name, rows]) => [name, rows.map((row) => JSON.stringify(row)).sort()]);
    expect(sorted(contentOf(study))).toEqual(sorted(before));
  });

  test('clears the frame of a mark, and keeps the mark, when its span goes', () => {
    const study = madeStudy();
    const [own] = first.marks;
    if (own === undefined) throw new Error('the first carry is marked');
    change(study, set('mark', own.id, { spanId: first.spanId, frame: 12, time: 0.4 }));
    change(study, remove('span', first.spanId));
    expect(study.rows.get('mark', own.id)).toMatchObject({ spanId: null, frame: 12 });
  });

  test('keeps half of a surrogate pair as the sign for what can not be read, in row and journal alike', () => {
    const study = madeStudy();
    change(study, set('runner', who.lyle, { note: 'left \ud83c hand \u0000 end' }));
    expect(study.rows.get('runner', who.lyle)?.note).toBe('left \ufffd hand \u0000 end');
    study.undo(who.quill);
    expect(study.rows.get('runner', who.lyle)?.note).toBeNull();
  });

  test('trims a span down to its moments', () => {
    const study = madeStudy();
    change(
      study,
      add('moment', { id: uid(93_000), spanId: first.spanId, partId: null, name: 'snap', frame: 10, time: 0.3 }),
    );
    change(study, set('span', first.spanId, { inFrame: 10 }));
    expect(study.rows.get('span', first.spanId)?.inFrame).toBe(10);
  });

  test('may name a play, its part and its span in any order within itself', () => {
    const study = madeStudy();
    const { operations } = change(
      study,
      add('part', { id: uid(94_001), playId: uid(91_000), runnerId: who.lyle }),
      span({ playId: uid(91_000) }),
      play({}),
    );
    expect(operations).toBe(3);
  });
});

const moment = (frame: number): ChangeStep =>
  add('moment', { id: uid(93_000), spanId: first.spanId, partId: null, name: 'plant', frame, time: 1 });

const refused: readonly [string, ChangeStep[], string, RegExp][] = [
  [
    'a gain beyond the goal line',
    [play({ spot: 92, gain: 9 })],
    'bad-input',
    /goal line is 8 yards away.*at most 8, got 9/,
  ],
  ['a loss beyond the own end line', [play({ spot: 3, gain: -14 })], 'bad-input', /at most 13 yards, got 14/],
  [
    'to go longer than the way to the goal line',
    [play({ down: 1, toGo: 10, spot: 95 })],
    'bad-input',
    /at the opponent 5 it is at most 5, got 10/,
  ],
  [
    'third and 99 at the own 2',
    [play({ down: 3, toGo: 99, spot: 2 })],
    'bad-input',
    /at the own 2 it is at most 98, got 99/,
  ],
  ['a fifth down', [play({ down: 5 })], 'bad-input', /a play at down: .*<=4; got 5/],
  ['spot 103', [play({ spot: 103 })], 'bad-input', /a play at spot: .*<=99; got 103/],
  ['half a yard to go', [play({ toGo: 2.5 })], 'bad-input', /a play at toGo: .*int.*; got 2.5/],
  ['a mark of 6', [add('mark', { ...mark, value: 6 })], 'bad-input', /a mark at value: .*<=5; got 6/],
  ['a mark of 0.5', [add('mark', { ...mark, value: 0.5 })], 'bad-input', /a mark at value: .*>=1; got 0.5/],
  [
    'a mark between the halves',
    [add('mark', { ...mark, value: 3.25 })],
    'bad-input',
    /a mark at value: .*multiple of 0.5; got 3.25/,
  ],
  [
    'a trait shown without a mark',
    [add('mark', { ...mark, value: null })],
    'bad-input',
    /shown needs a mark from 1 to 5, got none/,
  ],
  [
    'a figure on a trait not shown',
    [add('mark', { ...mark, state: 'not shown' })],
    'bad-input',
    /not shown carries no figure, got 3/,
  ],
  [
    'an unknown trait',
    [add('mark', { ...mark, trait: 'swagger' })],
    'refused',
    /no trait "swagger"; it has press, tempo/,
  ],
  [
    'a second mark of one trait by one evaluator',
    [add('mark', { ...mark, lookId: null }), add('mark', { ...mark, id: uid(90_002), lookId: null })],
    'refused',
    /already marked on this carry by this evaluator/,
  ],
  [
    'a word that is not one of ours',
    [play({ hash: 'centre' })],
    'bad-input',
    /a play at hash: .*"left"\|"middle"\|"right"; got "centre"/,
  ],
  ['a column that is not there', [play({ weather: 'rain' })], 'bad-input', /Unrecognized key: "weather"/],
  [
    'spans of two plays that overlap',
    [span({ inFrame: 50, outFrame: 9090 })],
    'refused',
    /Frames 50 to 9090 overlap another play's span, 0 to 90/,
  ],
  [
    'a span beyond the end of its film',
    [span({ outFrame: 10_000 })],
    'refused',
    /film ends at frame 9999; the span would end at 10000/,
  ],
  [
    'a span that ends where it begins',
    [span({ outFrame: 9000 })],
    'bad-input',
    /must end after it begins: in at frame 9000, out at 9000/,
  ],
  [
    'two runners in one carry',
    [add('part', { id: uid(94_001), playId: first.play.id, runnerId: who.brask })],
    'refused',
    /already has a carry, by Dez Okafor-Lyle/,
  ],
  [
    'one runner twice in a play',
    [add('part', { id: uid(94_001), playId: first.play.id, runnerId: who.lyle, kind: 'fake' })],
    'refused',
    /already has a part in this play/,
  ],
  ['a moment outside its span', [moment(95)], 'refused', /A moment lies inside its span, frames 0 to 90; got frame 95/],
  [
    'a step outside its span',
    [add('step', { id: uid(95_000), spanId: first.spanId, partId: first.partId, foot: 'left', frame: 91, time: 3 })],
    'refused',
    /A step lies inside its span/,
  ],
  [
    'a decision outside its span',
    [
      add('decision', {
        id: uid(95_001),
        partId: first.partId,
        evaluatorId: who.quill,
        spanId: first.spanId,
        frame: 91,
        time: 3,
      }),
    ],
    'refused',
    /A decision lies inside its span/,
  ],
  [
    'lane yards out of order',
    [
      add('lane', {
        id: uid(95_002),
        decisionId: uid(95_001),
        position: 0,
        name: 'B',
        state: 'open',
        low: 4,
        likely: 3,
        high: 8,
      }),
    ],
    'bad-input',
    /go low, likely, high; got 4, 3, 8/,
  ],
  [
    'a game of a team against itself',
    [add('game', { id: uid(95_003), homeTeamId: who.harlan, awayTeamId: who.harlan })],
    'bad-input',
    /two different teams/,
  ],
  [
    'a runner with carries removed',
    [remove('runner', who.lyle)],
    'refused',
    /This runner is still used by 12 part row/,
  ],
  [
    'an evaluator with marks removed',
    [remove('evaluator', who.quill)],
    'refused',
    /This evaluator is still used by \d+ mark row/,
  ],
  ['a film with spans removed', [remove('film', who.film)], 'refused', /This film is still used by 24 span row/],
  ['a row set that is not there', [set('play', uid(1), { down: 1 })], 'not-found', /There is no play/],
  ['a row removed that is not there', [remove('mark', uid(1))], 'not-found', /There is no mark/],
  [
    'a row added twice',
    [add('team', { id: who.harlan, name: 'Again' })],
    'refused',
    /UNIQUE constraint failed: team.id/,
  ],
  [
    'a part of a play that is not there',
    [add('part', { id: uid(94_001), playId: uid(1), runnerId: who.lyle })],
    'refused',
    /is not there or would be lost/,
  ],
  [
    'an id that is no id',
    [add('team', { id: 'harlan', name: 'Harlan' })],
    'bad-input',
    /a team at id: Invalid UUID; got "harlan"/,
  ],
];

describe('a change is refused with a sentence, and nothing of it is written', () => {
  test.each(refused)('%s', async (_, steps, kind, says) => {
    const study = madeStudy();
    const before = contentOf(study);
    const good = add('team', { id: uid(96_000), name: 'Written first' });
    const fault = await faultOfWork(() => change(study, good, ...steps));
    expect(fault.fault).toBe(kind);
    expect(fault.says).toMatch(says);
    expect(fault.next).not.toBe('');
    expect(contentOf(study)).toEqual(before);
    expect(study.undoState(who.quill)).toMatchObject({ canUndo: false, canRedo: false });
  });

  test('a span trimmed past the moments on it', async () => {
    const study = madeStudy();
    change(study, moment(80));
    const before = contentOf(study);
    const fault = await faultOfWork(() => change(study, set('span', first.spanId, { outFrame: 79 })));
    expect(fault.fault).toBe('refused');
    expect(fault.says).toBe('A moment at frame 80 would lie outside the span, frames 0 to 79.');
    expect(contentOf(study)).toEqual(before);
  });

  test('and the study goes on taking changes after it', async () => {
    const study = madeStudy(allSteps);
    await faultOfWork(() => change(study, play({ down: 5 })));
    expect(change(study, play({ down: 4 })).operations).toBe(1);
  });
});
