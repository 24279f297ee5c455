import type { RubricVersion } from '../../contract/rows.ts';
import { gradeClass, type ClassGrades } from '../../core/grades/grade-class.ts';
import type { GradeMark } from '../../core/grades/grade-mark.ts';
import { faultOf, FaultError } from '../../contract/faults.ts';
import type { Study } from '../study/study.ts';

/** The rubric everything is read against: the newest version. Throws a FaultError when the study has none. */
export function newestRubric(study: Study): RubricVersion {
  const newest = study.rows.all('rubricVersion').toSorted((a, b) => b.number - a.number)[0];
  if (newest === undefined) {
    throw new FaultError(
      faultOf('not-found', 'This study has no rubric.', 'Add one in Settings; the default rubric is offered there.'),
    );
  }
  return newest;
}

/** Every first-look mark that shows a trait, of all runners, by one evaluator (null: by all), ready for the grades. */
export function readMarks(study: Study, evaluatorId: string | null): GradeMark[] {
  return study.database
    .prepare(
      `SELECT p.runner_id AS runner, y.game_id AS game, p.id AS carry, m.evaluator_id AS evaluator, m.trait AS trait,
       m.value AS value, ifnull(m.clearness, 'clear') AS clearness
       FROM mark m JOIN part p ON p.id = m.part_id JOIN play y ON y.id = p.play_id
       WHERE m.state = 'shown' AND m.look_id IS NULL AND p.kind = 'run' AND p.counts = 1 AND (?1 IS NULL OR m.evaluator_id = ?1)
       ORDER BY p.runner_id, y.game_id, p.id, m.trait, m.id`,
    )
    .all(evaluatorId) as GradeMark[];
}

const kept = new WeakMap<Study, { readonly position: number; readonly byEvaluator: Map<string | null, ClassGrades> }>();

/** Grades the class once for each state of the journal; asked again before the next change, the same answer comes back. */
export function classGrades(study: Study, evaluatorId: string | null): ClassGrades {
  const position = study.position();
  let held = kept.get(study);
  if (held === undefined || held.position !== position) {
    held = { position, byEvaluator: new Map() };
    kept.set(study, held);
  }
  let grades = held.byEvaluator.get(evaluatorId);
  if (grades === undefined) {
    grades = gradeClass(readMarks(study, evaluatorId), newestRubric(study).body, {
      runners: study.rows.all('runner').map(({ id }) => id),
    });
    held.byEvaluator.set(evaluatorId, grades);
  }
  return grades;
}
