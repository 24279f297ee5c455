import { add, remove, set, type ChangeStep } from '../../contract/changes.ts';
import type { Mark, RubricVersion } from '../../contract/rows.ts';
import type { MarkState } from '../../contract/words.ts';
import { newId } from '../link/change.ts';
import { usePlace } from '../link/place.ts';
import { changeStage, chosenNow, useStage } from './stage-store.ts';

/** The rubric that new marks are given against: the newest version of the study. */
export function rubricNow(): RubricVersion | null {
  return usePlace.getState().directory?.rubricVersions.at(-1) ?? null;
}

/** This evaluator's first-look mark of a trait on a part. */
export function ownMark(
  marks: readonly Mark[],
  partId: string,
  trait: string,
  evaluatorId: string | null,
): Mark | null {
  return (
    marks.find(
      (mark) =>
        mark.partId === partId && mark.trait === trait && mark.evaluatorId === evaluatorId && mark.lookId === null,
    ) ?? null
  );
}

/** A mark as it is read: 4, 4½, "not shown", "unseen". */
export function markInWords(mark: Pick<Mark, 'state' | 'value'>): string {
  if (mark.state !== 'shown' || mark.value === null) return mark.state;
  return `${Math.floor(mark.value)}${mark.value % 1 === 0 ? '' : '½'}`;
}

/** Gives, changes or (state null) takes away the chosen carry's mark of a trait, at the frame shown. */
export function giveMark(trait: string, state: MarkState | null, value: number | null): void {
  const { game, spanId, frame, filmId, tables } = useStage.getState();
  const { evaluatorId } = usePlace.getState();
  const { part, span } = chosenNow();
  const rubric = rubricNow();
  if (game === null || part === null || evaluatorId === null || rubric === null) return;
  const name = rubric.body.families.flatMap((family) => family.traits).find(({ key }) => key === trait)?.name ?? trait;
  const before = ownMark(game.marks, part.id, trait, evaluatorId);
  let steps: ChangeStep[];
  if (state === null) {
    if (before === null) return;
    steps = [remove('mark', before.id)];
  } else if (before === null) {
    const time = filmId === null ? undefined : tables[filmId]?.times[frame];
    const inside = span !== null && frame >= span.inFrame && frame <= span.outFrame;
    steps = [
      add('mark', {
        id: newId(),
        partId: part.id,
        evaluatorId,
        rubricVersionId: rubric.id,
        trait,
        state,
        value,
        clearness: span?.clearness ?? 'clear',
        spanId: inside ? spanId : null,
        frame: inside ? frame : null,
        time: inside ? (time ?? null) : null,
        markedAt: Date.now(),
      }),
    ];
  } else {
    steps = [set('mark', before.id, { state, value, rubricVersionId: rubric.id, markedAt: Date.now() })];
  }
  const words = state === null ? 'not looked at' : markInWords({ state, value });
  void changeStage(`${name}: ${words}`, steps);
}

/** Raises the mark last given on a trait by a half, where two anchors allow it. */
export function addHalf(trait: string): void {
  const { game } = useStage.getState();
  const { part } = chosenNow();
  if (game === null || part === null) return;
  const mark = ownMark(game.marks, part.id, trait, usePlace.getState().evaluatorId);
  if (mark?.value === null || mark === null || mark.value % 1 !== 0 || mark.value >= 5) return;
  giveMark(trait, 'shown', mark.value + 0.5);
}
