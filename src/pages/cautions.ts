/** What stands in About and at the foot of each dossier: what a grade is, and what it is not. */
export const cautions: readonly string[] = [
  'Grades are one evaluator’s opinion of what film shows, with stated uncertainty; they are no medical, character or employment verdict.',
  'Judge nothing that film does not show.',
  'Keep to the film rights you hold and to the privacy rules that apply to you and your league.',
];

/** The same in one line, for the foot of each page. */
export const cautionLine =
  'One evaluator’s opinion of what film shows, with stated uncertainty; no medical, character or employment verdict. Open dot: thin evidence. Method and cautions on the last page.';
