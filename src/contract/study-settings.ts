/** What a study has chosen for its figures, read from its settings with a default for each. */
import { z } from 'zod';
import type { Setting } from './rows.ts';
import { successRules, yardsModels } from './words.ts';

const percent = z.int().min(0).max(100);
const shapes = {
  successRule: z.enum(successRules).catch('college'),
  /** Percent of the yards to go a success needs on each down, where the rule is one's own. */
  ownShares: z.tuple([percent, percent, percent, percent]).catch([40, 60, 100, 100]),
  yardsModel: z.enum(yardsModels).catch('college'),
  borrowBox: z.boolean().catch(false),
  decidedLines: z
    .array(z.strictObject({ quarter: z.int().min(1).max(4), margin: z.int().min(0).max(100) }))
    .max(4)
    .catch([
      { quarter: 2, margin: 38 },
      { quarter: 3, margin: 28 },
      { quarter: 4, margin: 22 },
    ]),
};
const all = z.object(shapes);
export type StudySettings = z.infer<typeof all>;
export type StudySettingName = keyof StudySettings;

/** Reads the settings; a missing or unreadable one takes its default (college rule and college fit, decided by margin). */
export function studySettings(settings: readonly Setting[]): StudySettings {
  return all.parse(
    Object.fromEntries(Object.keys(shapes).map((key) => [key, settings.find(({ id }) => id === key)?.value])),
  );
}
