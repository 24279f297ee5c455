import { spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { beforeAll, expect, test } from 'vitest';
import { buildCli } from '../cli/build-cli.ts';

const text = readFileSync(new URL('../../docs/cli.md', import.meta.url), 'utf8');
let program: string;
beforeAll(() => {
  program = buildCli();
}, 120_000);

const helpOf = (...args: string[]): string =>
  spawnSync(process.execPath, [program, ...args, '--help'], { encoding: 'utf8' }).stdout;

/** The first words of the lines under a heading of the help: the options or commands it lists. */
const listed = (help: string, heading: string): string[] => {
  const [, after = ''] = help.split(`${heading}:\n`);
  const [block = ''] = after.split('\n\n');
  return [...block.matchAll(/^ {2}(\S.*?)(?: {2,}|$)/gm)].map(([, words = '']) => words);
};

test('every command stands in docs/cli.md with every one of its options, and no other', () => {
  const commands = listed(helpOf(), 'Commands')
    .map((words) => words.split(' ')[0] ?? '')
    .filter((name) => name !== 'help');
  const sections = new Map(
    text
      .split(/^## creasebook /m)
      .slice(1)
      .map((section) => [section.split(' ')[0] ?? '', section]),
  );
  expect([...sections.keys()].filter((name) => !name.startsWith('-'))).toEqual(commands);
  for (const command of commands) {
    const options = listed(helpOf(command), 'Options');
    expect(options.length).toBeGreaterThan(1);
    const told = [...(sections.get(command) ?? '').matchAll(/^\| `(-[^`]+)` \|/gm)].map(([, words = '']) => words);
    expect([command, new Set(told)]).toEqual([command, new Set(options)]);
  }
  for (const option of ['--version', '--help', 'help']) expect(sections.get('--version,')).toContain(option);
});
