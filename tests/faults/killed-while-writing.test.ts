/** The host's study killed with SIGKILL in the middle of a storm of changes: what was acknowledged must be there. */
import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { join } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import { expect, test } from 'vitest';
import { randomFrom } from '../../src/core/random.ts';
import { journalDifferences } from '../../src/host/study/replay.ts';
import { openStudy } from '../../src/host/study/study.ts';
import { ownFolder } from '../host/small-study.ts';

const kills = Number(process.env['CREASEBOOK_KILLS'] ?? 5);
const seed = Number(process.env['CREASEBOOK_SEED'] ?? Date.now() % 1_000_000);
const program = join(import.meta.dirname, 'storm-writer.ts');

/** Lets the storm blow for some milliseconds after its first word, kills it, and gives the whole lines it said. */
async function storm(path: string, round: number, milliseconds: number): Promise<string[]> {
  const child = spawn(process.execPath, [program, path, String(round)], { stdio: ['ignore', 'pipe', 'inherit'] });
  let said = '';
  child.stdout.on('data', (chunk: Buffer) => (said += chunk.toString()));
  const closed = once(child, 'close');
  await once(child.stdout, 'data');
  await wait(milliseconds);
  child.kill('SIGKILL');
  await closed;
  // A last line without its end was cut off in saying it: it was not acknowledged.
  return said.split('\n').slice(1, -1);
}

test(
  `after ${kills} kills at random moments every acknowledged change is there, and the study is whole (seed ${seed})`,
  async () => {
    const random = randomFrom(seed);
    const path = join(ownFolder(), 'storm.creasebook');
    openStudy(path, { create: true }).close();
    let acknowledged = 0;
    for (let round = 1; round <= kills; round += 1) {
      const said = await storm(path, round, 20 + random.uniform() * 250);
      const study = openStudy(path);
      try {
        expect(study.readOnlyBecause).toBeNull();
        expect(study.database.pragma('integrity_check', { simple: true })).toBe('ok');
        const kept = new Set(study.database.prepare('SELECT id FROM journal').pluck().all());
        const lost = said.filter((line) => !kept.has(line.split(' ')[0]));
        expect(lost).toEqual([]);
        // All but the last team are as said; of the last, a change that was never acknowledged may stand too.
        const words = said.map((line) => line.split(' '));
        const last = words.at(-1)?.[2];
        const standing = new Map(words.map(([, word, team = '']) => [team, word === 'kept']));
        for (const [team, stands] of standing) {
          if (team !== last) expect([team, study.rows.get('team', team) !== undefined]).toEqual([team, stands]);
        }
        expect(journalDifferences(study.database)).toEqual([]);
        acknowledged += said.length;
      } finally {
        study.close();
      }
    }
    console.log(`kills ${kills}, acknowledged ${acknowledged}, lost 0, integrity failures 0, seed ${seed}`);
    expect(acknowledged).toBeGreaterThan(kills);
  },
  60_000 + kills * 5000,
);
