import { createHash } from 'node:crypto';
import { v7 as uuidv7 } from 'uuid';
import type { CallInput } from '../../contract/calls.ts';
import { faultOf, FaultError } from '../../contract/faults.ts';
import type { DossierView, IssuedView } from '../../contract/views.ts';
import type { Native } from '../native.ts';
import type { StudyClient } from '../study/client.ts';
import { dossierFonts } from './dossier-fonts.ts';
import { dossierHtml } from './dossier-html.tsx';

type Paper = 'A4' | 'Letter';
type StudyCalls = Pick<StudyClient, 'call'>;

/** A dossier as it stands now: what it is made from, and its one HTML file. */
export type RenderedDossier = { readonly view: DossierView; readonly html: string };

/** Reads a runner's dossier from the study and renders it; nothing is kept. Rejects as 'dossier.read' does. */
export async function renderDossier(
  study: StudyCalls,
  {
    runnerId,
    evaluatorId,
    paper,
  }: { readonly runnerId: string; readonly evaluatorId: string | null; readonly paper: Paper },
): Promise<RenderedDossier> {
  const view = await study.call('dossier.read', { runnerId, evaluatorId });
  return { view, html: dossierHtml(view, paper, await stillsOf(study, view), dossierFonts()) };
}

/**
 * Issues a runner's dossier: renders it, prints it when `pdf` is asked for, and keeps what it was made from, the HTML,
 * its SHA-256 and the PDF in the study. `now` gives milliseconds since 1970 UTC. Where nothing can print, or printing
 * fails, the HTML is kept all the same, so that no work is lost, and then the fault is thrown: 'no-printer' where the
 * shell can't print at all. A study that can only be read rejects with 'read-only' and keeps nothing.
 */
export async function issueDossier(
  input: CallInput<'dossier.issue'>,
  {
    study,
    native,
    now,
    newId,
  }: { readonly study: StudyCalls; readonly native: Native; readonly now: () => number; readonly newId?: () => string },
): Promise<IssuedView> {
  const { view, html } = await renderDossier(study, input);
  const printed = input.pdf ? await print(native, html, input.paper) : { pdf: null, failure: null };
  const issuedAt = now();
  const issued = {
    id: newId === undefined ? uuidv7({ msecs: issuedAt }) : newId(),
    runnerId: input.runnerId,
    issuedAt,
    evaluatorName: view.evaluatorName,
    htmlSha256: createHash('sha256').update(html).digest('hex'),
    paper: input.paper,
  };
  await study.call('inner.keepIssued', { issued, madeFrom: view, html, pdf: printed.pdf });
  if (printed.failure !== null) throw printed.failure;
  return { ...issued, hasPdf: printed.pdf !== null };
}

/**
 * Makes an issued dossier's HTML again from what was kept with it: byte for byte the issued one, as long as the same
 * version of the program makes it. Rejects with 'not-found' for an unknown id, or when a still of it has since been
 * replaced in the study, since the HTML would then say that a still is missing which was printed.
 */
export async function reissueHtml(study: StudyCalls, id: string): Promise<string> {
  const source = await study.call('inner.issuedSource', { id });
  if (source === null) {
    throw new FaultError(
      faultOf('not-found', `There is no issued dossier ${id} in this study.`, 'Issue the dossier again.'),
    );
  }
  const { madeFrom, paper } = source;
  const stills = await stillsOf(study, madeFrom);
  const gone = madeFrom.evidence.find(({ stillId }) => stillId !== null && !stills.has(stillId));
  if (gone !== undefined) {
    const says = `The still of carry ${gone.number} that this dossier was printed with is no longer in the study.`;
    throw new FaultError(faultOf('not-found', says, 'The HTML kept when it was issued is whole: open that one.'));
  }
  return dossierHtml(madeFrom, paper, stills, dossierFonts());
}

async function stillsOf(study: StudyCalls, view: DossierView): Promise<ReadonlyMap<string, Uint8Array>> {
  const stills = new Map<string, Uint8Array>();
  for (const { stillId } of view.evidence) {
    if (stillId === null || stills.has(stillId)) continue;
    const jpeg = await study.call('inner.still', { stillId });
    if (jpeg !== null) stills.set(stillId, jpeg);
  }
  return stills;
}

async function print(
  native: Native,
  html: string,
  paper: Paper,
): Promise<{ readonly pdf: Uint8Array | null; readonly failure: unknown }> {
  if (native.printPdf === undefined) {
    const says =
      'A PDF was asked for, and there is nothing here that can print one: no desktop window and no installed browser of the Chromium family.';
    return {
      pdf: null,
      failure: new FaultError(
        faultOf('no-printer', says, 'The HTML is kept with the study: open it in any browser and print it from there.'),
      ),
    };
  }
  try {
    return { pdf: await native.printPdf(html, paper), failure: null };
  } catch (failure) {
    return { pdf: null, failure };
  }
}
