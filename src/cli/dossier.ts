import { realpathSync } from 'node:fs';
import { extname, resolve } from 'node:path';
import { faultOf, FaultError } from '../contract/faults.ts';
import { chromiumPrinter, findChromium } from '../host/exports/chromium.ts';
import { findByName } from './find-by-name.ts';
import { progress } from './progress.ts';
import { withStudy } from './read-only-host.ts';
import { writeWhole } from './write-whole.ts';

/** What `creasebook dossier` was asked; `out` ends in .pdf or .html. */
export type DossierAsked = {
  readonly study: string;
  readonly runner: string;
  readonly evaluator: string | undefined;
  readonly paper: 'A4' | 'Letter';
  readonly out: string;
};

/** The endings a dossier can be written with. */
export const dossierEndings = ['.pdf', '.html'] as const;

function refuseStudyItself(study: string, out: string): void {
  let same: boolean;
  try {
    same = realpathSync(study) === realpathSync(out);
  } catch {
    same = false;
  }
  if (same) {
    throw new FaultError(
      faultOf('refused', `${out} is the study itself; a dossier can't be written over it.`, 'Choose another --out.'),
    );
  }
}

/**
 * Writes one runner's dossier as it stands now, by the same pages as the window's, and nothing to the study. Throws a
 * FaultError when the study, the runner or the evaluator is not there, nothing can print, or the file can't be written.
 */
export async function dossierCommand({ study, runner, evaluator, paper, out }: DossierAsked): Promise<void> {
  const target = resolve(out);
  refuseStudyItself(study, target);
  await withStudy(study, async (host, directory) => {
    const { id: runnerId, name } = findByName(directory.runners, runner, 'runner');
    const evaluatorId = evaluator === undefined ? null : findByName(directory.evaluators, evaluator, 'evaluator').id;
    progress(`Writing the dossier of ${name}`);
    const { view, html } = await host.renderDossier({ runnerId, evaluatorId, paper });
    for (const { number, missing } of view.evidence) {
      if (missing !== null) process.stderr.write(`Carry ${number} is printed without its picture. ${missing}\n`);
    }
    if (extname(target).toLowerCase() === '.html') {
      writeWhole(target, html);
    } else {
      const chromium = findChromium(process.env);
      if (chromium === null) {
        throw new FaultError(
          faultOf(
            'no-printer',
            'A PDF is printed by an installed browser of the Chromium family, and none was found.',
            'Install Chromium or Chrome, name one in CHROMIUM, or write --out FILE.html and print that.',
          ),
        );
      }
      progress('Printing it');
      writeWhole(target, await chromiumPrinter(chromium)(html));
    }
    progress(`Wrote ${target}`);
  });
}
