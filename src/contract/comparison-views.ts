/** What Board and Side by side read: shapes computed by the host from the study with src/core. */
import { z } from 'zod';
import { rows, rubricBody } from './rows.ts';
import { carryView, deltaView, gradeView, knownOf, shareView } from './views.ts';
import { id, line } from './words.ts';

const covered = knownOf(gradeView.extend({ coverage: z.number() }));
const chance = z.number().min(0).max(1);

/** A runner as the board ranks him: `joint` is his posterior over all traits in the rubric's order. */
export const boardRunner = z.strictObject({
  id,
  name: line,
  team: line.nullable(),
  position: line.nullable(),
  classYear: line.nullable(),
  /** Logged carries that count. */
  carries: z.int(),
  overall: covered,
  joint: z.strictObject({
    traits: z.array(z.string()),
    mean: z.array(z.number()),
    covariance: z.array(z.array(z.number())),
    df: z.array(z.number()),
    marked: z.array(z.boolean()),
  }),
  /** Who marked him, by id. */
  evaluators: z.array(id),
});
export type BoardRunner = z.infer<typeof boardRunner>;

/** Everything a board is ranked from, whatever the weights: the page draws from it once and answers by itself. */
export const boardView = z.strictObject({
  evaluators: z.array(z.strictObject({ id, name: line })),
  rubric: z.strictObject({ id, number: z.int(), name: line, body: rubricBody }),
  runners: z.array(boardRunner),
  /** Evaluators joined by carries they share, with how far each marks above the others. */
  leniency: z.array(
    z.strictObject({
      evaluators: z.array(z.string()),
      shift: z.array(z.number()),
      covariance: z.array(z.array(z.number())),
      shared: z.int(),
    }),
  ),
  draws: z.int(),
  seed: z.int(),
});
export type BoardView = z.infer<typeof boardView>;

export const boardColumns = ['success', 'delta', 'carries', 'games', 'completeness'] as const;
export type BoardColumn = (typeof boardColumns)[number];

/** How a board is asked for: weights (any unit, left out: the rubric's), how firmly they are held, who is on it. */
export const boardChoice = z.strictObject({
  families: z.record(z.string(), z.number().min(0).max(1000)),
  traits: z.record(z.string(), z.number().min(0).max(1000)),
  /** Of the weights' Dirichlet; null: taken as exact. */
  concentration: z.number().min(1).max(100_000).nullable(),
  includeThin: z.boolean(),
  position: line.nullable(),
  classYear: line.nullable(),
  atLeast: z.int().min(0).max(100_000),
});
export type BoardChoice = z.infer<typeof boardChoice>;

/** The rubric's own weights, everybody who is not thin. */
export const plainChoice: BoardChoice = {
  families: {},
  traits: {},
  concentration: null,
  includeThin: false,
  position: null,
  classYear: null,
  atLeast: 0,
};

/** A board kept by name: also its columns and the two runners set side by side. Kept in the study's settings. */
export const savedBoard = z.strictObject({
  id,
  name: line.min(1),
  choice: boardChoice,
  columns: z.array(z.enum(boardColumns)),
  compare: z.array(id).max(2),
});
export type SavedBoard = z.infer<typeof savedBoard>;

/** The setting that keeps them, and how it is read: what cannot be read counts as none. */
export const savedBoardsSetting = 'boards';
export const savedBoards = z.array(savedBoard).max(100).catch([]);

export const boardRow = z.strictObject({
  runner: id,
  place: z.int(),
  score: z.number(),
  low: z.number(),
  high: z.number(),
  expectedPlace: z.number(),
  places: z.array(chance),
  best: chance,
  likelyFrom: z.int(),
  likelyTo: z.int(),
});
export type BoardRow = z.infer<typeof boardRow>;

/** One weight and the value, as a share of its own group, at which another runner comes first. */
export const weightSwap = z.strictObject({
  key: z.string(),
  /** Share of the whole for a family, of the family for a trait, 0 to 1. */
  share: z.number(),
  swap: knownOf(z.strictObject({ first: id, challenger: id, from: z.number(), to: z.number(), change: z.number() })),
});
export type WeightSwap = z.infer<typeof weightSwap>;

/** A ranked class under one choice. */
export const boardAnswer = z.strictObject({
  rows: z.array(boardRow),
  /** Chance that the runner of a row is above the runner of a column, in the order of `rows`. */
  pairwise: z.array(z.array(chance)),
  families: z.array(weightSwap),
  traits: z.array(weightSwap),
});
export type BoardAnswer = z.infer<typeof boardAnswer>;

export const apart = z.strictObject({ runner: id, because: z.string() });
export const boardRanked = z.strictObject({
  answer: knownOf(boardAnswer),
  /** Runners without a place, with the reason in words. */
  apart: z.array(apart),
  /** Runners the filter leaves out. */
  filtered: z.int(),
});
export type BoardRanked = z.infer<typeof boardRanked>;

/** The sheet's results of one runner, to stand beside his rank. */
export const boardResults = z.strictObject({
  runnerId: id,
  carries: z.int(),
  games: z.int(),
  success: knownOf(shareView),
  delta: knownOf(deltaView),
  completeness: knownOf(
    z.strictObject({ logged: z.int(), official: z.int(), share: z.number(), complete: z.boolean() }),
  ),
});
export type BoardResults = z.infer<typeof boardResults>;

/** Unmarked carries of one runner in one game that would move the order alike; the first of them to open. */
export const watchNextView = z.strictObject({
  runnerId: id,
  gameId: id,
  game: line,
  carries: z.int(),
  /** Each: expected number of runners whose order with this one changes, and how far his grade would move. */
  swaps: z.number(),
  movement: z.number(),
  playId: id,
  spanId: id.nullable(),
  situation: line,
  run: line,
});
export type WatchNextView = z.infer<typeof watchNextView>;

/** A carry as Side by side lists it. */
export const sideCarry = carryView.omit({ marks: true, note: true }).extend({ game: line });
export type SideCarry = z.infer<typeof sideCarry>;

/** One of the two runners. */
export const side = z.strictObject({
  runner: rows.runner,
  team: line.nullable(),
  overall: covered,
  games: z.int(),
  evaluators: z.array(line),
  success: knownOf(shareView),
  delta: knownOf(deltaView),
  carries: z.array(sideCarry),
});
export type Side = z.infer<typeof side>;

/** First less second, points of the 1 to 5 scale; `chance` that the first is truly the better. */
export const differenceView = z.strictObject({
  difference: z.number(),
  low: z.number(),
  high: z.number(),
  chance,
  thin: z.boolean(),
});
export type DifferenceView = z.infer<typeof differenceView>;

/** Cliff's delta of raw marks, -1 to 1, with the marks on each side. */
export const cliffsView = z.strictObject({
  delta: z.number(),
  low: z.number(),
  high: z.number(),
  size: z.string(),
  first: z.int(),
  second: z.int(),
});

const compared = {
  key: line,
  name: line,
  first: knownOf(gradeView),
  second: knownOf(gradeView),
  difference: knownOf(differenceView),
};
export const comparedTrait = z.strictObject({ ...compared, raw: knownOf(cliffsView) });
export const comparedFamily = z.strictObject({ ...compared, traits: z.array(comparedTrait) });
export type ComparedTrait = z.infer<typeof comparedTrait>;
export type ComparedFamily = z.infer<typeof comparedFamily>;

/** Difference of two shares or of two means of yards, first less second; `n` carries on each side. */
const resultDifference = z.strictObject({
  difference: z.number(),
  low: z.number(),
  high: z.number(),
  first: z.int(),
  second: z.int(),
  small: z.boolean(),
});

/** Two carries in like situations: what they share and where they differ, in words. */
export const carryPair = z.strictObject({
  first: id,
  second: id,
  cost: z.number(),
  same: z.array(z.string()),
  differ: z.array(z.string()),
});
export type CarryPair = z.infer<typeof carryPair>;

export const sideBySideView = z.strictObject({
  rubric: rubricBody,
  first: side,
  second: side,
  overall: z.strictObject({ difference: knownOf(differenceView) }),
  families: z.array(comparedFamily),
  success: knownOf(resultDifference),
  delta: knownOf(resultDifference.extend({ chance })),
  pairs: knownOf(z.strictObject({ pairs: z.array(carryPair), firstUnpaired: z.int(), secondUnpaired: z.int() })),
  /** What the comparison rests on too little of, in sentences. */
  cautions: z.array(z.string()),
});
export type SideBySideView = z.infer<typeof sideBySideView>;

/** Where a carry is on film: its play's spans, live ones first, and the moments tagged in them. */
export const carryFilm = z.strictObject({ spans: z.array(rows.span), moments: z.array(rows.moment) });
export type CarryFilm = z.infer<typeof carryFilm>;
