/** A small study as plain data and as the steps that make it: two runners with carries, one without, two evaluators, three games. */
import { mkdtempSync, realpathSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { onTestFinished } from 'vitest';
import { add, type ChangeStep } from '../../src/contract/changes.ts';
import { FaultError, type Fault } from '../../src/contract/faults.ts';
import { rubricBody, type Mark, type Play } from '../../src/contract/rows.ts';
import { defaultRubric } from '../../src/core/rubric/default-rubric.ts';
import { openStudy, type Study } from '../../src/host/study/study.ts';

/** An id by number: the same number, the same id. */
export const uid = (number: number): string => `00000000-0000-7000-8000-${number.toString(16).padStart(12, '0')}`;

export const who = {
  quill: uid(1),
  marsh: uid(2),
  coldwater: uid(3),
  harlan: uid(4),
  lyle: uid(5),
  brask: uid(6),
  unplayed: uid(7),
  rubric: uid(8),
  film: uid(9),
  games: [uid(10), uid(11), uid(12)],
} as const;

export type SmallCarry = {
  readonly play: Pick<
    Play,
    'id' | 'gameId' | 'position' | 'quarter' | 'scoreFor' | 'scoreAgainst' | 'down' | 'toGo' | 'spot' | 'box'
  >;
  readonly partId: string;
  readonly spanId: string;
  readonly runnerId: string;
  readonly gain: number;
  readonly counts: boolean;
  readonly marks: readonly Pick<Mark, 'id' | 'evaluatorId' | 'trait' | 'state' | 'value' | 'clearness'>[];
};

const traits = rubricBody.parse(defaultRubric).families.flatMap((family) => family.traits.map(({ key }) => key));
const gains = [4, -2, 7, 0, 12, 3, 1, 5, 2, 9, -1, 6] as const;
const values = [3, 2, 4, 3.5, 5, 2.5, 1, 4, 3, 4.5] as const;
const clearnesses = ['clear', 'partial', 'clear', 'obscured'] as const;
const at = <Item>(items: readonly Item[], index: number): Item => {
  const item = items[index % items.length];
  if (item === undefined) throw new RangeError('no items');
  return item;
};

/** Each runner's carries in order: twelve a runner, four a game; figures go round fixed lists, so every run is the same. */
export const carries: readonly SmallCarry[] = [who.lyle, who.brask].flatMap((runnerId, runner) =>
  Array.from({ length: 12 }, (_, n) => {
    const number = runner * 12 + n;
    const marked = (evaluatorId: string, seed: number): SmallCarry['marks'] =>
      traits.flatMap((trait, place): SmallCarry['marks'] => {
        const roll = (number * 7 + place * 3 + seed) % 10;
        const base = { id: uid(10_000 + seed * 5000 + number * 20 + place), evaluatorId, trait };
        if (roll === 0) return [];
        if (roll === 1) return [{ ...base, state: 'unseen', value: null, clearness: null }];
        if (roll === 2) return [{ ...base, state: 'not shown', value: null, clearness: null }];
        return [
          {
            ...base,
            state: 'shown',
            value: at(values, number + place * 2 + seed),
            clearness: at(clearnesses, number + place),
          },
        ];
      });
    return {
      play: {
        id: uid(100 + number),
        gameId: at(who.games, Math.floor(n / 4)),
        position: number + 1,
        quarter: (n % 4) + 1,
        scoreFor: 10,
        scoreAgainst: n === 11 ? 45 : 7,
        down: (n % 3) + 1,
        toGo: at([10, 7, 2], n),
        spot: 20 + n * 5,
        box: at([6, 7, 8, null], n),
      },
      partId: uid(200 + number),
      spanId: uid(300 + number),
      runnerId,
      gain: at(gains, number + runner),
      counts: n !== 5,
      marks: [...marked(who.quill, 0), ...(n % 2 === 0 ? marked(who.marsh, 1) : [])],
    };
  }),
);

/** The steps that make evaluators, rubric, teams, runners and games, without plays. */
export const frameSteps: readonly ChangeStep[] = [
  add('evaluator', { id: who.quill, name: 'Dana Quill' }),
  add('evaluator', { id: who.marsh, name: 'Ivo Marsh' }),
  add('rubricVersion', {
    id: who.rubric,
    number: 1,
    name: 'Default rubric',
    body: rubricBody.parse(defaultRubric),
    madeAt: 0,
  }),
  add('team', { id: who.coldwater, name: 'Coldwater' }),
  add('team', { id: who.harlan, name: 'Harlan Ridge' }),
  add('runner', { id: who.lyle, name: 'Dez Okafor-Lyle', teamId: who.harlan }),
  add('runner', { id: who.brask, name: 'Tavian Brask', teamId: who.coldwater }),
  add('runner', { id: who.unplayed, name: 'Jonah Quillane' }),
  ...who.games.map((id, n) =>
    add('game', { id, season: 2026, week: n + 3, homeTeamId: who.coldwater, awayTeamId: who.harlan }),
  ),
  add('film', {
    id: who.film,
    name: 'coldwater.mp4',
    path: 'films/coldwater.mp4',
    fingerprint: `f1-${'a'.repeat(64)}`,
    bytes: 5000,
    frames: 10_000,
    width: 640,
    height: 360,
    seconds: 333.7,
    rate: 29.97,
    codec: 'avc1',
  }),
];

/** Everything the small study holds. */
export const allSteps: readonly ChangeStep[] = [
  ...frameSteps,
  add('officialLine', { id: uid(50), gameId: who.games[0], runnerId: who.lyle, attempts: 4, yards: 9 }),
  add('officialLine', { id: uid(51), gameId: who.games[1], runnerId: who.lyle, attempts: 11, yards: 40 }),
  ...carries.flatMap(({ play, partId, spanId, runnerId, gain, counts, marks }, n) => [
    add('play', { ...play, gain }),
    add('part', { id: partId, playId: play.id, runnerId, gain, counts, countsBecause: counts ? null : 'kneel' }),
    add('span', {
      id: spanId,
      playId: play.id,
      filmId: who.film,
      inFrame: n * 100,
      inTime: n * 4,
      outFrame: n * 100 + 90,
      outTime: n * 4 + 3,
    }),
    ...marks.map((mark) => add('mark', { ...mark, partId, rubricVersionId: who.rubric, markedAt: 1000 + n })),
  ]),
];

/** A folder of this test's own, links followed, taken away when it ends. */
export function ownFolder(): string {
  const folder = realpathSync(mkdtempSync(join(tmpdir(), 'creasebook-host-test-')));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  return folder;
}

/** A new study in a folder of its own with the given steps made; closed and taken away when the test ends. */
export function madeStudy(steps: readonly ChangeStep[] = allSteps, now: () => number = () => 1_760_000_000_000): Study {
  const study = openStudy(join(ownFolder(), 'class.creasebook'), { create: true, now });
  onTestFinished(() => study.close());
  if (steps.length > 0) study.make({ by: null, label: 'A small study', steps: [...steps] });
  return study;
}

/** The fault that work throws or rejects with; fails when it ends well or breaks otherwise. */
export async function faultOfWork(work: () => unknown): Promise<Fault> {
  try {
    await work();
  } catch (cause) {
    if (cause instanceof FaultError) return cause.fault;
    throw cause;
  }
  throw new Error('wanted a fault, got an answer');
}

/** All that is in a study's tables, to see that nothing was written. */
export function contentOf(study: Study): unknown {
  const tables = study.database
    .prepare(`SELECT name FROM sqlite_schema WHERE type = 'table' ORDER BY name`)
    .pluck()
    .all() as string[];
  return tables.map((table) => [table, study.database.prepare(`SELECT * FROM "${table}"`).all()]);
}
