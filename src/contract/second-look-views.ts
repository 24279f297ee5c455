/** What Second look reads and keeps: blind plans, carries without anything judged of them, and how far looks agree. */
import { z } from 'zod';
import { rows } from './rows.ts';
import { knownOf } from './views.ts';
import { id, line, markStates } from './words.ts';

/** A blind sample as it is kept in the study's settings under `secondLookSetting`: whose carries, which, in which order. */
export const secondLook = z.strictObject({
  evaluatorId: id,
  /** Whose first looks the carries were drawn from. */
  whoseId: id,
  seed: z.int().min(0),
  /** Days the marks had to be old. */
  days: z.int().min(0).max(10_000),
  drawnAt: z.int().min(0),
  parts: z.array(id).min(1).max(200),
  /** Null while it is open: until then none of its carries' marks are read by this room. */
  finishedAt: z.int().min(0).nullable(),
});
export type SecondLookPlan = z.infer<typeof secondLook>;

const prefix = 'secondLook ';

/** The name of the setting that keeps a look. */
export const secondLookSetting = (lookId: string): string => `${prefix}${lookId}`;

/** A setting's look with its id; null for any other setting and for one that can't be read. */
export function secondLookOf(setting: {
  readonly id: string;
  readonly value: unknown;
}): (SecondLookPlan & { readonly id: string }) | null {
  if (!setting.id.startsWith(prefix)) return null;
  const plan = secondLook.safeParse(setting.value);
  const name = id.safeParse(setting.id.slice(prefix.length));
  return plan.success && name.success ? { ...plan.data, id: name.data } : null;
}

/** Carries that an evaluator's first looks offer: on film and marked, of these old enough, of these not in an open look. */
export const secondLookOffer = z.strictObject({
  evaluatorId: id,
  name: line,
  marked: z.int(),
  old: z.int(),
  days: z.int(),
});
export type SecondLookOffer = z.infer<typeof secondLookOffer>;

/** A look and how far it has come: carries with a mark of it, and marks. */
export const secondLookProgress = secondLook
  .omit({ seed: true, evaluatorId: true })
  .extend({ id, whose: line, marked: z.int(), marks: z.int() });
export type SecondLookProgress = z.infer<typeof secondLookProgress>;

export const secondLookState = z.strictObject({
  offers: z.array(secondLookOffer),
  looks: z.array(secondLookProgress),
});
export type SecondLookState = z.infer<typeof secondLookState>;

/** A carry to be marked blind: no mark, note, holding or decision, nor what came of it or was charted after the snap. */
export const blindCarry = z.strictObject({
  play: rows.play.omit({ note: true, gain: true, result: true, penalty: true, penaltyYards: true }),
  part: rows.part.pick({ id: true, playId: true, runnerId: true }),
  runner: line,
  game: line,
  spans: z.array(rows.span),
  moments: z.array(rows.moment),
});
export type BlindCarry = z.infer<typeof blindCarry>;

/** A mark of the look itself. */
export const givenMark = z.strictObject({
  id,
  partId: id,
  trait: line,
  state: z.enum(markStates),
  value: z.number().nullable(),
});
export type GivenMark = z.infer<typeof givenMark>;

/** A figure with its 95 % interval and how many pairs of marks (or shared marks) it rests on. */
export const agreementFigure = z.strictObject({ value: z.number(), low: z.number(), high: z.number(), n: z.int() });
export type AgreementFigure = z.infer<typeof agreementFigure>;

/** One trait of one carry marked twice, and where to see it. Values 1 to 5; days between the two marks. */
export const lookDifference = z.strictObject({
  partId: id,
  playId: id,
  gameId: id,
  spanId: id.nullable(),
  frame: z.int().nullable(),
  runner: line,
  game: line,
  situation: line,
  trait: line,
  first: z.number(),
  second: z.number(),
  days: z.number(),
});
export type LookDifference = z.infer<typeof lookDifference>;

/** Two sets of marks of the same traits of the same carries: an evaluator's two looks, or two evaluators. */
export const lookComparison = z.strictObject({
  kind: z.enum(['own', 'between']),
  first: line,
  second: line,
  pairs: z.int(),
  carries: z.int(),
  /** Pairs that are the same mark, and pairs at most half a mark apart. */
  same: z.int(),
  near: z.int(),
  kappa: knownOf(agreementFigure),
  alpha: knownOf(agreementFigure),
  /** Second less first: mean, and its slope, in points and in points a week. */
  shift: knownOf(agreementFigure),
  perWeek: knownOf(agreementFigure),
  /** Pairs that differ, the widest apart first; at most as many as `mostDifferences`. */
  differences: z.array(lookDifference),
});
export type LookComparison = z.infer<typeof lookComparison>;
export const mostDifferences = 300;

/** How one evaluator marks: points above the others on shared carries, and how often a half is given. */
export const evaluatorHabits = z.strictObject({
  id,
  name: line,
  marks: z.int(),
  leniency: knownOf(agreementFigure),
  halves: knownOf(agreementFigure),
});
export type EvaluatorHabits = z.infer<typeof evaluatorHabits>;

export const agreementView = z.strictObject({
  comparisons: z.array(lookComparison),
  /** Krippendorff's alpha over all evaluators. */
  everybody: knownOf(agreementFigure),
  evaluators: z.array(evaluatorHabits),
  /** Carries left out because they stand in a look of this evaluator that is still open. */
  leftOut: z.int(),
});
export type AgreementView = z.infer<typeof agreementView>;
