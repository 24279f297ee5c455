/** Writes changes to a study as fast as they are kept and says each one's id after it was. `node storm-writer.ts PATH SEED`. */
import { writeSync } from 'node:fs';
import { add, remove, set } from '../../src/contract/changes.ts';
import { openStudy } from '../../src/host/study/study.ts';

const [path = '', seed = '0'] = process.argv.slice(2);
const study = openStudy(path);
const id = (number: number): string => `00000000-0000-7000-8000-${number.toString(16).padStart(12, '0')}`;
// Synchronous, so that what is said was said before the next change began.
const say = (words: string): void => void writeSync(1, `${words}\n`);

say('ready');
for (let at = Number(seed) * 1_000_000; ; at += 1) {
  const team = id(at);
  const steps = [add('team', { id: team, name: `Team ${at}` }), set('team', team, { defenceDelta: (at % 20) / 10 })];
  const made = study.make({ by: null, label: `Team ${at}`, steps });
  say(`${made.entry} kept ${team}`);
  if (at % 7 === 3) say(`${study.undo(null).entry} gone ${team}`);
  if (at % 11 === 5 && study.rows.get('team', team) !== undefined) {
    say(`${study.make({ by: null, label: 'Gone', steps: [remove('team', team)] }).entry} gone ${team}`);
  }
}
