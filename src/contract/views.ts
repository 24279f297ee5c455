/** What the rooms read: shapes computed by the host from the study with src/core, drawn on screen, paper and by the CLI alike. */
import { z } from 'zod';
import { rows, rubricBody } from './rows.ts';
import { id, line, text } from './words.ts';

/** A value, or the reason why there is none (src/core/known.ts). */
export const knownOf = <Shape extends z.ZodType>(shape: Shape) =>
  z.discriminatedUnion('known', [
    z.strictObject({ known: z.literal(true), value: shape }),
    z.strictObject({ known: z.literal(false), because: z.string(), detail: z.string() }),
  ]);

/** A share of n with its 95 % interval; all between 0 and 1. */
export const shareView = z.strictObject({
  rate: z.number(),
  low: z.number(),
  high: z.number(),
  hits: z.int(),
  n: z.int(),
  small: z.boolean(),
});
export type ShareView = z.infer<typeof shareView>;

/** Gain less expected yards, a carry: mean, standard error and the mean shrunk for n, in yards. */
export const deltaView = z.strictObject({
  mean: z.number(),
  standardError: z.number(),
  shrunk: z.number(),
  n: z.int(),
  small: z.boolean(),
});
export type DeltaView = z.infer<typeof deltaView>;

/** A grade on the 1-5 line with its 95 % interval and what stands behind it. */
export const gradeView = z.strictObject({
  grade: z.number(),
  low: z.number(),
  high: z.number(),
  /** Sum of clearness weights, and Kish's effective number of marks. */
  information: z.number(),
  effective: z.number(),
  marks: z.int(),
  carries: z.int(),
  games: z.int(),
  thin: z.boolean(),
  /** Chance of clearing each bar, by the bar's key. */
  chance: z.record(z.string(), z.number()),
  /** Which parts of the answer are assumed rather than estimated, in words. */
  assumed: z.array(z.string()),
});
export type GradeView = z.infer<typeof gradeView>;

/** One carry as the sheet and the dossier list it. */
export const carryView = z.strictObject({
  number: z.int(),
  partId: id,
  playId: id,
  gameId: id,
  spanId: id.nullable(),
  situation: line,
  run: line,
  gain: z.int().nullable(),
  expected: z.number().nullable(),
  delta: z.number().nullable(),
  success: z.boolean().nullable(),
  counts: z.boolean(),
  decided: z.boolean(),
  marks: z.record(
    z.string(),
    z.strictObject({
      state: z.string(),
      value: z.number().nullable(),
      clearness: z.string().nullable(),
      spanId: id.nullable(),
      frame: z.int().nullable(),
    }),
  ),
  note: text.nullable(),
});
export type CarryView = z.infer<typeof carryView>;

/** One trait of the rubric and what its marks add up to. */
export const traitView = z.strictObject({
  key: line,
  name: line,
  weight: z.number(),
  grade: knownOf(gradeView),
  /** Carries on which the trait was shown, not shown, could not be seen, or is not yet looked at. */
  shown: z.int(),
  notShown: z.int(),
  unseen: z.int(),
  unlooked: z.int(),
});

export type TraitView = z.infer<typeof traitView>;

/** Results cut by one field. */
export const splitView = z.strictObject({
  field: line,
  rows: z.array(z.strictObject({ label: line, n: z.int(), success: knownOf(shareView), delta: knownOf(deltaView) })),
});

export type SplitView = z.infer<typeof splitView>;

/** One game's logged carries beside its official line. */
export const gameLineView = z.strictObject({
  gameId: id,
  label: line,
  logged: z.int(),
  gain: z.int(),
  official: z.int().nullable(),
  officialYards: z.int().nullable(),
});

export const sheetView = z.strictObject({
  runner: rows.runner,
  team: line.nullable(),
  evaluator: line.nullable(),
  rubric: z.strictObject({ id, number: z.int(), name: line, body: rubricBody }),
  carries: z.array(carryView),
  games: z.array(gameLineView),
  completeness: knownOf(
    z.strictObject({ logged: z.int(), official: z.int(), share: z.number(), complete: z.boolean() }),
  ),
  successRule: line,
  model: line,
  success: knownOf(shareView),
  delta: knownOf(deltaView),
  /** Success less the model's own chance of success, a carry, as a share. */
  successOverExpected: knownOf(z.strictObject({ mean: z.number(), shrunk: z.number(), n: z.int() })),
  overall: knownOf(gradeView.extend({ coverage: z.number() })),
  families: z.array(
    z.strictObject({
      key: line,
      name: line,
      weight: z.number(),
      grade: knownOf(gradeView.extend({ coverage: z.number() })),
      traits: z.array(traitView),
    }),
  ),
  splits: z.array(splitView),
  history: z.array(z.strictObject({ gameId: id, label: line, trait: line, mean: z.number(), marks: z.int() })),
  thin: z.array(z.string()),
});
export type SheetView = z.infer<typeof sheetView>;

export const evidenceView = z.strictObject({
  number: z.int(),
  partId: id,
  heading: line,
  caption: text,
  against: z.boolean(),
  filmId: id,
  frame: z.int(),
  stillId: z.string().nullable(),
  missing: z.string().nullable(),
  /** The chalk that lies over this frame, in film pixels, and the film's size in pixels; absent where not known. */
  picture: z
    .strictObject({
      width: z.int().min(1),
      height: z.int().min(1),
      chalk: z.array(rows.chalk.pick({ kind: true, points: true, text: true })),
    })
    .optional(),
});

/** Everything a dossier is made from; the HTML is a function of this and nothing else. */
export const dossierView = z.strictObject({
  sheet: sheetView,
  studyName: line,
  evaluatorName: line,
  date: z.iso.date(),
  programVersion: line,
  /** The row the evaluator's words stand in; null before there are any of his own. */
  writeupId: id.nullable(),
  role: text.nullable(),
  fit: text.nullable(),
  change: text.nullable(),
  verdict: z.array(z.strictObject({ text, cites: z.array(z.int()), against: z.array(z.int()) })),
  evidence: z.array(evidenceView),
});
export type EvidenceView = z.infer<typeof evidenceView>;
export type DossierView = z.infer<typeof dossierView>;

export const issuedView = z.strictObject({
  id,
  runnerId: id,
  issuedAt: z.int(),
  evaluatorName: line,
  htmlSha256: z.string(),
  hasPdf: z.boolean(),
  paper: z.enum(['A4', 'Letter']),
});
export type IssuedView = z.infer<typeof issuedView>;
