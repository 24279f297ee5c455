import type { DossierView, GradeView } from '../contract/views.ts';
import { cautions } from './cautions.ts';
import { dateInWords, gradeInFigures } from './in-figures.ts';

/** Every assumption that some grade of the sheet rests on, once each, in the order in which they come. */
function assumptions({ sheet: { overall, families } }: DossierView): readonly string[] {
  const grades = [overall, ...families.flatMap(({ grade, traits }) => [grade, ...traits.map((trait) => trait.grade)])];
  return [...new Set(grades.flatMap((grade): GradeView['assumed'] => (grade.known ? grade.value.assumed : [])))];
}

/** How the figures were made, what they assume, which study and rubric they come from, and what they are not. */
export function MethodAndCautions({ view }: { readonly view: DossierView }) {
  const { sheet, studyName, programVersion, evaluatorName, date } = view;
  const { rubric, model, successRule } = sheet;
  const assumed = assumptions(view);
  const provisional = rubric.body.bars.filter(({ calibrated }) => !calibrated);
  return (
    <section className="method">
      <h2>Method and cautions</h2>
      <div className="method-columns">
        <p>
          <strong>Grades.</strong> A trait is marked 1 to 5 on a carry that shows it: 1 costs the play, 2 leaves yards,
          3 takes what is there, 4 adds yards, 5 makes the play. Clear views count in full, partial ones .6, obscured
          ones .3. A grade is the posterior mean of the runner’s marks, drawn toward the class as far as few marks and
          few games ask; its 95 % interval carries the spread between games and what is not known of the class (Morris
          1983). Thin, an open dot: fewer than 6 clear marks’ worth or fewer than 2 games. A family takes its weights
          from the rubric; a trait without marks counts with the class’s own uncertainty, never left out.
        </p>
        <p>
          <strong>Bars.</strong> {rubric.body.bars.map((bar) => `${bar.name} ${gradeInFigures(bar.value)}`).join('; ')}.
          Each asks whose play this is good enough for.
          {provisional.length > 0 &&
            ' Bars called provisional were set by hand and are not calibrated on later results.'}
        </p>
        <p>
          <strong>Success.</strong> Rule: {successRule}. A touchdown is a success. Intervals of rates are Wilson’s
          (1927), 95 %.
        </p>
        <p>
          <strong>Expected yards and delta.</strong> Model: {model}. What an average carry gains from the same down,
          distance and spot; delta is gain less that. It includes the line: it is not the runner’s alone. The situation
          explains about 2 % of how much carries vary, so a delta needs many carries; ± is half of its 95 % interval,
          and the shrunk figure is drawn toward 0 for the carries behind it.
        </p>
        {assumed.length > 0 && (
          <p>
            <strong>Assumed rather than estimated.</strong>{' '}
            {assumed.map((words) => words.replace(/\.$/, '')).join('; ')}.
          </p>
        )}
        <p>
          <strong>Made from.</strong> Study {studyName}; rubric {rubric.name}, version {rubric.number}; evaluator{' '}
          {evaluatorName}
          {sheet.evaluator === null && ', marks of every evaluator together'}; {dateInWords(date)}; Creasebook{' '}
          {programVersion}.
        </p>
        <p>
          <strong>Cautions.</strong> {cautions.join(' ')}
        </p>
      </div>
    </section>
  );
}
