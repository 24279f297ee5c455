import { createHash } from 'node:crypto';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { faultOf, FaultError } from '../../../src/contract/faults.ts';
import { issueDossier, reissueHtml, renderDossier } from '../../../src/host/exports/issue-dossier.ts';
import type { Native } from '../../../src/host/native.ts';
import type { StudyClient } from '../../../src/host/study/client.ts';
import { textOf } from '../../pages/text-of.ts';
import { ids, studyWithDossier } from './study-with-dossier.ts';

const asked = { runnerId: ids.runner, evaluatorId: ids.evaluator, paper: 'A4', pdf: false } as const;
const now = () => Date.UTC(2026, 10, 14, 12);

const faultOfCall = async (call: Promise<unknown>) => {
  const cause = await call.then(
    () => null,
    (failure: unknown) => failure,
  );
  return cause instanceof FaultError ? cause.fault : cause;
};

describe('an issued dossier', () => {
  let folder = '';
  let study: StudyClient;
  const log: string[] = [];
  const issue = (input: Parameters<typeof issueDossier>[0], native: Native = {}) =>
    issueDossier(input, { study, native, now });

  beforeEach(async () => {
    folder = mkdtempSync(join(tmpdir(), 'creasebook-issue-test-'));
    study = await studyWithDossier(join(folder, 'class.creasebook'), (line) => log.push(line));
  });
  afterEach(async () => {
    await study.close();
    rmSync(folder, { recursive: true, force: true });
    expect(log.splice(0)).toEqual([]);
  });

  it('is kept with what it was made from, and re-made from that byte for byte', async () => {
    const issued = await issue(asked);
    const kept = await study.call('inner.issuedFile', { id: issued.id, kind: 'html' });
    const html = Buffer.from(kept ?? []).toString('utf8');
    expect(issued).toEqual({
      ...issued,
      runnerId: ids.runner,
      issuedAt: now(),
      evaluatorName: 'R. Amari',
      paper: 'A4',
      hasPdf: false,
    });
    expect(createHash('sha256').update(html).digest('hex')).toBe(issued.htmlSha256);
    expect(await reissueHtml(study, issued.id)).toBe(html);
    expect(await study.call('dossier.issued', { runnerId: ids.runner })).toEqual([issued]);
  });

  it('stays what it was when the study goes on', async () => {
    const issued = await issue(asked);
    await study.call('change.make', {
      by: ids.evaluator,
      label: 'Second thoughts',
      steps: [{ do: 'set', table: 'writeup', id: ids.writeup, set: { role: 'Third back.' } }],
    });
    const again = await reissueHtml(study, issued.id);
    expect(again).not.toContain('Third back.');
    expect(createHash('sha256').update(again).digest('hex')).toBe(issued.htmlSha256);
    expect((await renderDossier(study, asked)).html).toContain('Third back.');
  });

  it('has the still that is kept with its chalk, and says in words which is missing and why', async () => {
    const { html } = await renderDossier(study, asked);
    expect(html.match(/<img[^>]* src="data:image\/jpeg;base64,/g)).toHaveLength(1);
    expect(textOf(html)).toContain('the crease');
    expect(textOf(html)).toMatch(/The film coldwater\.mp4 was not found .* frame 250/);
    expect(textOf(html)).toContain('Takes what is there. carries 2 · against: 1');
  });

  it('has its PDF beside it when one is printed', async () => {
    const pages: string[] = [];
    const printPdf = async (html: string, paper: string) => {
      pages.push(`${paper} ${html.length}`);
      return new Uint8Array([37, 80, 68, 70]);
    };
    const issued = await issue({ ...asked, paper: 'Letter', pdf: true }, { printPdf });
    expect(issued.hasPdf).toBe(true);
    expect(pages).toEqual([expect.stringMatching(/^Letter \d+$/)]);
    expect(Buffer.from((await study.call('inner.issuedFile', { id: issued.id, kind: 'pdf' })) ?? []).toString()).toBe(
      '%PDF',
    );
  });

  it('keeps the HTML and says what to do where nothing can print', async () => {
    const fault = await faultOfCall(issue({ ...asked, pdf: true }));
    expect(fault).toMatchObject({ fault: 'no-printer', next: expect.stringContaining('The HTML is kept') });
    const [kept] = await study.call('dossier.issued', { runnerId: ids.runner });
    expect(kept).toMatchObject({ hasPdf: false });
    expect(await reissueHtml(study, kept?.id ?? '')).toContain('Takes what is there.');
  });

  it('keeps the HTML when printing fails, and passes the fault on', async () => {
    const broken = faultOf('no-printer', 'The browser could not print: it is gone.', 'Install it again.');
    const printPdf = async () => Promise.reject(new FaultError(broken));
    expect(await faultOfCall(issue({ ...asked, pdf: true }, { printPdf }))).toEqual(broken);
    expect(await study.call('dossier.issued', { runnerId: ids.runner })).toHaveLength(1);
  });

  it('is not re-made with a still missing that it was printed with, when another has taken its place', async () => {
    const issued = await issue(asked);
    const other = readFileSync(new URL('../../pages/stills/still-2.jpg', import.meta.url)).toString('base64');
    await study.call('still.put', { filmId: ids.film, frame: 150, jpegBase64: other });
    expect(await faultOfCall(reissueHtml(study, issued.id))).toMatchObject({
      fault: 'not-found',
      says: expect.stringContaining('carry 2'),
    });
  });

  it('is refused for a runner or a dossier that is not there, and nothing is kept', async () => {
    expect(await faultOfCall(issue({ ...asked, runnerId: ids.film }))).toMatchObject({ fault: 'not-found' });
    expect(await faultOfCall(reissueHtml(study, ids.film))).toMatchObject({ fault: 'not-found' });
    expect(await study.call('dossier.issued', { runnerId: null })).toEqual([]);
  });
});
