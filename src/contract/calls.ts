/** The one table of calls through the door: name, what goes in, what comes out. */
import { z } from 'zod';
import { change, journalEntry } from './changes.ts';
import { rows } from './rows.ts';
import { angles, id, line } from './words.ts';
import {
  boardChoice,
  boardRanked,
  boardResults,
  boardView,
  carryFilm,
  sideBySideView,
  watchNextView,
} from './comparison-views.ts';
import { agreementView, blindCarry, givenMark, secondLookState } from './second-look-views.ts';
import { dossierView, issuedView, knownOf, sheetView } from './views.ts';

const nothing = z.strictObject({});
const filePath = z.string().min(1).max(4096);

export const studyInfo = z.strictObject({
  path: filePath,
  name: line,
  readOnly: z.boolean(),
  /** Why the study can't be written, in words; null when it can. */
  readOnlyBecause: z.string().nullable(),
  version: z.int(),
  journalEntries: z.int(),
});
export type StudyInfo = z.infer<typeof studyInfo>;

export const directory = z.strictObject({
  study: studyInfo,
  evaluators: z.array(rows.evaluator),
  teams: z.array(rows.team),
  runners: z.array(rows.runner.extend({ carries: z.int() })),
  games: z.array(rows.game.extend({ label: line, plays: z.int(), carries: z.int() })),
  films: z.array(rows.film.extend({ missing: z.boolean() })),
  officialLines: z.array(rows.officialLine),
  rubricVersions: z.array(rows.rubricVersion),
  settings: z.array(rows.setting),
});
export type Directory = z.infer<typeof directory>;

export const stageGame = z.strictObject({
  game: rows.game,
  plays: z.array(rows.play),
  parts: z.array(rows.part),
  spans: z.array(rows.span),
  moments: z.array(rows.moment),
  steps: z.array(rows.step),
  marks: z.array(rows.mark),
  holdings: z.array(rows.holding),
  decisions: z.array(rows.decision),
  lanes: z.array(rows.lane),
  chalk: z.array(rows.chalk),
});
export type StageGame = z.infer<typeof stageGame>;

const changed = z.strictObject({
  entry: id,
  label: line,
  operations: z.int(),
  canUndo: z.boolean(),
  canRedo: z.boolean(),
  /** Tables in which rows were added or removed, or set where the directory shows them. */
  touched: z.array(z.string()),
});
export type Changed = z.infer<typeof changed>;

export const calls = {
  'study.info': { input: nothing, output: studyInfo.nullable() },
  'study.open': { input: z.strictObject({ path: filePath }), output: studyInfo },
  'study.create': { input: z.strictObject({ path: filePath, evaluatorName: line.min(1) }), output: studyInfo },
  'files.browse': {
    input: z.strictObject({ folder: filePath.nullable(), want: z.enum(['film', 'study', 'any']) }),
    output: z.strictObject({
      folder: filePath,
      parent: filePath.nullable(),
      roots: z.array(filePath),
      entries: z.array(z.strictObject({ name: z.string(), path: filePath, folder: z.boolean(), bytes: z.int() })),
      truncated: z.boolean(),
    }),
  },
  /** The system's own dialog; null where this shell has none, and the window shows its own file browser. */
  'files.pick': {
    input: z.strictObject({ want: z.enum(['film', 'study', 'any']), many: z.boolean() }),
    output: z.array(filePath).nullable(),
  },
  /** Where a dropped file lies: a page is told only its name and size. Searches the allowed folders, three deep. */
  'files.find': {
    input: z.strictObject({ name: z.string().min(1).max(255), bytes: z.int().min(0) }),
    output: z.array(filePath),
  },
  'directory.read': { input: nothing, output: directory },
  'stage.game': { input: z.strictObject({ gameId: id }), output: stageGame },
  /** The game while one carry is sealed: what comes after the frame (at `time`, film seconds) is left out. */
  'stage.sealed': {
    input: z.strictObject({
      gameId: id,
      playId: id,
      spanId: id,
      frame: z.int().min(0),
      time: z.number().min(0),
      evaluatorId: id,
    }),
    output: stageGame,
  },
  'film.add': {
    input: z.strictObject({ path: filePath, angle: z.enum(angles), by: id.nullable() }),
    output: rows.film,
  },
  'film.relink': { input: z.strictObject({ filmId: id, path: filePath, by: id.nullable() }), output: rows.film },
  'change.make': { input: change, output: changed },
  'change.undo': { input: z.strictObject({ by: id.nullable() }), output: changed },
  'change.redo': { input: z.strictObject({ by: id.nullable() }), output: changed },
  'change.history': { input: z.strictObject({ table: z.string(), id: z.string() }), output: z.array(journalEntry) },
  'change.state': {
    input: z.strictObject({ by: id.nullable() }),
    output: z.strictObject({
      canUndo: z.boolean(),
      canRedo: z.boolean(),
      undoLabel: line.nullable(),
      redoLabel: line.nullable(),
    }),
  },
  'sheet.read': { input: z.strictObject({ runnerId: id, evaluatorId: id.nullable() }), output: sheetView },
  /** What a board is ranked from; the page answers sliders by itself, `board.rank` gives the same board for one choice. */
  'board.read': { input: z.strictObject({ evaluatorId: id.nullable() }), output: boardView },
  'board.rank': { input: z.strictObject({ evaluatorId: id.nullable(), choice: boardChoice }), output: boardRanked },
  'board.results': { input: nothing, output: z.array(boardResults) },
  'board.watchNext': {
    input: z.strictObject({ evaluatorId: id.nullable() }),
    output: knownOf(z.array(watchNextView)),
  },
  'sideBySide.read': {
    input: z.strictObject({ firstId: id, secondId: id, evaluatorId: id.nullable() }),
    output: knownOf(sideBySideView),
  },
  'carry.film': { input: z.strictObject({ partId: id }), output: carryFilm },
  'secondLook.read': { input: z.strictObject({ evaluatorId: id }), output: secondLookState },
  /** A blind sample; nothing is written: the window keeps it in the study by a change. */
  'secondLook.draw': {
    input: z.strictObject({ evaluatorId: id, whoseId: id, count: z.int().min(1).max(200), seed: z.int().min(0) }),
    output: knownOf(z.strictObject({ parts: z.array(id), days: z.int() })),
  },
  /** A carry without any mark, note, holding, result or what was charted after the snap. */
  'secondLook.carry': { input: z.strictObject({ partId: id }), output: blindCarry },
  /** The marks given in this look itself. */
  'secondLook.given': {
    input: z.strictObject({ lookId: id, evaluatorId: id }),
    output: z.array(givenMark),
  },
  'secondLook.agreement': { input: z.strictObject({ evaluatorId: id }), output: agreementView },
  'dossier.read': { input: z.strictObject({ runnerId: id, evaluatorId: id.nullable() }), output: dossierView },
  'dossier.issue': {
    input: z.strictObject({
      runnerId: id,
      evaluatorId: id.nullable(),
      paper: z.enum(['A4', 'Letter']),
      pdf: z.boolean(),
    }),
    output: issuedView,
  },
  'dossier.issued': { input: z.strictObject({ runnerId: id.nullable() }), output: z.array(issuedView) },
  'still.put': {
    input: z.strictObject({ filmId: id, frame: z.int().min(0), jpegBase64: z.string().max(8_000_000) }),
    output: z.strictObject({ stillId: z.string() }),
  },
  'still.missing': {
    input: z.strictObject({ runnerId: id, evaluatorId: id.nullable() }),
    output: z.array(z.strictObject({ filmId: id, frame: z.int() })),
  },
  'preferences.read': { input: nothing, output: z.record(z.string(), z.json()) },
  'preferences.write': { input: z.strictObject({ set: z.record(z.string().max(80), z.json()) }), output: nothing },
} as const satisfies Record<string, { readonly input: z.ZodType; readonly output: z.ZodType }>;

export type CallName = keyof typeof calls;
export type CallInput<Name extends CallName> = z.input<(typeof calls)[Name]['input']>;
export type CallOutput<Name extends CallName> = z.output<(typeof calls)[Name]['output']>;

/** True for a name that stands in the table itself (not for inherited ones). */
export function isCallName(name: string): name is CallName {
  return Object.hasOwn(calls, name);
}
