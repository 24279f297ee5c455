import type { GradeView } from '../../contract/views.ts';
import type { CoveredGrade, Grade } from '../../core/grades/grade.ts';
import { mapKnown, type Known } from '../../core/known.ts';

function plain(grade: Grade): GradeView {
  const { low, high, information, effective, marks, carries, games, thin, chance, assumed } = grade;
  return {
    grade: grade.grade,
    low,
    high,
    information,
    effective,
    marks,
    carries,
    games,
    thin,
    chance: { ...chance },
    assumed: [...assumed],
  };
}

/** A trait's grade as it crosses the door; a reason passes unchanged. */
export const gradeView = <Because extends string>(grade: Known<Grade, Because>): Known<GradeView, Because> =>
  mapKnown(grade, plain);

/** A family's or the overall grade as it crosses the door, with how much of its weight is marked. */
export const coveredView = <Because extends string>(
  grade: Known<CoveredGrade, Because>,
): Known<GradeView & { coverage: number }, Because> =>
  mapKnown(grade, (value) => ({ ...plain(value), coverage: value.coverage }));
