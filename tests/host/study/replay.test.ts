import fc from 'fast-check';
import { expect, test } from 'vitest';
import { FaultError } from '../../../src/contract/faults.ts';
import { rows, type TableName } from '../../../src/contract/rows.ts';
import { add, remove, set, type ChangeStep } from '../../../src/contract/changes.ts';
import { journalDifferences } from '../../../src/host/study/replay.ts';
import type { Study } from '../../../src/host/study/study.ts';
import { frameSteps, madeStudy, uid, who } from '../small-study.ts';

// Few ids, so that rows meet, overlap, hang on each other and go again.
const few = (base: number) => fc.integer({ min: 0, max: 5 }).map((n) => uid(base + n));
const [plays, parts, spans, marks, moments] = [1000, 2000, 3000, 4000, 5000];
const maybe = <Value>(value: fc.Arbitrary<Value>) => fc.option(value, { nil: null });
const words = maybe(
  fc.oneof(fc.string({ maxLength: 12 }), fc.string({ unit: 'binary', maxLength: 6 }), fc.constant('\ud800')),
);
const trait = fc.constantFrom('press', 'tempo', 'crease', 'swagger');
const evaluator = fc.constantFrom(who.quill, who.marsh);

const step: fc.Arbitrary<ChangeStep> = fc.oneof(
  fc
    .record({
      id: few(plays),
      down: maybe(fc.integer({ min: 1, max: 5 })),
      toGo: maybe(fc.integer({ min: 1, max: 20 })),
      spot: maybe(fc.integer({ min: 1, max: 99 })),
      position: fc.double({ noNaN: true, noDefaultInfinity: true }),
      note: words,
      giveIsChoice: maybe(fc.boolean()),
    })
    .map((row) => add('play', { ...row, gameId: who.games[0] })),
  fc
    .record({
      id: few(parts),
      playId: few(plays),
      runnerId: fc.constantFrom(who.lyle, who.brask),
      kind: fc.constantFrom('run', 'fake'),
      gain: maybe(fc.integer({ min: -9, max: 30 })),
      note: words,
    })
    .map((row) => add('part', row as never)),
  fc
    .tuple(few(spans), maybe(few(plays)), fc.integer({ min: 0, max: 300 }), fc.integer({ min: -1, max: 60 }))
    .map(([id, playId, start, length]) =>
      add('span', {
        id,
        playId,
        filmId: who.film,
        inFrame: start,
        inTime: start / 30,
        outFrame: Math.max(0, start + length),
        outTime: (start + 60) / 30,
      }),
    ),
  fc
    .record({
      id: few(moments),
      spanId: few(spans),
      partId: maybe(few(parts)),
      frame: fc.integer({ min: 0, max: 320 }),
    })
    .map((row) => add('moment', { ...row, name: 'plant', time: row.frame / 30 })),
  fc
    .record({
      id: few(marks),
      partId: few(parts),
      evaluatorId: evaluator,
      trait,
      value: fc.constantFrom(1, 2.5, 4, 6),
      spanId: maybe(few(spans)),
    })
    .map((row) => add('mark', { ...row, rubricVersionId: who.rubric, state: 'shown', markedAt: 0 })),
  fc
    .tuple(few(plays), maybe(fc.integer({ min: 1, max: 99 })), words)
    .map(([id, spot, note]) => set('play', id, { spot, note })),
  fc
    .tuple(few(spans), fc.integer({ min: 0, max: 300 }), maybe(few(plays)))
    .map(([id, outFrame, playId]) => set('span', id, { outFrame, playId })),
  fc.tuple(few(marks), fc.constantFrom(1, 3, 5)).map(([id, value]) => set('mark', id, { value })),
  fc
    .tuple(fc.constantFrom('a', 'b'), fc.jsonValue({ maxDepth: 2 }))
    .map(([id, value]) => add('setting', { id, value: value as never })),
  fc.constantFrom('a', 'b').map((id) => remove('setting', id)),
  few(plays).map((id) => remove('play', id)),
  few(parts).map((id) => remove('part', id)),
  few(spans).map((id) => remove('span', id)),
);

type Act = { readonly by: string; readonly act: ChangeStep[] | 'undo' | 'redo' };
const act: fc.Arbitrary<Act> = fc.record({
  by: evaluator,
  act: fc.oneof(
    { weight: 6, arbitrary: fc.array(step, { minLength: 1, maxLength: 2 }) },
    { weight: 2, arbitrary: fc.constant('undo' as const) },
    { weight: 1, arbitrary: fc.constant('redo' as const) },
  ),
});

const tables = Object.keys(rows) as TableName[];
const rowsOf = (study: Study): unknown => tables.map((table) => study.rows.all(table));

function perform(study: Study, { by, act: what }: Act): boolean {
  try {
    if (what === 'undo') study.undo(by);
    else if (what === 'redo') study.redo(by);
    else study.make({ by, label: 'drawn', steps: what });
    return true;
  } catch (cause) {
    if (cause instanceof FaultError) return false;
    throw cause;
  }
}

test('whatever is changed, undone, redone or refused, the tables are the replayed journal and every row can be', () => {
  const study = madeStudy(frameSteps);
  let done = 0;
  let refused = 0;
  fc.assert(
    fc.property(fc.array(act, { minLength: 20, maxLength: 60 }), (acts) => {
      for (const one of acts) {
        const before = rowsOf(study);
        const position = study.position();
        if (perform(study, one)) {
          done += 1;
        } else {
          refused += 1;
          expect(rowsOf(study)).toEqual(before);
          expect(study.position()).toBe(position);
        }
      }
      expect(journalDifferences(study.database)).toEqual([]);
      expect(study.database.pragma('foreign_key_check')).toEqual([]);
      for (const table of tables) for (const row of study.rows.all(table)) expect(rows[table].parse(row)).toEqual(row);
    }),
    { numRuns: 30 },
  );
  // Both kinds were really drawn, or the property says little.
  expect(Math.min(done, refused)).toBeGreaterThan(50);
}, 60_000);

test('undoing everything of one’s own, last first, brings back what was there, and redoing it what came of it', () => {
  fc.assert(
    fc.property(
      fc.array(fc.array(step, { minLength: 1, maxLength: 3 }), { minLength: 1, maxLength: 15 }),
      (changes) => {
        const study = madeStudy(frameSteps);
        const before = rowsOf(study);
        for (const steps of changes) perform(study, { by: who.quill, act: steps });
        const after = rowsOf(study);
        let undone = 0;
        while (study.undoState(who.quill).canUndo) {
          study.undo(who.quill);
          undone += 1;
        }
        expect(rowsOf(study)).toEqual(before);
        for (let at = 0; at < undone; at += 1) study.redo(who.quill);
        expect(rowsOf(study)).toEqual(after);
        expect(study.undoState(who.quill).canRedo).toBe(false);
      },
    ),
    { numRuns: 15 },
  );
}, 60_000);
