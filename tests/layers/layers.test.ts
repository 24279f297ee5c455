/** The fence proved: each rule of the import table refuses its wrong file, the compiler refuses the rest, the house is clean. */
import { globSync, readFileSync } from 'node:fs';
import { dirname, relative, resolve } from 'node:path';
import { cruise, type ICruiseResult, type IViolation } from 'dependency-cruiser';
import extractOptions from 'dependency-cruiser/config-utl/extract-depcruise-options';
import ts from 'typescript';
import { beforeAll, describe, expect, test } from 'vitest';

const project = resolve(import.meta.dirname, '..', '..');
const wrong = 'tests/layers/wrong';
const read = (path: string): string => readFileSync(resolve(project, path), 'utf8');
const filesIn = (pattern: string): string[] =>
  globSync(pattern, { cwd: project }).map((path) => path.replaceAll('\\', '/'));
const wrongFiles = filesIn(`${wrong}/{src,electron}/**/*.{ts,tsx}`);
const refusedBy = (path: string): string[] => {
  const [, names = ''] = /^\/\/ Wrong on purpose\. Refused by: (.*)$/m.exec(read(path)) ?? [];
  return names === '' ? [] : names.split(', ');
};

const folderOf = (path: string): string => path.split('/').slice(0, 2).join('/');

let result: ICruiseResult;
let ruleNames: string[];

beforeAll(async () => {
  const options = await extractOptions(resolve(project, '.dependency-cruiser.cjs'));
  ruleNames = (options.ruleSet?.forbidden ?? []).map(({ name }) => name ?? '');
  const { output } = await cruise(['src', 'electron', wrong], { ...options, baseDir: project });
  if (typeof output === 'string') throw new Error(output);
  result = output;
});

const violationsOf = (path: string): IViolation[] => result.summary.violations.filter(({ from }) => from === path);

describe('the import table', () => {
  test('has one wrong file or more for every rule', () => {
    expect(new Set(wrongFiles.flatMap(refusedBy))).toEqual(new Set(ruleNames));
  });

  test.each(wrongFiles.filter((path) => refusedBy(path).length > 0))(
    'refuses every import of %s by its rule',
    (path) => {
      const imports = read(path).match(/^import /gm) ?? [];
      for (const rule of refusedBy(path)) {
        expect(violationsOf(path).filter((violation) => violation.rule.name === rule)).toHaveLength(imports.length);
      }
      expect(new Set(violationsOf(path).map(({ rule }) => rule.name))).toEqual(new Set(refusedBy(path)));
    },
  );

  test('refuses nothing in the files beside the wrong ones that are right', () => {
    const right = wrongFiles.filter((path) => refusedBy(path).length === 0);
    expect(right.flatMap(violationsOf)).toEqual([]);
  });

  test('is kept by the whole house', () => {
    const broken = result.summary.violations.filter(({ from }) => !from.startsWith(wrong));
    expect(broken.map(({ rule, from, to }) => `${rule.name}: ${from} -> ${to}`)).toEqual([]);
  });

  test('sees all the code there is', () => {
    const seen = new Set(result.modules.map(({ source }) => source));
    expect(
      filesIn('{src,electron}/**/*.{ts,tsx}').filter((path) => !seen.has(path) && !path.endsWith('.d.ts')),
    ).toEqual([]);
  });

  test('is not gone round by worker addresses, which are imports in all but name', () => {
    const goneRound = filesIn('{src,electron}/**/*.{ts,tsx}').flatMap((path) =>
      [...read(path).matchAll(/new URL\(\s*'(\.[^']+\.tsx?)'\s*,\s*import\.meta\.url/g)].flatMap(([, target = '']) => {
        const reached = relative(project, resolve(project, dirname(path), target)).replaceAll('\\', '/');
        const may =
          folderOf(reached) === folderOf(path) || (folderOf(path) === 'src/ui' && folderOf(reached) === 'src/film');
        return may ? [] : [`${path} -> ${reached}`];
      }),
    );
    expect(goneRound).toEqual([]);
  });
});

describe("the compiler's fence", () => {
  const marked = filesIn(`${wrong}/compiler/*.ts`).map((path) => {
    const [, folder = '', codes = ''] = /Refused by the compiler of: (\S+) with ([\d, ]+) \(/.exec(read(path)) ?? [];
    return { path, folder, codes: codes.split(', ').map(Number) };
  });

  test.each(marked)('of $folder refuses $path', ({ path, folder, codes }) => {
    const options = ts.getParsedCommandLineOfConfigFile(
      resolve(project, folder, 'tsconfig.json'),
      { noEmit: true, composite: false, incremental: false, emitDeclarationOnly: false },
      { ...ts.sys, onUnRecoverableConfigFileDiagnostic: () => undefined },
    )?.options;
    if (options === undefined) throw new Error(`${folder}/tsconfig.json can't be read`);
    delete options.tsBuildInfoFile;
    const program = ts.createProgram([resolve(project, path)], options);
    const found = ts.getPreEmitDiagnostics(program).map(({ code }) => code);
    expect(found.length).toBeGreaterThan(0);
    expect(found.filter((code) => !codes.includes(code))).toEqual([]);
  });

  test('stands around every folder of the house', () => {
    const folders = filesIn('{src,electron}/**/tsconfig.json').map((path) => dirname(path));
    expect(new Set(marked.map(({ folder }) => folder))).toEqual(new Set(folders));
  });
});
