import { resolve } from 'node:path';
import { checkStudy, type StudyCheck } from '../host/study/check.ts';
import { progress } from './progress.ts';
import { program } from './read-only-host.ts';

function inWords({ path, sound, version, rows, journalEntries, findings, missingFilms }: StudyCheck): string {
  const lines = [
    sound
      ? `${path} is sound: version ${version ?? 'unknown'}, ${rows} rows, ${journalEntries} journal entries; the tables are what the journal says.`
      : `${path} is damaged: ${findings.length} finding${findings.length === 1 ? '' : 's'}.`,
    ...findings.map(({ says }) => `  ${says}`),
    ...missingFilms.map(({ name, path: last }) => `The film ${name} is not found; it was last at ${last}.`),
  ];
  return `${lines.join('\n')}\n`;
}

/** Checks a study and gives the text for the standard output, and whether the study is sound. */
export function checkCommand(study: string, json: boolean): { readonly text: string; readonly sound: boolean } {
  progress(`Checking ${study}`);
  const found = checkStudy(resolve(study), { filmFolders: program().filmFolders });
  return { text: json ? `${JSON.stringify(found, null, 2)}\n` : inWords(found), sound: found.sound };
}
