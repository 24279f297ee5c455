import type { RubricVersion } from '../../contract/rows.ts';
import { gradeClass, type ClassGrades } from '../../core/grades/grade-class.ts';
import { faultOf, FaultError } from '../../contract/faults.ts';
import type { Study } from '../study/study.ts';
import { keptMarks } from './kept-marks.ts';

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
    grades = gradeClass(keptMarks(study, evaluatorId), newestRubric(study).body, {
      runners: study.rows.all('runner').map(({ id }) => id),
    });
    held.byEvaluator.set(evaluatorId, grades);
  }
  return grades;
}
