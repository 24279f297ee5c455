/** The built `creasebook` as a program of its own on a real study: what it prints, how it ends, and that it changes nothing. */
import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import {
  copyFileSync,
  existsSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  realpathSync,
  rmSync,
  statSync,
  truncateSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import SQLite from 'better-sqlite3';
import { afterAll, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import { set } from '../../src/contract/changes.ts';
import { findChromium } from '../../src/host/exports/chromium.ts';
import { openHost } from '../../src/host/door.ts';
import { openStudy } from '../../src/host/study/study.ts';
import { allSteps, carries, who } from '../host/small-study.ts';
import { textOf } from '../pages/text-of.ts';
import { buildCli } from './build-cli.ts';

let program: string;
let folder: string;
let original: string;
let study: string;

type Ended = { readonly code: number | null; readonly out: string; readonly err: string };

function run(...args: string[]): Ended {
  const { status, stdout, stderr } = spawnSync(process.execPath, [program, ...args], { encoding: 'utf8', cwd: folder });
  return { code: status, out: stdout, err: stderr };
}

const stateOf = (path: string) => ({
  bytes: createHash('sha256').update(readFileSync(path)).digest('hex'),
  changed: statSync(path, { bigint: true }).mtimeNs,
  beside: readdirSync(dirname(path)).filter((name) => name.includes('class')),
});

beforeAll(() => {
  program = buildCli();
  folder = realpathSync(mkdtempSync(join(tmpdir(), 'creasebook-cli-test-')));
  original = join(folder, 'original.creasebook');
  const made = openStudy(original, { create: true });
  made.make({ by: null, label: 'A small study', steps: [...allSteps] });
  made.make({
    by: null,
    label: 'Words',
    steps: [
      {
        do: 'add',
        table: 'writeup',
        row: {
          id: who.games[2],
          runnerId: who.lyle,
          evaluatorId: who.quill,
          role: 'Early downs',
          verdict: [{ text: 'Takes what is there.', cites: [carries[1]?.partId], against: [] }],
        },
      },
    ],
  });
  made.close();
}, 120_000);
beforeEach(() => {
  study = join(folder, 'class.creasebook');
  rmSync(study, { force: true });
  copyFileSync(original, study);
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe('creasebook grades', () => {
  test('prints as JSON the sheet’s own numbers, to the digit, for one evaluator and for all', async () => {
    const before = stateOf(study);
    const host = openHost({
      uiFolder: null,
      filmFolders: [],
      browseRoots: [],
      preferencesPath: join(folder, 'preferences.json'),
      programVersion: '0',
      native: {},
      log: () => undefined,
    });
    await host.call('study.open', { path: original });
    for (const [args, evaluatorId] of [
      [[], null],
      [['--evaluator', 'ivo marsh'], who.marsh],
    ] as const) {
      const { code, out, err } = run('grades', study, '--json', ...args);
      expect([code, err]).toEqual([0, '']);
      const told = JSON.parse(out) as { evaluator: string | null; runners: Record<string, unknown>[] };
      expect(told.evaluator).toBe(evaluatorId === null ? null : 'Ivo Marsh');
      expect(told.runners).toHaveLength(3);
      for (const { runner, carries: count, ...figures } of told.runners) {
        const { id } = runner as { id: string };
        const sheet = await host.call('sheet.read', { runnerId: id, evaluatorId });
        expect(Object.keys(figures).toSorted()).toEqual([
          'completeness',
          'delta',
          'families',
          'games',
          'model',
          'overall',
          'success',
          'successOverExpected',
          'successRule',
          'thin',
        ]);
        expect(figures).toEqual(
          Object.fromEntries(Object.keys(figures).map((key) => [key, sheet[key as keyof typeof sheet]])),
        );
        expect(count).toBe(sheet.carries.length);
      }
    }
    await host.close();
    expect(stateOf(study)).toEqual(before);
  });

  test('prints a plain table with the same figures to two decimals', () => {
    const sheet = JSON.parse(run('grades', study, '--runner', 'okafor', '--json').out) as {
      runners: { overall: { value: { grade: number; low: number; high: number } } }[];
    };
    const { grade, low, high } = sheet.runners[0]?.overall.value ?? { grade: 0, low: 0, high: 0 };
    const { code, out } = run('grades', study, '--runner', 'okafor');
    expect(code).toBe(0);
    expect(out).toMatch(/^Dez Okafor-Lyle, Harlan Ridge: 12 carries\n/);
    expect(out).toMatch(new RegExp(`^All +${grade.toFixed(2)} +${low.toFixed(2)} +${high.toFixed(2)} +11 +3`, 'm'));
    expect(out).toContain('Only 8 of 15 official carries are logged');
    expect(out).not.toContain('Brask');
  });

  test('says which runner it can not tell', () => {
    expect(run('grades', study, '--runner', 'Nobody')).toEqual({
      code: 1,
      out: '',
      err: 'There is no runner named “Nobody” in this study. It has Dez Okafor-Lyle, Tavian Brask, Jonah Quillane.\n',
    });
    const several = run('grades', study, '--runner', 'a');
    expect([several.code, several.err]).toEqual([1, expect.stringMatching(/^“a” is the name of 3 in this study: /)]);
    expect(run('grades', study, '--runner', who.brask).out).toContain('Tavian Brask');
  });
});

describe('creasebook dossier', () => {
  test.each(['A4', 'Letter'])(
    'writes one HTML file on %s that is the host’s own, and leaves the study as it is',
    (paper) => {
      const before = stateOf(study);
      const out = join(folder, `dossier ${paper}.html`);
      const by = ['--evaluator', 'Dana Quill', '--paper', paper, '--out', out];
      const { code, out: said, err } = run('dossier', study, '--runner', 'Dez Okafor-Lyle', ...by);
      expect([code, said]).toEqual([0, '']);
      // Told where the words go wherever errors go: a picture that is missing is not progress.
      expect(err).toMatch(/^Carry 2 is printed without its picture\. The film coldwater\.mp4 was not found .*\n$/);
      expect(stateOf(study)).toEqual(before);
      const html = readFileSync(out, 'utf8');
      const words = textOf(html);
      const { runners } = JSON.parse(run('grades', study, '--runner', 'Dez', '--evaluator', 'Dana', '--json').out) as {
        runners: { overall: { value: Record<'grade' | 'low' | 'high', number> } }[];
      };
      const overall = runners[0]?.overall.value;
      const [grade, low, high] = [overall?.grade, overall?.low, overall?.high].map((figure) => figure?.toFixed(1));
      // Paper rounds to one decimal; beyond that it is the same number.
      for (const wanted of [
        'Takes what is there.',
        'Early downs',
        `Overall grade 11 carries ${grade} (${low}–${high})`,
      ])
        expect([wanted, words.includes(wanted)]).toEqual([wanted, true]);
      expect(html.includes(paper === 'A4' ? 'size:A4' : 'size:letter')).toBe(true);
    },
  );

  test.skipIf(findChromium(process.env) === null)(
    'writes a PDF with the installed browser',
    () => {
      const before = stateOf(study);
      const out = join(folder, 'dossier.pdf');
      expect(run('dossier', study, '--runner', 'Tavian Brask', '--out', out)).toEqual({ code: 0, out: '', err: '' });
      expect(readFileSync(out).subarray(0, 5).toString()).toBe('%PDF-');
      expect(readdirSync(folder).filter((name) => name.includes('.part-'))).toEqual([]);
      expect(stateOf(study)).toEqual(before);
    },
    90_000,
  );

  test('says so where nothing can print, and where the file can not be written', () => {
    const none = spawnSync(process.execPath, [program, 'dossier', study, '--runner', 'Brask', '--out', 'a.pdf'], {
      encoding: 'utf8',
      cwd: folder,
      env: { PATH: '/nowhere', CHROMIUM: '/nowhere/chromium' },
    });
    expect([none.status, none.stderr]).toEqual([
      1,
      expect.stringContaining('none was found. Install Chromium or Chrome'),
    ]);
    expect(existsSync(join(folder, 'a.pdf'))).toBe(false);
    const nowhere = run('dossier', study, '--runner', 'Brask', '--out', join(folder, 'nowhere', 'a.html'));
    expect([nowhere.code, nowhere.err]).toEqual([1, expect.stringMatching(/a\.html can't be written: ENOENT/)]);
  });

  test('is never written over the study', () => {
    const odd = join(folder, 'study.html');
    copyFileSync(original, odd);
    const before = readFileSync(odd);
    const { code, err } = run('dossier', odd, '--runner', 'Brask', '--out', './study.html');
    expect([code, err]).toEqual([1, expect.stringContaining('is the study itself')]);
    expect(readFileSync(odd).equals(before)).toBe(true);
    rmSync(odd);
  });
});

describe('creasebook check', () => {
  type Told = {
    sound: boolean;
    rows: number;
    journalEntries: number;
    version: number;
    findings: { where: string; says: string }[];
    missingFilms: { name: string }[];
  };
  const checked = (path: string): { code: number | null; told: Told } => {
    const { code, out } = run('check', path, '--json');
    return { code, told: JSON.parse(out) as Told };
  };
  const spoilt = (sql: string): string => {
    const database = new SQLite(study);
    database.pragma('foreign_keys = OFF');
    database.exec(sql);
    database.close();
    return study;
  };

  test('finds a sound study sound, names films that are elsewhere, and leaves it as it is', () => {
    const before = stateOf(study);
    const { code, told } = checked(study);
    expect([code, told.sound, told.version, told.journalEntries, told.findings]).toEqual([0, true, 10, 2, []]);
    expect(told.rows).toBe(allSteps.length + 1);
    expect(told.missingFilms).toEqual([{ name: 'coldwater.mp4', path: 'films/coldwater.mp4' }]);
    const words = run('check', study);
    expect([words.code, words.out]).toEqual([
      0,
      expect.stringMatching(
        /is sound: version 10, \d+ rows, 2 journal entries; .*\nThe film coldwater\.mp4 is not found/,
      ),
    ]);
    expect(stateOf(study)).toEqual(before);
  });

  test.each([
    [
      'a value written beside the journal',
      'UPDATE play SET gain = 1 WHERE position = 1',
      'journal',
      /has 1 as gain; the journal says/,
    ],
    ['a row lost', 'DELETE FROM official_line', 'journal', /official.* is missing; the journal has it/i],
    ['a row that points at nothing', 'DELETE FROM evaluator', 'ties', /points at a evaluator that is not there/],
    ['a row that can not be', `UPDATE play SET concept = 'magic' WHERE position = 1`, 'rows', /can't be: concept/],
  ])('finds %s', (_, sql, where, says) => {
    const { code, told } = checked(spoilt(sql));
    expect([code, told.sound]).toEqual([1, false]);
    expect(told.findings.some((finding) => finding.where === where && says.test(finding.says))).toBe(true);
  });

  test('finds pages that were overwritten, and still tells all it can read', () => {
    const bytes = readFileSync(study);
    bytes.fill(0x5a, 4096 * 20, 4096 * 24);
    writeFileSync(study, bytes);
    const { code, told } = checked(study);
    expect([code, told.sound]).toEqual([1, false]);
    expect(told.findings.some(({ where }) => where === 'file')).toBe(true);
    expect(run('check', study).out).toMatch(/is damaged: \d+ finding/);
  });

  test('finds a study that was cut off', () => {
    truncateSync(study, 9000);
    const { code, told } = checked(study);
    expect([code, told.sound, told.findings.length]).toEqual([1, false, 1]);
  });

  test('waits for nobody: a study open for writing is checked as it stands', () => {
    const open = openStudy(study);
    open.make({ by: null, label: 'x', steps: [set('runner', who.lyle, { jersey: 22 })] });
    const { code, told } = checked(study);
    open.close();
    expect([code, told.journalEntries]).toEqual([0, 3]);
  });
});

describe('creasebook', () => {
  test.each([[['--help']], [['dossier', '--help']], [['grades', '--help']], [['check', '--help']], [['--version']]])(
    'answers %j and ends well',
    (args) => {
      const { code, out, err } = run(...args);
      expect([code, out === '', err]).toEqual([0, false, '']);
    },
  );

  test.each([
    [[], /Usage: creasebook/],
    [['paint', 'x'], /unknown command 'paint'/],
    [['grades'], /missing required argument 'study'/],
    [['grades', 'x', '--loud'], /unknown option '--loud'/],
    [['dossier', 'x', '--runner', 'y'], /required option '--out <file>' not specified/],
    [['dossier', 'x', '--runner', 'y', '--out', 'a.docx'], /ends in \.pdf or \.html/],
    [['dossier', 'x', '--runner', 'y', '--out', 'a.pdf', '--paper', 'A3'], /Allowed choices are A4, Letter/],
    [['check', 'x', 'y'], /too many arguments/],
  ])('asked wrongly (%j) says how and ends with 2', (args, says) => {
    const { code, out, err } = run(...args);
    expect([code, out]).toEqual([2, '']);
    expect(err).toMatch(says);
  });

  test.each([['grades'], ['check']])('%s says what is no study, with 1', (command) => {
    expect(run(command, join(folder, 'none.creasebook'))).toMatchObject({
      code: 1,
      out: '',
      err: expect.stringContaining('There is no study at') as string,
    });
    writeFileSync(join(folder, 'notes.creasebook'), 'notes');
    expect(run(command, 'notes.creasebook')).toMatchObject({
      code: 1,
      out: '',
      err: expect.stringContaining('is not a Creasebook study') as string,
    });
  });
});
