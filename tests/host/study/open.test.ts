import { spawn, type ChildProcess } from 'node:child_process';
import { once } from 'node:events';
import {
  chmodSync,
  chownSync,
  copyFileSync,
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  statSync,
  symlinkSync,
  truncateSync,
  writeFileSync,
} from 'node:fs';
import { dirname, join } from 'node:path';
import SQLite from 'better-sqlite3';
import { describe, expect, onTestFinished, test } from 'vitest';
import { add } from '../../../src/contract/changes.ts';
import { studyHandlers } from '../../../src/host/study/handlers.ts';
import { applicationId } from '../../../src/host/study/open.ts';
import { openStudy, type Study } from '../../../src/host/study/study.ts';
import { allSteps, contentOf, faultOfWork, ownFolder, uid, who } from '../small-study.ts';

const program = join(import.meta.dirname, 'hold-study.ts');

/** A study of the small rows at a path, closed. */
function closedStudy(path: string): string {
  const study = openStudy(path, { create: true });
  study.make({ by: null, label: 'A small study', steps: [...allSteps] });
  study.close();
  return path;
}

function opened(path: string, how: Parameters<typeof openStudy>[1] = {}): Study {
  const study = openStudy(path, how);
  onTestFinished(() => study.close());
  return study;
}

async function inAnotherProcess(
  path: string,
  as?: { uid: number; gid: number },
): Promise<{ says: string; child: ChildProcess }> {
  const child = spawn(process.execPath, [program, path], { stdio: ['pipe', 'pipe', 'inherit'], ...as });
  onTestFinished(() => void child.kill('SIGKILL'));
  const [chunk] = (await once(child.stdout, 'data')) as [Buffer];
  return { says: chunk.toString().trim(), child };
}

async function ended(child: ChildProcess): Promise<void> {
  const end = once(child, 'exit');
  child.stdin?.end();
  await end;
}

describe('a new study', () => {
  test('is made with its identity, its version and room for the journal to survive a crash', () => {
    const study = opened(join(ownFolder(), 'new.creasebook'), { create: true });
    const pragma = (name: string): unknown => study.database.pragma(name, { simple: true });
    expect(pragma('application_id')).toBe(applicationId);
    expect(Buffer.from(applicationId.toString(16), 'hex').toString()).toBe('CREA');
    expect(pragma('user_version')).toBe(10);
    expect(pragma('journal_mode')).toBe('wal');
    // FULL is 2: a change that was acknowledged is on the disk.
    expect(pragma('synchronous')).toBe(2);
    expect(pragma('foreign_keys')).toBe(1);
    expect(study.readOnlyBecause).toBeNull();
  });

  test('is closed as one file, without anything beside it', () => {
    const path = closedStudy(join(ownFolder(), 'one.creasebook'));
    expect(readdirSync(dirname(path))).toEqual(['one.creasebook']);
  });

  test('is never made over a file that is there', async () => {
    const path = join(ownFolder(), 'taken.creasebook');
    writeFileSync(path, 'my notes');
    const fault = await faultOfWork(() => openStudy(path, { create: true }));
    expect(fault).toMatchObject({ fault: 'refused', says: `${path} is there already.` });
    expect(readFileSync(path, 'utf8')).toBe('my notes');
  });

  test('needs a folder that is there', async () => {
    const path = join(ownFolder(), 'nowhere', 'a.creasebook');
    expect((await faultOfWork(() => openStudy(path, { create: true }))).fault).toBe('study-missing');
    expect(existsSync(dirname(path))).toBe(false);
  });

  test('that could not be finished is taken away, and the study that was open stays open', async () => {
    const folder = ownFolder();
    const handlers = studyHandlers({ filmFolders: [], programVersion: '0' }, Date.now);
    onTestFinished(() => void handlers['inner.close'](null));
    handlers['study.create']({ path: join(folder, 'first.creasebook'), evaluatorName: 'Dana Quill' });
    await faultOfWork(() => handlers['study.create']({ path: join(folder, 'second.creasebook'), evaluatorName: '' }));
    expect(handlers['study.info']({})?.name).toBe('first');
    expect(readdirSync(folder).filter((name) => name.includes('second'))).toEqual([]);
  });
});

describe('what is no study is told so', () => {
  test('a file that is not there', async () => {
    const path = join(ownFolder(), 'gone.creasebook');
    expect(await faultOfWork(() => openStudy(path))).toMatchObject({
      fault: 'study-missing',
      says: `There is no study at ${path}.`,
    });
    expect(readdirSync(dirname(path))).toEqual([]);
  });

  test.each([
    ['an empty file', ''],
    ['a text', 'down and distance'.repeat(100)],
    ['a few bytes', 'SQL'],
    ['bytes that only begin like a database', `SQLite format 3\0${'x'.repeat(4000)}`],
  ])('%s', async (_, content) => {
    const path = join(ownFolder(), 'notes.creasebook');
    writeFileSync(path, content);
    const { fault } = await faultOfWork(() => openStudy(path));
    expect(['not-a-study', 'study-damaged']).toContain(fault);
    expect(readFileSync(path, 'utf8')).toBe(content);
  });

  test('a folder', async () => {
    const path = join(ownFolder(), 'folder.creasebook');
    mkdirSync(path);
    expect((await faultOfWork(() => openStudy(path))).fault).toBe('not-a-study');
  });

  test("another program's database", async () => {
    const path = join(ownFolder(), 'other.db');
    const other = new SQLite(path);
    other.exec('CREATE TABLE recipes (name TEXT)');
    other.close();
    expect((await faultOfWork(() => openStudy(path))).fault).toBe('not-a-study');
  });

  test('a database that claims to be a study and has no journal', async () => {
    const path = join(ownFolder(), 'hollow.creasebook');
    const other = new SQLite(path);
    other.pragma(`application_id = ${applicationId}`);
    other.pragma('user_version = 10');
    other.exec('CREATE TABLE play (id TEXT)');
    other.close();
    const fault = await faultOfWork(() => openStudy(path));
    expect(fault.fault).toBe('study-damaged');
    expect(fault.says).toMatch(/no such table: journal/);
    expect((await faultOfWork(() => openStudy(path))).fault).toBe('study-damaged');
  });

  test.each([0.9, 0.5, 0.1])('a study cut off at %d of its length', async (share) => {
    const path = closedStudy(join(ownFolder(), 'cut.creasebook'));
    truncateSync(path, Math.floor(statSync(path).size * share));
    const before = readFileSync(path);
    for (const how of [{}, { readOnly: true }]) {
      const fault = await faultOfWork(() => openStudy(path, how));
      expect(fault.fault).toBe('study-damaged');
      expect(fault.next).toContain('backup');
    }
    expect(readFileSync(path).equals(before)).toBe(true);
  });
});

describe('a study that can only be read', () => {
  const untouched = (path: string, work: (study: Study) => void, how: Parameters<typeof openStudy>[1]): void => {
    const before = readFileSync(path);
    const beside = readdirSync(dirname(path));
    const study = openStudy(path, how);
    try {
      expect(study.rows.all('part')).toHaveLength(24);
      work(study);
      expect(readdirSync(dirname(path))).toEqual(beside);
    } finally {
      study.close();
    }
    expect(readdirSync(dirname(path))).toEqual(beside);
    expect(readFileSync(path).equals(before)).toBe(true);
  };

  test('because it was asked so: the file, its folder and its time stay as they are', async () => {
    const path = closedStudy(join(ownFolder(), 'read.creasebook'));
    const { mtimeNs } = statSync(path, { bigint: true });
    let refusal: Promise<unknown> | undefined;
    untouched(
      path,
      (study) => {
        expect(study.readOnlyBecause).toBe('It was asked for to be read only.');
        refusal = faultOfWork(() =>
          study.make({ by: null, label: 'x', steps: [add('team', { id: uid(1), name: 'x' })] }),
        );
        expect(() => study.database.exec('DELETE FROM mark')).toThrow(/readonly/);
      },
      { readOnly: true },
    );
    expect(await refusal).toMatchObject({ fault: 'read-only' });
    expect(statSync(path, { bigint: true }).mtimeNs).toBe(mtimeNs);
  });

  test('because a newer program made it', () => {
    const path = closedStudy(join(ownFolder(), 'newer.creasebook'));
    const other = new SQLite(path);
    other.pragma('user_version = 20');
    other.pragma('journal_mode = DELETE');
    other.pragma('journal_mode = WAL');
    other.close();
    untouched(
      path,
      (study) =>
        expect(study.readOnlyBecause).toBe(
          'It was made by a newer Creasebook (study version 20; this program writes 10).',
        ),
      {},
    );
  });

  test('because another process has it open; when that ends it can be written again', async () => {
    const path = closedStudy(join(ownFolder(), 'shared.creasebook'));
    const { says, child } = await inAnotherProcess(path);
    expect(says).toBe('may write');
    const study = openStudy(path);
    expect(study.readOnlyBecause).toBe('It is open in another window or program.');
    expect(study.rows.all('runner')).toHaveLength(3);
    study.close();
    await ended(child);
    expect(opened(path).readOnlyBecause).toBeNull();
  });

  test('and another process is told the same of ours', async () => {
    const path = closedStudy(join(ownFolder(), 'shared.creasebook'));
    opened(path);
    expect((await inAnotherProcess(path)).says).toBe('It is open in another window or program.');
  });

  test('not because of a lock that a killed process left behind', async () => {
    const path = closedStudy(join(ownFolder(), 'killed.creasebook'));
    const { child } = await inAnotherProcess(path);
    const gone = once(child, 'exit');
    child.kill('SIGKILL');
    await gone;
    expect(readdirSync(dirname(path))).toContain('.killed.creasebook.lock');
    expect(opened(path).readOnlyBecause).toBeNull();
  });

  test('because this process has it open already, and it sees what the first one writes', () => {
    const path = closedStudy(join(ownFolder(), 'twice.creasebook'));
    const first = opened(path);
    const second = opened(path);
    expect([first.readOnlyBecause, second.readOnlyBecause]).toEqual([null, 'It is open in another window or program.']);
    first.make({ by: null, label: 'x', steps: [add('team', { id: uid(60), name: 'Third' })] });
    expect(second.rows.get('team', uid(60))?.name).toBe('Third');
  });

  test('by whatever link it is named', () => {
    const folder = ownFolder();
    const path = closedStudy(join(folder, 'real.creasebook'));
    symlinkSync(path, join(folder, 'link.creasebook'));
    opened(path);
    expect(opened(join(folder, 'link.creasebook')).readOnlyBecause).toBe('It is open in another window or program.');
  });

  test('but the window that has it open keeps it when it opens it again, by its path or a link', () => {
    const folder = ownFolder();
    const path = closedStudy(join(folder, 'real.creasebook'));
    symlinkSync(path, join(folder, 'link.creasebook'));
    const handlers = studyHandlers({ filmFolders: [], programVersion: '0' }, Date.now);
    onTestFinished(() => void handlers['inner.close'](null));
    for (const named of [
      path,
      join(folder, 'link.creasebook'),
      join(folder, '..', folder.split('/').at(-1) ?? '', 'real.creasebook'),
    ])
      expect(handlers['study.open']({ path: named })).toMatchObject({ readOnly: false, journalEntries: 1 });
  });

  // What a folder's rights forbid binds everyone but root, so another user must look.
  test.skipIf(process.getuid?.() !== 0)('because its folder or file is read-only for this user', async () => {
    const folder = ownFolder();
    chmodSync(folder, 0o755);
    const path = closedStudy(join(folder, 'mine.creasebook'));
    const nobody = { uid: 65_534, gid: 65_534 };
    expect((await inAnotherProcess(path, nobody)).says).toBe('The file or its folder is read-only.');
    chmodSync(folder, 0o777);
    expect((await inAnotherProcess(path, nobody)).says).toBe('The file or its folder is read-only.');
    expect(readdirSync(folder)).toEqual(['mine.creasebook']);
    chownSync(path, nobody.uid, nobody.gid);
    const { says, child } = await inAnotherProcess(path, nobody);
    expect(says).toBe('may write');
    await ended(child);
  });

  test('with a log that was never folded in (a crash), whose rows are read too', () => {
    const folder = ownFolder();
    const path = closedStudy(join(folder, 'a.creasebook'));
    const study = opened(path);
    study.make({ by: null, label: 'x', steps: [add('team', { id: uid(60), name: 'In the log' })] });
    const copy = join(ownFolder(), 'crashed.creasebook');
    copyFileSync(path, copy);
    copyFileSync(`${path}-wal`, `${copy}-wal`);
    const read = opened(copy, { readOnly: true });
    expect(read.rows.get('team', uid(60))?.name).toBe('In the log');
  });
});

describe('a study that another program is writing to', () => {
  test('refuses a change in words and takes it when the other is done', async () => {
    const path = closedStudy(join(ownFolder(), 'busy.creasebook'));
    const study = opened(path);
    const other = new SQLite(path);
    onTestFinished(() => void other.close());
    other.exec('BEGIN IMMEDIATE');
    const change = { by: who.quill, label: 'x', steps: [add('team', { id: uid(60), name: 'Third' })] };
    const before = contentOf(study);
    expect((await faultOfWork(() => study.make(change))).fault).toBe('study-locked');
    expect(contentOf(study)).toEqual(before);
    other.exec('ROLLBACK');
    expect(study.make(change).operations).toBe(1);
  });

  test('and holds all of it, is not opened, and told why', async () => {
    const path = closedStudy(join(ownFolder(), 'busy.creasebook'));
    const other = new SQLite(path);
    onTestFinished(() => void other.close());
    other.pragma('journal_mode = DELETE');
    other.exec('BEGIN EXCLUSIVE');
    expect((await faultOfWork(() => openStudy(path))).fault).toBe('study-locked');
    other.exec('ROLLBACK');
    expect(opened(path).readOnlyBecause).toBeNull();
  });
});
