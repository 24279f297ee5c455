import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import SQLite from 'better-sqlite3';
import { describe, expect, test } from 'vitest';
import { migrations, newestVersion, type Migration } from '../../../src/host/study/migrations/all.ts';
import { applicationId, openDatabase } from '../../../src/host/study/open.ts';
import { openStudy } from '../../../src/host/study/study.ts';
import { allSteps, faultOfWork, ownFolder, uid } from '../small-study.ts';

const next: Migration = {
  version: 20,
  sql: `ALTER TABLE runner ADD COLUMN reach_inches REAL; CREATE TABLE idea (id TEXT PRIMARY KEY) STRICT;`,
};
const later: Migration = { version: 30, sql: `UPDATE runner SET reach_inches = 31.5;` };
const broken: Migration = {
  version: 30,
  sql: `CREATE TABLE half (id TEXT) STRICT; UPDATE runner SET no_such_column = 1;`,
};

function oldStudy(): string {
  const path = join(ownFolder(), 'old.creasebook');
  const study = openStudy(path, { create: true });
  study.make({ by: null, label: 'A small study', steps: [...allSteps] });
  study.close();
  return path;
}

const runnersOf = (path: string): unknown[] => {
  const database = new SQLite(path, { readonly: true });
  const found = database.prepare('SELECT * FROM runner ORDER BY id').all();
  database.close();
  return found;
};

describe('the migrations', () => {
  test('go up by ten and end at the version this program writes', () => {
    expect(migrations.map(({ version }) => version)).toEqual(migrations.map((_, at) => (at + 1) * 10));
    expect(migrations.at(-1)?.version).toBe(newestVersion);
  });

  test('10 makes an empty study from nothing, or from one that a crash left without tables', () => {
    const path = join(ownFolder(), 'begun.creasebook');
    const begun = new SQLite(path);
    begun.pragma(`application_id = ${applicationId}`);
    begun.close();
    const study = openStudy(path);
    expect(study.database.pragma('user_version', { simple: true })).toBe(10);
    expect(study.rows.all('play')).toEqual([]);
    expect(
      study.make({ by: null, label: 'x', steps: [{ do: 'add', table: 'team', row: { id: uid(1), name: 'x' } }] })
        .operations,
    ).toBe(1);
    study.close();
    expect(existsSync(`${path}.before-version-10`)).toBe(false);
  });

  test('bring an older study up step by step, after a backup that is the study as it was', () => {
    const path = oldStudy();
    const before = readFileSync(path);
    const runners = runnersOf(path);
    const opened = openDatabase(path, { migrations: [...migrations, next, later] });
    expect(opened.readOnlyBecause).toBeNull();
    const pragma = (name: string): unknown => opened.database.pragma(name, { simple: true });
    expect([pragma('user_version'), pragma('application_id')]).toEqual([30, applicationId]);
    expect(opened.database.prepare('SELECT * FROM runner ORDER BY id').all()).toEqual(
      runners.map((runner) => ({ ...(runner as object), reach_inches: 31.5 })),
    );
    opened.close();
    const backup = `${path}.before-version-30`;
    expect(readFileSync(backup).equals(before)).toBe(true);
    expect(runnersOf(backup)).toEqual(runners);
    const old = openStudy(backup);
    expect([old.readOnlyBecause, old.rows.all('part').length]).toEqual([null, 24]);
    old.close();
  });

  test('that fail leave the study at the last version that worked, whole', async () => {
    const path = oldStudy();
    expect(() => openDatabase(path, { migrations: [...migrations, next, broken] })).toThrow(/no_such_column/);
    const database = new SQLite(path, { readonly: true });
    expect(database.pragma('user_version', { simple: true })).toBe(20);
    expect(database.prepare(`SELECT count(*) FROM sqlite_schema WHERE name = 'half'`).pluck().get()).toBe(0);
    expect(database.pragma('integrity_check', { simple: true })).toBe('ok');
    database.close();
    // The program that wrote it sees it as newer, and only reads it.
    const study = openStudy(path);
    expect(study.readOnlyBecause).toContain('study version 20');
    study.close();
    expect((await faultOfWork(() => openStudy(`${path}.none`))).fault).toBe('study-missing');
  });

  test('let an older study be read without touching it', () => {
    const path = oldStudy();
    const before = readFileSync(path);
    const opened = openDatabase(path, { readOnly: true, migrations: [...migrations, next, later] });
    expect(opened.database.prepare('SELECT DISTINCT reach_inches FROM runner').pluck().all()).toEqual([31.5]);
    opened.close();
    expect(readFileSync(path).equals(before)).toBe(true);
    expect(existsSync(`${path}.before-version-30`)).toBe(false);
  });
});
