import { describe, expect, test } from 'vitest';
import { add, remove, set, type ChangeStep } from '../../../src/contract/changes.ts';
import { openStudy, type Study } from '../../../src/host/study/study.ts';
import { journalDifferences } from '../../../src/host/study/replay.ts';
import { carries, contentOf, faultOfWork, madeStudy, ownFolder, uid, who } from '../small-study.ts';
import { join } from 'node:path';

const by = (study: Study, evaluator: string | null, label: string, ...steps: ChangeStep[]) =>
  study.make({ by: evaluator, label, steps });
const name = (study: Study): string | undefined => study.rows.get('runner', who.lyle)?.name;
const rename = (to: string): ChangeStep => set('runner', who.lyle, { name: to });
const [first] = carries;
if (first === undefined) throw new Error('the small study has carries');

describe('undo and redo', () => {
  test('walk back and forth through one evaluator’s changes, across closing and opening', () => {
    const path = join(ownFolder(), 'walk.creasebook');
    const seen: (string | undefined)[] = [];
    const within = (work: (study: Study) => void, create = false): void => {
      const study = openStudy(path, { create });
      work(study);
      seen.push(name(study));
      study.close();
    };
    within((study) => {
      by(study, null, 'start', add('runner', { id: who.lyle, name: 'A' }));
      by(study, who.quill, 'to B', rename('B'));
      by(study, who.quill, 'to C', rename('C'));
    }, true);
    within((study) => study.undo(who.quill));
    within((study) => study.undo(who.quill));
    within((study) => study.redo(who.quill));
    within((study) => study.redo(who.quill));
    within((study) => study.undo(who.quill));
    within((study) => study.redo(who.quill));
    expect(seen).toEqual(['C', 'B', 'A', 'B', 'C', 'B', 'C']);
  });

  test('say what they would take back, and that there is nothing', async () => {
    const study = madeStudy();
    const nothing = { canUndo: false, canRedo: false, undoLabel: null, redoLabel: null };
    expect(study.undoState(who.quill)).toEqual(nothing);
    expect((await faultOfWork(() => study.undo(who.quill))).fault).toBe('undo-nothing');
    expect((await faultOfWork(() => study.redo(who.quill))).fault).toBe('undo-nothing');
    by(study, who.quill, 'Name him', rename('B'));
    expect(study.undoState(who.quill)).toEqual({ ...nothing, canUndo: true, undoLabel: 'Name him' });
    expect(study.undo(who.quill)).toMatchObject({ label: 'Name him', canUndo: false, canRedo: true });
    expect(study.undoState(who.quill)).toEqual({ ...nothing, canRedo: true, redoLabel: 'Name him' });
  });

  test('are of one’s own changes only', async () => {
    const study = madeStudy();
    by(study, who.quill, 'Quill', set('runner', who.lyle, { jersey: 1 }));
    by(study, who.marsh, 'Marsh', set('runner', who.brask, { jersey: 2 }));
    study.undo(who.quill);
    expect([study.rows.get('runner', who.lyle)?.jersey, study.rows.get('runner', who.brask)?.jersey]).toEqual([
      null,
      2,
    ]);
    expect((await faultOfWork(() => study.undo(who.quill))).fault).toBe('undo-nothing');
    expect(study.undoState(null)).toMatchObject({ undoLabel: 'A small study' });
  });

  test('are refused where another’s later change touched the same value, and change nothing', async () => {
    const study = madeStudy();
    by(study, who.quill, 'Quill', rename('B'));
    by(study, who.marsh, 'Marsh', rename('C'));
    const before = contentOf(study);
    const fault = await faultOfWork(() => study.undo(who.quill));
    expect(fault.fault).toBe('undo-later-change');
    expect(fault.next).not.toBe('');
    expect(contentOf(study)).toEqual(before);
    study.undo(who.marsh);
    study.undo(who.quill);
    expect(name(study)).toBe('Dez Okafor-Lyle');
  });

  test('are allowed where another’s later change touched another value of the same row', () => {
    const study = madeStudy();
    by(study, who.quill, 'Quill', rename('B'));
    by(study, who.marsh, 'Marsh', set('runner', who.lyle, { jersey: 5 }));
    study.undo(who.quill);
    expect(study.rows.get('runner', who.lyle)).toMatchObject({ name: 'Dez Okafor-Lyle', jersey: 5 });
  });

  test('do not take away a row that another has since built on', async () => {
    const study = madeStudy();
    by(study, who.quill, 'Quill', add('team', { id: uid(60), name: 'Third' }));
    by(study, who.marsh, 'Marsh', set('runner', who.unplayed, { teamId: uid(60) }));
    const before = contentOf(study);
    expect((await faultOfWork(() => study.undo(who.quill))).fault).toBe('refused');
    expect(contentOf(study)).toEqual(before);
  });

  test('do not bring back a carry beside another that took its place, nor a span beneath another', async () => {
    const study = madeStudy();
    by(study, who.quill, 'Not his carry', remove('part', first.partId));
    by(study, who.marsh, 'It was Brask', add('part', { id: uid(61), playId: first.play.id, runnerId: who.brask }));
    const fault = await faultOfWork(() => study.undo(who.quill));
    expect(fault).toMatchObject({ fault: 'refused' });
    expect(fault.says).toContain('already has a carry, by Tavian Brask');

    by(study, who.quill, 'No film', remove('span', first.spanId));
    const other = {
      id: uid(62),
      playId: carries[1]?.play.id ?? '',
      filmId: who.film,
      inFrame: 40,
      inTime: 1,
      outFrame: 95,
      outTime: 3,
    };
    by(study, who.marsh, 'It is the next play', add('span', other));
    const before = contentOf(study);
    expect((await faultOfWork(() => study.undo(who.quill))).says).toContain("overlap another play's span");
    expect(contentOf(study)).toEqual(before);
  });

  test('end where a new change begins: what was taken back can not be done again over it', async () => {
    const study = madeStudy();
    by(study, who.quill, 'to B', rename('B'));
    study.undo(who.quill);
    by(study, who.marsh, 'other', set('runner', who.brask, { jersey: 2 }));
    expect(study.undoState(who.quill).canRedo).toBe(true);
    by(study, who.quill, 'jersey', set('runner', who.lyle, { jersey: 3 }));
    expect(study.undoState(who.quill).canRedo).toBe(false);
    expect((await faultOfWork(() => study.redo(who.quill))).fault).toBe('undo-nothing');
  });
});

describe('the journal', () => {
  test('gives the history of one row, each entry with only what it did to that row', () => {
    const study = madeStudy();
    by(study, who.quill, 'Two at once', rename('B'), set('runner', who.brask, { jersey: 9 }));
    by(study, who.marsh, 'Again', rename('C'));
    study.undo(who.marsh);
    const history = study.history('runner', who.lyle);
    expect(
      history.map(({ label, by: whose, operations }) => [label, whose, operations.map(({ after }) => after?.['name'])]),
    ).toEqual([
      ['A small study', null, ['Dez Okafor-Lyle']],
      ['Two at once', who.quill, ['B']],
      ['Again', who.marsh, ['C']],
      ['Again', who.marsh, ['B']],
    ]);
    expect(history.at(-1)?.undoes).toBe(history.at(-2)?.id);
    expect(study.history('runner', uid(1))).toEqual([]);
    expect(study.history('runner; DROP TABLE mark', who.lyle)).toEqual([]);
  });

  test('goes forward in time when the computer’s clock goes back', () => {
    let now = 1_000_000;
    const study = madeStudy([], () => now);
    const times = [1_000_000, 2_000_000, 500, 1_999_999, 2_000_001];
    for (const [at, time] of times.entries()) {
      now = time;
      by(study, null, `at ${time}`, add('team', { id: uid(70 + at), name: 'x' }));
    }
    now = 3;
    study.undo(null);
    const kept = study.database.prepare('SELECT at, id FROM journal ORDER BY position').all() as {
      at: number;
      id: string;
    }[];
    expect(kept.map(({ at }) => at)).toEqual([1_000_000, 2_000_000, 2_000_000, 2_000_000, 2_000_001, 2_000_001]);
    // A UUIDv7 begins with its milliseconds (RFC 9562, section 5.7).
    for (const { at, id } of kept) expect(Number.parseInt(id.replaceAll('-', '').slice(0, 12), 16)).toBe(at);
    expect(study.rows.get('team', uid(74))).toBeUndefined();
  });

  test('replayed is what the tables hold, and a row written beside it is found', () => {
    const study = madeStudy();
    by(study, who.quill, 'Gone', remove('play', first.play.id));
    study.undo(who.quill);
    expect(journalDifferences(study.database)).toEqual([]);
    study.database.prepare('UPDATE play SET gain = 1 WHERE id = ?').run(first.play.id);
    study.database.prepare('DELETE FROM mark WHERE id = ?').run(first.marks[0]?.id);
    study.database.prepare('INSERT INTO team (id, name) VALUES (?, ?)').run(uid(63), 'Smuggled');
    const says = journalDifferences(study.database).map(({ says }) => says);
    expect(says).toHaveLength(3);
    expect(says).toContainEqual(`The play ${first.play.id} has 1 as gain; the journal says ${first.gain}.`);
    expect(says).toContainEqual(`The team ${uid(63)} stands in the study, but no change added it.`);
    expect(
      says.filter((words) => words.startsWith(`The mark ${first.marks[0]?.id} is missing; the journal has it as`)),
    ).toHaveLength(1);
  });

  test('that was tampered with is found out', () => {
    const study = madeStudy();
    by(study, who.quill, 'to B', rename('B'));
    by(study, who.quill, 'to C', rename('C'));
    study.database.prepare(`DELETE FROM journal_row WHERE position = 2`).run();
    study.database.prepare(`DELETE FROM journal WHERE label = 'to B'`).run();
    expect(journalDifferences(study.database).map(({ says }) => says)).toEqual([
      'Entry 3 of the journal changes a runner that no earlier entry left as it says.',
    ]);
    study.database.prepare(`UPDATE journal SET operations = '[1]' WHERE label = 'to C'`).run();
    expect(journalDifferences(study.database).map(({ says }) => says)).toContain(
      "Entry 3 of the journal can't be read.",
    );
  });
});
