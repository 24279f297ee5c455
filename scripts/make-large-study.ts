/**
 * Makes a large study for measuring: `node scripts/make-large-study.ts OUT.creasebook [runners] [games] [carries a game]`.
 * 60 runners x 12 games x 25 carries x 6 marks by default: 18,000 carries, 108,000 marks. Invented, the same every time.
 */
import { rmSync } from 'node:fs';
import { resolve } from 'node:path';
import { v5 as uuidv5 } from 'uuid';
import { add, type ChangeStep } from '../src/contract/changes.ts';
import { rubricBody } from '../src/contract/rows.ts';
import { concepts } from '../src/contract/words.ts';
import { randomFrom } from '../src/core/random.ts';
import { defaultRubric } from '../src/core/rubric/default-rubric.ts';
import { openStudy } from '../src/host/study/study.ts';

const [out = 'large.creasebook', runners = '60', games = '12', carries = '25'] = process.argv.slice(2);
const path = resolve(out);
for (const ending of ['', '-wal', '-shm']) rmSync(path + ending, { force: true });
const random = randomFrom(20_261_125);
const namespace = '0d3c9a52-7f54-4f0e-9a11-0c4b6f1f2c11';
const idOf = (name: string): string => uuidv5(name, namespace);
const whole = (low: number, high: number): number => low + Math.floor(random.uniform() * (high - low + 1));
const pick = <Item>(items: readonly Item[]): Item => {
  const item = items[whole(0, items.length - 1)];
  if (item === undefined) throw new Error('nothing to pick from');
  return item;
};

const study = openStudy(path, { create: true, now: () => Date.parse('2026-01-15T12:00:00Z') });
const evaluatorId = idOf('evaluator');
const rubricId = idOf('rubric');
study.make({
  by: null,
  label: 'Large study',
  steps: [
    add('evaluator', { id: evaluatorId, name: 'M. Bench' }),
    add('rubricVersion', {
      id: rubricId,
      number: 1,
      name: 'Default rubric',
      body: rubricBody.parse(defaultRubric),
      madeAt: 0,
    }),
    ...Array.from({ length: 40 }, (_, at) => add('team', { id: idOf(`team ${at}`), name: `Team ${at + 1}` })),
  ],
});
const traits = defaultRubric.families.flatMap((family) => family.traits.map((trait) => trait.key));
for (let runner = 0; runner < Number(runners); runner += 1) {
  const runnerId = idOf(`runner ${runner}`);
  const talent = 3 + 0.4 * random.normal();
  const steps: ChangeStep[] = [
    add('runner', {
      id: runnerId,
      name: `Runner ${String(runner + 1).padStart(2, '0')}`,
      teamId: idOf(`team ${runner % 40}`),
      jersey: runner % 100,
      position: 'running back',
    }),
  ];
  for (let game = 0; game < Number(games); game += 1) {
    const gameId = idOf(`game ${runner} ${game}`);
    const form = 0.25 * random.normal();
    steps.push(
      add('game', {
        id: gameId,
        season: 2025,
        week: game + 1,
        homeTeamId: idOf(`team ${runner % 40}`),
        awayTeamId: idOf(`team ${(runner + game + 1) % 40}`),
      }),
      add('officialLine', { id: idOf(`line ${runner} ${game}`), gameId, runnerId, attempts: Number(carries) }),
    );
    for (let carry = 0; carry < Number(carries); carry += 1) {
      const key = `${runner} ${game} ${carry}`;
      const playId = idOf(`play ${key}`);
      const partId = idOf(`part ${key}`);
      const spot = whole(3, 92);
      const toGo = Math.min(100 - spot, pick([10, 10, 10, 7, 5, 3, 1]));
      const gain = Math.max(-6, Math.min(100 - spot, Math.round(3.5 + 5.5 * random.normal() + 2 * (talent - 3))));
      steps.push(
        add('play', {
          id: playId,
          gameId,
          position: carry + 1,
          series: Math.floor(carry / 3) + 1,
          quarter: 1 + Math.floor((4 * carry) / Number(carries)),
          clockSeconds: whole(0, 900),
          scoreFor: whole(0, 35),
          scoreAgainst: whole(0, 35),
          down: pick([1, 1, 2, 2, 3]),
          toGo,
          spot,
          hash: pick(['left', 'middle', 'right'] as const),
          concept: pick(concepts.slice(0, 6)),
          direction: pick(['left', 'right'] as const),
          box: whole(5, 9),
          gain,
          result: gain === 100 - spot ? 'touchdown' : 'down',
        }),
        add('part', { id: partId, playId, runnerId, kind: 'run', gain, contactAt: Math.min(gain, whole(-1, 4)) }),
      );
      for (let mark = 0; mark < 6; mark += 1) {
        const trait = traits[(carry + 2 * mark) % traits.length];
        if (trait === undefined) continue;
        const value = Math.min(5, Math.max(1, Math.round(2 * (talent + form + 0.8 * random.normal())) / 2));
        steps.push(
          add('mark', {
            id: idOf(`mark ${key} ${mark}`),
            partId,
            evaluatorId,
            rubricVersionId: rubricId,
            trait,
            state: 'shown',
            value,
            clearness: pick(['clear', 'clear', 'partial', 'obscured'] as const),
            markedAt: Date.parse('2025-12-01T12:00:00Z'),
          }),
        );
      }
    }
  }
  study.make({ by: evaluatorId, label: `Runner ${runner + 1}`, steps });
  if (process.stderr.isTTY) process.stderr.write(`\r${runner + 1} of ${runners} runners`);
}
const count = (table: 'part' | 'mark'): unknown =>
  study.database.prepare(`SELECT count(*) FROM ${table}`).pluck().get();
console.log(`${path}: ${String(count('part'))} carries, ${String(count('mark'))} marks`);
study.close();
