import { spawnSync } from 'node:child_process';
import { readdirSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { add, type ChangeStep } from '../../src/contract/changes.ts';
import { journalDifferences } from '../../src/host/study/replay.ts';
import { openStudy } from '../../src/host/study/study.ts';
import { contentOf, faultOfWork, madeStudy, ownFolder, uid, who } from '../host/small-study.ts';

const many = (from: number): ChangeStep[] =>
  Array.from({ length: 200 }, (_, at) => add('team', { id: uid(from + at), name: 'x'.repeat(150) }));

// SQLite's own limit of pages gives the very error of a full disk (SQLITE_FULL) from the same place in its code.
describe('a full disk', () => {
  test('is told as such, keeps nothing of the change and all before it, and takes changes again once there is room', async () => {
    const study = madeStudy();
    const pages = Number(study.database.pragma('page_count', { simple: true }));
    study.database.pragma(`max_page_count = ${pages + 4}`);
    const before = contentOf(study);
    const fault = await faultOfWork(() => study.make({ by: who.quill, label: 'Much', steps: many(1000) }));
    expect(fault).toMatchObject({ fault: 'disk-full', says: 'The disk is full, so the change was not kept.' });
    expect(contentOf(study)).toEqual(before);
    expect(study.database.pragma('integrity_check', { simple: true })).toBe('ok');
    study.database.pragma('max_page_count = 1000000');
    expect(study.make({ by: who.quill, label: 'Much', steps: many(1000) }).operations).toBe(200);
    expect(journalDifferences(study.database)).toEqual([]);
  });

  test('lets a study be opened, read and closed', async () => {
    const study = madeStudy();
    study.database.pragma(`max_page_count = ${Number(study.database.pragma('page_count', { simple: true }))}`);
    await faultOfWork(() => study.make({ by: who.quill, label: 'Much', steps: many(1000) }));
    study.close();
    const again = openStudy(study.path);
    expect(again.rows.all('part')).toHaveLength(24);
    again.close();
  });
});

// A limit on the size of files makes the system refuse the write itself, in the middle of making the tables.
test.skipIf(process.platform === 'win32').each([8, 64, 200])(
  'a new study of which %d KiB fit leaves no file, and says why',
  (kibibytes) => {
    const path = join(ownFolder(), 'new.creasebook');
    const program = join(import.meta.dirname, 'make-study.ts');
    // The signal of a file grown too large would end the program before SQLite hears of it.
    const shell = `trap '' XFSZ; ulimit -f ${kibibytes}; exec "$0" "$1" "$2"`;
    const { stdout } = spawnSync('bash', ['-c', shell, process.execPath, program, path], { encoding: 'utf8' });
    expect(stdout).toMatch(/^disk-full: The disk/);
    expect(readdirSync(dirname(path))).toEqual([]);
  },
);
