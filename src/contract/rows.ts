/**
 * The rows of a study, one shape a table. A missing value is null ("not charted"), never a stand-in number.
 * Yards of a spot count from the offence's own goal line: 1 to 99. Frames count from 0 in presentation order.
 */
import { z } from 'zod';
import {
  angles,
  backAlignments,
  ballArms,
  chalkKinds,
  clearnesses,
  concepts,
  contactPlaces,
  directions,
  feet,
  filmSeconds,
  frame,
  fumbles,
  gaps,
  hashes,
  hashPresets,
  holdsAnswers,
  id,
  laneStates,
  line,
  markStates,
  momentNames,
  outOfBounds,
  partKinds,
  paths,
  penetrations,
  playResults,
  pointsOfAttack,
  pressures,
  readSources,
  schemes,
  spanKinds,
  text,
} from './words.ts';

const whole = (low: number, high: number) => z.int().min(low).max(high);
const maybe = <Shape extends z.ZodType>(shape: Shape) => shape.nullable().default(null);

export const team = z.strictObject({
  id,
  name: line.min(1),
  /** Yards a carry this defence allows over expected, from the user's table; null: not known. */
  defenceDelta: maybe(z.number().min(-10).max(10)),
  /** How many carries that figure rests on. */
  defenceCarries: maybe(whole(0, 100_000)),
});

export const runner = z.strictObject({
  id,
  name: line.min(1),
  teamId: maybe(id),
  jersey: maybe(whole(0, 99)),
  position: maybe(line),
  classYear: maybe(line),
  heightInches: maybe(z.number().min(48).max(96)),
  weightPounds: maybe(z.number().min(100).max(450)),
  note: maybe(text),
});

export const evaluator = z.strictObject({ id, name: line.min(1) });

export const game = z.strictObject({
  id,
  season: maybe(whole(1869, 2200)),
  week: maybe(whole(0, 30)),
  date: maybe(z.iso.date()),
  homeTeamId: id,
  awayTeamId: id,
  hashPreset: z.enum(hashPresets).default('college'),
  note: maybe(text),
});

/** What the game's official book says of one runner: to set beside what is logged. */
export const officialLine = z.strictObject({
  id,
  gameId: id,
  runnerId: id,
  attempts: whole(0, 100),
  yards: maybe(whole(-200, 700)),
  snaps: maybe(whole(0, 200)),
  source: maybe(line),
});

export const film = z.strictObject({
  id,
  name: line.min(1),
  path: z.string().min(1).max(4096),
  fingerprint: z.string().min(8).max(128),
  bytes: z.int().min(0),
  frames: z.int().min(1),
  width: whole(1, 16_384),
  height: whole(1, 16_384),
  seconds: z.number().min(0),
  /** Frames a second, nominal. */
  rate: z.number().positive().max(1000),
  codec: line,
  angle: z.enum(angles).default('sideline'),
});

export const play = z.strictObject({
  id,
  gameId: id,
  /** Place in the game, ascending; gaps allowed. */
  position: z.number(),
  series: maybe(whole(1, 60)),
  quarter: maybe(whole(1, 9)),
  clockSeconds: maybe(whole(0, 900)),
  offenceTeamId: maybe(id),
  scoreFor: maybe(whole(0, 200)),
  scoreAgainst: maybe(whole(0, 200)),
  down: maybe(whole(1, 4)),
  toGo: maybe(whole(1, 99)),
  spot: maybe(whole(1, 99)),
  hash: maybe(z.enum(hashes)),
  backs: maybe(whole(0, 5)),
  tightEnds: maybe(whole(0, 5)),
  formation: maybe(line),
  motion: maybe(line),
  backAlignment: maybe(z.enum(backAlignments)),
  backDepth: maybe(z.number().min(0).max(15)),
  concept: maybe(z.enum(concepts)),
  scheme: maybe(z.enum(schemes)),
  direction: maybe(z.enum(directions)),
  designedGap: maybe(z.enum(gaps)),
  giveIsChoice: maybe(z.boolean()),
  pullers: maybe(whole(0, 5)),
  leadBlockers: maybe(whole(0, 5)),
  front: maybe(line),
  box: maybe(whole(0, 11)),
  safetiesDeep: maybe(whole(0, 4)),
  pressure: maybe(z.enum(pressures)),
  /** Yards the play gained, negative when lost. */
  gain: maybe(whole(-99, 99)),
  result: maybe(z.enum(playResults)),
  penalty: maybe(line),
  penaltyYards: maybe(whole(-50, 50)),
  note: maybe(text),
});

export const part = z.strictObject({
  id,
  playId: id,
  runnerId: id,
  kind: z.enum(partKinds).default('run'),
  counts: z.boolean().default(true),
  countsBecause: maybe(line),
  gain: maybe(whole(-99, 99)),
  hitGap: maybe(z.enum(gaps)),
  path: maybe(z.enum(paths)),
  pointOfAttack: maybe(z.enum(pointsOfAttack)),
  penetration: maybe(z.enum(penetrations)),
  readDefender: maybe(line),
  readSource: maybe(z.enum(readSources)),
  freeDefender: maybe(line),
  failedBlock: maybe(line),
  /** How far the carry got before the first unblocked defender could act, in yards past the line. */
  clearedYards: maybe(z.number().min(-20).max(99)),
  /** Yards past the line at first contact; yards after contact are gain minus this. */
  contactAt: maybe(z.number().min(-20).max(99)),
  contactBy: maybe(line),
  contactPlace: maybe(z.enum(contactPlaces)),
  missedTackles: maybe(whole(0, 11)),
  ballArm: maybe(z.enum(ballArms)),
  fumble: maybe(z.enum(fumbles)),
  outOfBounds: maybe(z.enum(outOfBounds)),
  comeBack: z.boolean().default(false),
  note: maybe(text),
});

export const span = z.strictObject({
  id,
  playId: maybe(id),
  filmId: id,
  angle: z.enum(angles).default('sideline'),
  kind: z.enum(spanKinds).default('live'),
  inFrame: frame,
  inTime: filmSeconds,
  outFrame: frame,
  outTime: filmSeconds,
  /** Film seconds per real second: 1 for live film, 2 for half speed; null: unknown, so seconds are refused. */
  timeScale: z.number().positive().max(100).nullable().default(null),
  clearness: maybe(z.enum(clearnesses)),
});

export const moment = z.strictObject({
  id,
  spanId: id,
  partId: maybe(id),
  name: z.enum(momentNames),
  frame,
  time: filmSeconds,
});

export const step = z.strictObject({
  id,
  spanId: id,
  partId: id,
  foot: z.enum(feet),
  frame,
  time: filmSeconds,
  /** Where the foot stands: film pixels, and yards on the field where calibrated. */
  pixelX: maybe(z.number()),
  pixelY: maybe(z.number()),
  fieldX: maybe(z.number()),
  fieldY: maybe(z.number()),
});

export const mark = z.strictObject({
  id,
  partId: id,
  evaluatorId: id,
  rubricVersionId: id,
  /** Null for a first look; a second look's own id otherwise. */
  lookId: maybe(id),
  trait: line.min(1),
  state: z.enum(markStates),
  value: z.number().min(1).max(5).multipleOf(0.5).nullable().default(null),
  clearness: maybe(z.enum(clearnesses)),
  note: maybe(text),
  spanId: maybe(id),
  frame: maybe(frame),
  time: maybe(filmSeconds),
  /** Milliseconds since 1970, UTC. */
  markedAt: z.int().min(0),
});

export const holding = z.strictObject({
  id,
  partId: id,
  evaluatorId: id,
  answer: z.enum(holdsAnswers),
  because: maybe(text),
});

export const decision = z.strictObject({
  id,
  partId: id,
  evaluatorId: id,
  spanId: id,
  frame,
  time: filmSeconds,
  sealed: z.boolean().default(false),
  note: maybe(text),
});

export const lane = z.strictObject({
  id,
  decisionId: id,
  position: z.number(),
  name: line.min(1),
  state: z.enum(laneStates),
  low: whole(-20, 99),
  likely: whole(-20, 99),
  high: whole(-20, 99),
  taken: z.boolean().default(false),
  /** Corners of the drawn path in film pixels. */
  path: z
    .array(z.tuple([z.number(), z.number()]))
    .max(200)
    .default([]),
});

/** Chalk in film pixels. A ring's first point is its centre and its second lies on it; a text stands at its first. */
export const chalk = z.strictObject({
  id,
  spanId: id,
  evaluatorId: id,
  fromFrame: frame,
  toFrame: frame,
  kind: z.enum(chalkKinds),
  points: z
    .array(z.tuple([z.number(), z.number()]))
    .min(1)
    .max(2000),
  text: maybe(line),
});

const rubricTrait = z.strictObject({
  key: z.string().regex(/^[a-z][a-z-]{0,30}$/),
  name: line.min(1),
  letter: z.string().regex(/^[a-z]$/),
  weight: z.number().min(0).max(100),
  anchors: z.tuple([text, text, text, text, text]),
});
export const rubricBody = z.strictObject({
  families: z
    .array(
      z.strictObject({
        key: z.string().regex(/^[a-z][a-z-]{0,30}$/),
        name: line.min(1),
        weight: z.number().min(0).max(100),
        traits: z.array(rubricTrait).min(1),
      }),
    )
    .min(1),
  bars: z
    .array(
      z.strictObject({
        key: z.string().min(1).max(40),
        name: line.min(1),
        value: z.number().min(1).max(5),
        calibrated: z.boolean(),
      }),
    )
    .min(1),
});
export const rubricVersion = z.strictObject({
  id,
  number: whole(1, 10_000),
  name: line.min(1),
  body: rubricBody,
  madeAt: z.int().min(0),
});

export const sentence = z.strictObject({ text, cites: z.array(id).max(50), against: z.array(id).max(50) });
export const evidence = z.strictObject({
  partId: id,
  spanId: id,
  frame,
  caption: text,
  against: z.boolean().default(false),
});
export const writeup = z.strictObject({
  id,
  runnerId: id,
  evaluatorId: id,
  role: maybe(text),
  fit: maybe(text),
  change: maybe(text),
  verdict: z.array(sentence).max(40).default([]),
  evidence: z.array(evidence).max(12).default([]),
});

export const setting = z.strictObject({ id: z.string().min(1).max(60), value: z.json() });

/** Every journaled table: its row's shape. Order is the order in which rows may be inserted. */
export const rows = {
  setting,
  evaluator,
  team,
  runner,
  game,
  officialLine,
  film,
  rubricVersion,
  play,
  part,
  span,
  moment,
  step,
  mark,
  holding,
  decision,
  lane,
  chalk,
  writeup,
} as const;
export type TableName = keyof typeof rows;
export type Row<Name extends TableName> = z.infer<(typeof rows)[Name]>;
export type Team = Row<'team'>;
export type Runner = Row<'runner'>;
export type Evaluator = Row<'evaluator'>;
export type Game = Row<'game'>;
export type OfficialLine = Row<'officialLine'>;
export type Film = Row<'film'>;
export type Play = Row<'play'>;
export type Part = Row<'part'>;
export type Span = Row<'span'>;
export type Moment = Row<'moment'>;
export type Step = Row<'step'>;
export type Mark = Row<'mark'>;
export type Holding = Row<'holding'>;
export type Decision = Row<'decision'>;
export type Lane = Row<'lane'>;
export type Chalk = Row<'chalk'>;
export type RubricVersion = Row<'rubricVersion'>;
export type RubricBody = z.infer<typeof rubricBody>;
export type Writeup = Row<'writeup'>;
export type Setting = Row<'setting'>;
