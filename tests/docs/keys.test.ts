import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { keysPage } from '../../scripts/keys-page.ts';
import { stageActions } from '../../src/ui/stage/stage-actions.ts';

test('docs/keys.md says what the action table binds', () => {
  expect(readFileSync('docs/keys.md', 'utf8')).toBe(keysPage(stageActions));
});

test('no key of the Stage does two things, and none is a letter of the default rubric', async () => {
  const { defaultRubric } = await import('../../src/core/rubric/default-rubric.ts');
  const letters = defaultRubric.families.flatMap((family) => family.traits.map((trait) => trait.letter));
  const keys = stageActions.flatMap((action) => [...new Set(action.keys ?? [])]);
  expect(keys.filter((key, at) => keys.indexOf(key) !== at)).toEqual([]);
  expect(keys.filter((key) => letters.includes(key))).toEqual([]);
});
