/** `node scripts/keys-page.ts`: writes docs/keys.md from the action table that binds the keys. */
import { writeFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { keyInWords, type Action } from '../src/ui/kit/actions.ts';
import { stageActions } from '../src/ui/stage/stage-actions.ts';

/** The page of keys as text: one table a group, in the order of the action table. */
export function keysPage(actions: readonly Action[]): string {
  const groups = new Map<string, Action[]>();
  for (const action of actions) {
    if (action.keys !== undefined) groups.set(action.group, [...(groups.get(action.group) ?? []), action]);
  }
  const tables = [...groups].map(([group, members]) =>
    [
      `## ${group}`,
      '',
      '| key | does |',
      '| --- | --- |',
      ...members.map(
        ({ name, keys = [] }) => `| ${keys.map((key) => `\`${keyInWords(key)}\``).join(' or ')} | ${name} |`,
      ),
    ].join('\n'),
  );
  return `# Keys of the Stage

Made by \`node scripts/keys-page.ts\` from the action table; \`?\` shows the keys that work where you are.

Everywhere: \`Ctrl K\` finds any runner, game or action; \`Ctrl Z\` takes back your own last change, \`Ctrl Shift Z\` does it
again; \`Alt 1\` to \`Alt 7\` go to the rooms.

Marks: a trait's letter (they stand before the traits under the sentence), then \`1\` to \`5\`; \`.\` after it adds a half; \`0\` not
shown, \`-\` can't be seen, \`Backspace\` not yet looked. A figure without a letter tags a moment.

In the sentence: \`Tab\` or \`Enter\` keeps a blank and goes on, \`Shift Tab\` goes back, \`Esc\` leaves it as it was. A single
letter fills a blank of words (they show while the blank is open) and goes on by itself.

${tables.join('\n\n')}
`;
}

if (process.argv[1] !== undefined && resolve(process.argv[1]) === import.meta.filename) {
  writeFileSync(resolve(import.meta.dirname, '..', 'docs', 'keys.md'), keysPage(stageActions));
}
