/**
 * The study's first-look marks in memory, ready for the grades: read whole once, then brought up to date from the
 * journal, which names every row a change touched. Grading a class after one mark then costs the grading alone.
 */
import type { GradeMark } from '../../core/grades/grade-mark.ts';
import type { Study } from '../study/study.ts';

type KeptMark = GradeMark & { readonly partId: string };
type Kept = {
  position: number;
  /** Marks that count, by their row's id. */
  readonly marks: Map<string, KeptMark>;
};

const columns = `m.id AS id, m.part_id AS partId, p.runner_id AS runner, y.game_id AS game, m.evaluator_id AS evaluator,
  m.trait AS trait, m.value AS value, ifnull(m.clearness, 'clear') AS clearness`;
const counting = `FROM mark m JOIN part p ON p.id = m.part_id JOIN play y ON y.id = p.play_id
  WHERE m.state = 'shown' AND m.look_id IS NULL AND p.kind = 'run' AND p.counts = 1`;

/** Beyond this many touched rows everything is read again. */
const mostTouched = 2000;

const keptOf = new WeakMap<Study, Kept>();

type Found = Omit<KeptMark, 'carry'> & { readonly id: string };

function keep(kept: Kept, found: readonly unknown[]): void {
  for (const row of found as readonly Found[]) {
    const { id, partId, runner, game, evaluator, trait, value, clearness } = row;
    kept.marks.set(id, { partId, carry: partId, runner, game, evaluator, trait, value, clearness });
  }
}

function readAll(study: Study, position: number): Kept {
  const kept: Kept = { position, marks: new Map() };
  keep(kept, study.database.prepare(`SELECT ${columns} ${counting}`).all());
  keptOf.set(study, kept);
  return kept;
}

function bringUpToDate(study: Study, kept: Kept, position: number): Kept {
  const touched = study.database
    .prepare(
      `SELECT DISTINCT table_name AS "table", row_id AS id FROM journal j JOIN journal_row r USING (position)
       WHERE j.position > ? AND r.table_name IN ('mark', 'part', 'play') LIMIT ?`,
    )
    .all(kept.position, mostTouched + 1) as { readonly table: string; readonly id: string }[];
  if (touched.length > mostTouched) return readAll(study, position);
  const parts = new Set<string>();
  const marks = new Set<string>();
  const partsOfPlay = study.database.prepare('SELECT id FROM part WHERE play_id = ?').pluck();
  for (const { table, id } of touched) {
    if (table === 'mark') marks.add(id);
    else if (table === 'part') parts.add(id);
    else for (const part of partsOfPlay.all(id)) parts.add(String(part));
  }
  if (parts.size > 0) for (const [id, mark] of kept.marks) if (parts.has(mark.partId)) kept.marks.delete(id);
  for (const id of marks) kept.marks.delete(id);
  const ofPart = study.database.prepare(`SELECT ${columns} ${counting} AND m.part_id = ?`);
  const ofMark = study.database.prepare(`SELECT ${columns} ${counting} AND m.id = ?`);
  for (const id of parts) keep(kept, ofPart.all(id));
  for (const id of marks) keep(kept, ofMark.all(id));
  kept.position = position;
  return kept;
}

/** Every first-look mark that shows a trait on a carry that counts, by one evaluator (null: by all). */
export function keptMarks(study: Study, evaluatorId: string | null): GradeMark[] {
  const position = study.position();
  const before = keptOf.get(study);
  const kept =
    before === undefined
      ? readAll(study, position)
      : before.position === position
        ? before
        : bringUpToDate(study, before, position);
  const all = [...kept.marks.values()];
  return evaluatorId === null ? all : all.filter(({ evaluator }) => evaluator === evaluatorId);
}
