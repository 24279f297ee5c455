/**
 * Times of the scoring core, in one run: `npm run bench:core`. Prints each row with its limit, runs and median; the same
 * bootstrap with numpy where python3 has it; and how time grows with carries and draws. Ends with 1 when a limit is passed.
 */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { availableParallelism, cpus, loadavg, tmpdir } from 'node:os';
import { join } from 'node:path';
import { board } from '../src/core/board/board.ts';
import { placesOf, scoreDraws } from '../src/core/board/places.ts';
import { drawTraits } from '../src/core/board/trait-draws.ts';
import { bootstrapGames } from '../src/core/grades/bootstrap-games.ts';
import { gradeClass, gradeRunner, traitKeys } from '../src/core/grades/grade-class.ts';
import { clearnessWeight, type GradeMark } from '../src/core/grades/grade-mark.ts';
import { randomFrom } from '../src/core/random.ts';
import { defaultRubric } from '../src/core/rubric/default-rubric.ts';
import { traitWeights } from '../src/core/rubric/weights.ts';

const traits = traitKeys(defaultRubric);
const shares = traitWeights(defaultRubric);
const weights = shares.known ? shares.value.map((share) => share.overall) : [];
let failed = false;

/** A class of 60 runners, 12 games each and 6 marks a carry. */
function drawnMarks(carriesOfGame: number): readonly GradeMark[] {
  const random = randomFrom(2026);
  const marks: GradeMark[] = [];
  for (let runner = 0; runner < 60; runner += 1) {
    const own = traits.map(() => 3 + 0.35 * random.normal());
    for (let game = 0; game < 12; game += 1) {
      const day = traits.map((_, at) => (own[at] ?? 3) + 0.25 * random.normal());
      for (let carry = 0; carry < carriesOfGame; carry += 1) {
        for (let mark = 0; mark < 6; mark += 1) {
          const at = (carry * 5 + mark) % traits.length;
          const value = Math.round(2 * ((day[at] ?? 3) + 0.8 * random.normal())) / 2;
          marks.push({
            runner: `runner ${runner}`,
            game: `game ${runner} ${game}`,
            carry: `carry ${runner} ${game} ${carry}`,
            evaluator: 'one',
            trait: traits[at] ?? '',
            value: Math.min(5, Math.max(1, value)),
            clearness: random.uniform() < 0.7 ? 'clear' : random.uniform() < 0.7 ? 'partial' : 'obscured',
          });
        }
      }
    }
  }
  return marks;
}

function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.floor(sorted.length / 2)] ?? NaN;
}

/** Milliseconds by the clock, and of processor time where it was measured: far less of it means a busy machine. */
type Times = { readonly clock: readonly number[]; readonly processor?: readonly number[] };

/** Runs once to warm up, then `runs` times. */
function timed(runs: number, work: () => void): Required<Times> {
  work();
  const clock: number[] = [];
  const processor: number[] = [];
  for (let run = 0; run < runs; run += 1) {
    const used = process.cpuUsage();
    const start = performance.now();
    work();
    clock.push(performance.now() - start);
    const { user, system } = process.cpuUsage(used);
    processor.push((user + system) / 1000);
  }
  return { clock, processor };
}

function row(name: string, times: Times, limit: number): number {
  const middle = median(times.clock);
  const passed = middle <= limit;
  if (!passed) failed = true;
  const worst = Math.max(...times.clock);
  const processor =
    times.processor === undefined ? '' : `processor ${median(times.processor).toFixed(1).padStart(7)} ms  `;
  console.log(
    `${name.padEnd(58)} n ${String(times.clock.length).padStart(2)}  median ${middle.toFixed(1).padStart(7)} ms` +
      `  worst ${worst.toFixed(1).padStart(7)} ms  ${processor}${limitOf(limit)}${passed ? '' : '  EXCEEDED'}`,
  );
  return middle;
}

const limitOf = (limit: number) => (limit === Infinity ? 'baseline' : `limit ${limit.toFixed(0)} ms`);

function growth(name: string, times: readonly (readonly [string, number])[]): void {
  const first = times[0]?.[1] ?? NaN;
  const parts = times.map(([label, time]) => `${label} ${time.toFixed(1)} ms (x${(time / first).toFixed(1)})`);
  console.log(`${name.padEnd(58)} ${parts.join('   ')}`);
}

const marks = drawnMarks(25);
const processor = cpus()[0]?.model ?? 'unknown processor';
console.log(
  `node ${process.version}, ${availableParallelism()} cores, ${processor}, load ${loadavg()[0]?.toFixed(1) ?? 'unknown'}`,
);
console.log(`class: 60 runners, 300 carries each, 6 marks a carry: ${marks.length} marks, ${traits.length} traits\n`);

row(
  'all grades',
  timed(15, () => gradeClass(marks, defaultRubric)),
  300,
);
const grades = gradeClass(marks, defaultRubric);
const own = marks.filter((mark) => mark.runner === 'runner 7');
row(
  'one runner, class pooled',
  timed(15, () => gradeRunner(own, grades.pooled, defaultRubric)),
  20,
);

const bootstrap = (draws: number) => () =>
  bootstrapGames(marks, defaultRubric, grades.pooled, randomFrom(1), { draws });
const firstRun = row('bootstrap over games, 2,000 draws, the class', timed(7, bootstrap(2000)), 3000);

row(
  'board on release, 10,000 draws, weights drawn too',
  timed(7, () => board({ grades, marks, weights, draws: 10_000, random: randomFrom(1), concentration: 60 })),
  500,
);
const runners = Object.entries(grades.runners).map(([id, runner]) => ({ id, joint: runner.joint }));
const fixed = drawTraits(runners, 2000, randomFrom(1));
const slider = row(
  'places while a slider moves, 2,000 fixed draws',
  timed(30, () => placesOf(scoreDraws(fixed, weights))),
  16,
);

console.log('');
// A quarter, the class itself and four times as much.
const grading = (carriesOfGame: number, runs: number) => {
  const grown = drawnMarks(carriesOfGame);
  return median(timed(runs, () => gradeClass(grown, defaultRubric)).clock);
};
growth('growth of all grades: 72, 288 and 1,152 carries a runner', [
  ['1x', grading(6, 15)],
  ['4x', grading(24, 15)],
  ['16x', grading(96, 7)],
]);
growth('growth of the bootstrap with draws', [
  ['1x', firstRun],
  ['4x', median(timed(3, bootstrap(8000)).clock)],
  ['16x', median(timed(1, bootstrap(32_000)).clock)],
]);
const places = (draws: number) => {
  const drawn = drawTraits(runners, draws, randomFrom(1));
  return median(timed(5, () => placesOf(scoreDraws(drawn, weights))).clock);
};
growth('growth of places with draws', [
  ['1x', slider],
  ['4x', places(8000)],
  ['16x', places(32_000)],
]);

console.log('');
const folder = mkdtempSync(join(tmpdir(), 'bench-core-'));
const file = join(folder, 'marks.bin');
const runnerAt = new Map(runners.map((runner, at) => [runner.id, at]));
const gameAt = new Map([...new Set(marks.map((mark) => mark.game))].map((game, at) => [game, at]));
writeFileSync(
  file,
  Float64Array.from(
    marks.flatMap((mark) => [
      runnerAt.get(mark.runner) ?? 0,
      gameAt.get(mark.game) ?? 0,
      traits.indexOf(mark.trait),
      clearnessWeight[mark.clearness],
      mark.value,
    ]),
  ),
);
const script = new URL('bench-core-baseline.py', import.meta.url).pathname;
const model = ['0.64', '0.06', '3', '0.12'];
// Ours before and after theirs, so that a busy machine slows both.
const before = timed(5, bootstrap(2000));
const baseline = spawnSync('python3', [script, file, '2000', '9', String(traits.length), ...model], {
  encoding: 'utf8',
});
const after = timed(5, bootstrap(2000));
rmSync(folder, { recursive: true });
if (baseline.status === 0) {
  const { numpy, seconds } = JSON.parse(baseline.stdout) as { numpy: string; seconds: readonly number[] };
  const theirs = row(
    `the same bootstrap in Python, numpy ${numpy}`,
    { clock: seconds.map((one) => one * 1000) },
    Infinity,
  );
  row(
    'the same bootstrap, ours',
    { clock: [...before.clock, ...after.clock], processor: [...before.processor, ...after.processor] },
    theirs,
  );
} else {
  const why = baseline.error?.message ?? baseline.stderr.trim().split('\n').at(-1) ?? 'no reason given';
  console.log(`baseline not run (python3 with numpy wanted): ${why}`);
}
process.exitCode = failed ? 1 : 0;
