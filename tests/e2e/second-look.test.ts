import { copyFileSync, mkdirSync, symlinkSync } from 'node:fs';
import { join } from 'node:path';
import type { Browser, Response } from 'playwright';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { secondLookOf } from '../../src/contract/second-look-views.ts';
import { openStudy } from '../../src/host/study/study.ts';
import { valueOf } from '../value-of.ts';
import { axeFaults } from './axe.ts';
import { demoFolder } from './demo-season.ts';
import { makeDesk, startProgram, type Program } from './program.ts';
import { sitDown, startBrowser, type Sitting } from './sitting.ts';

describe('Second look on the demo study', () => {
  const desk = makeDesk();
  const path = join(desk.folder, 'demo.creasebook');
  let browser: Browser;
  let program: Program;
  let sitting: Sitting;
  let answers: { readonly url: string; readonly body: string }[] = [];
  /** Rows' ids of every mark that stood before the sitting: none of them may reach a page that looks blind. */
  let earlier: readonly string[] = [];
  let compared: readonly string[] = [];
  let evaluatorId = '';

  beforeAll(async () => {
    mkdirSync(desk.folder, { recursive: true });
    copyFileSync(join(demoFolder, 'demo.creasebook'), path);
    symlinkSync(join(demoFolder, 'films'), join(desk.folder, 'films'));
    const study = openStudy(path, { readOnly: true, now: Date.now });
    evaluatorId = study.rows.all('evaluator').find(({ name }) => name === 'R. Amari')?.id ?? '';
    earlier = study.rows.all('mark').map(({ id }) => id);
    study.close();
    program = await startProgram(desk, ['--study', path, '--folder', demoFolder]);
    browser = await startBrowser();
    sitting = await sitDown(browser, program.address, { viewport: { width: 1280, height: 800 }, bypassCSP: true });
    sitting.page.on('response', (response: Response) => {
      if (!response.url().includes('/call/')) return;
      void response.text().then(
        (body) => answers.push({ url: response.url(), body }),
        () => undefined,
      );
    });
  });
  afterAll(async () => {
    await sitting?.close();
    await browser?.close();
    await program?.stop();
    desk.clear();
  });

  /** Everything reachable in the page, as the browser's own heap writes it out after a collection. */
  async function pageMemory(): Promise<string> {
    const session = await sitting.page.context().newCDPSession(sitting.page);
    const chunks: string[] = [];
    session.on('HeapProfiler.addHeapSnapshotChunk', ({ chunk }) => chunks.push(chunk));
    await session.send('HeapProfiler.collectGarbage');
    await session.send('HeapProfiler.takeHeapSnapshot', { reportProgress: false });
    await session.detach();
    return chunks.join('');
  }
  const looks = async () => {
    const { settings } = await sitting.call('directory.read', {});
    return settings.flatMap((setting) => secondLookOf(setting) ?? []);
  };
  const marksNow = async () => {
    const [look] = await looks();
    return look === undefined ? [] : sitting.call('secondLook.given', { lookId: look.id, evaluatorId });
  };

  it('tells how far the two looks agree with interval and n, the same as the door', async () => {
    await sitting.press('Alt+6');
    const line = sitting.page.locator('.look-headline');
    await line.waitFor();
    const view = await sitting.call('secondLook.agreement', { evaluatorId });
    const own = view.comparisons[0];
    compared = view.comparisons.flatMap(({ differences }) => differences.map(({ partId }) => partId));
    const { value, low, high, n } = valueOf(own?.kappa);
    const label = await sitting.page
      .getByRole('img', { name: /^Kappa: / })
      .first()
      .getAttribute('aria-label');
    expect(label).toBe(`Kappa: ${value.toFixed(2)}, 95 % interval ${low.toFixed(2)} to ${high.toFixed(2)}, ${n} pairs`);
    expect(await line.textContent()).toContain('R. Amari gave');
  });

  it('is clean by axe in both themes, and opens a difference on the Stage', async () => {
    for (const theme of ['dark', 'light']) {
      await sitting.page.evaluate((name) => (document.documentElement.dataset['theme'] = name), theme);
      expect(await axeFaults(sitting.page)).toEqual([]);
      if (process.env['PICTURES'] !== undefined)
        await sitting.page.screenshot({ path: join(process.env['PICTURES'], `agreement-${theme}.png`) });
    }
    await sitting.page.evaluate(() => (document.documentElement.dataset['theme'] = 'dark'));
    await sitting.page.getByRole('region', { name: 'Differences' }).getByRole('button').first().focus();
    await sitting.press('Enter');
    await sitting.page.locator('main[aria-label="stage"] .marks-line').waitFor();
    // The Stage has every mark in the page now: the blind look that follows has to put it away.
    const memory = await pageMemory();
    expect(earlier.filter((id) => memory.includes(id)).length).toBeGreaterThan(100);
  });

  it('draws a blind sample by keyboard and keeps it in the study', async () => {
    await sitting.press('Alt+6');
    await sitting.page.locator('.look-headline').waitFor();
    await sitting.page.getByLabel('how many').focus();
    await sitting.press('ControlOrMeta+a');
    await sitting.type('3');
    answers = [];
    await sitting.press('Enter');
    await sitting.page.locator('.blind-traits').waitFor();
    const [look] = await looks();
    expect(look).toMatchObject({ evaluatorId, whoseId: evaluatorId, days: 14, finishedAt: null });
    expect(look?.parts).toHaveLength(3);
    await expect.poll(() => sitting.page.locator('.look-film canvas').getAttribute('data-frame')).not.toBeNull();
  });

  it('marks by letter and figure at an exact frame, with the look’s own id', async () => {
    const frame = async () => Number(await sitting.page.locator('.look-film canvas').getAttribute('data-frame'));
    const before = await frame();
    await sitting.press('ArrowRight', 'ArrowRight');
    await expect.poll(frame).toBe(before + 2);
    await sitting.press('p');
    expect(await sitting.page.getByRole('group', { name: 'Mark Press' }).getByRole('listitem').count()).toBe(6);
    await sitting.press('4', '.', 't', '0', 'c', '-');
    await expect
      .poll(async () => (await marksNow()).map(({ trait, state, value }) => [trait, state, value]))
      .toEqual([
        ['press', 'shown', 4.5],
        ['tempo', 'not shown', null],
        ['crease', 'unseen', null],
      ]);
    await sitting.press('ArrowDown');
    await sitting.page.getByText('Carry 2 of 3').waitFor();
    await sitting.page.locator('.blind-traits').waitFor();
    await sitting.press('p', '3');
    await expect.poll(async () => (await marksNow()).length).toBe(4);
    for (const theme of ['dark', 'light']) {
      await sitting.page.evaluate((name) => (document.documentElement.dataset['theme'] = name), theme);
      await sitting.press('t');
      expect(await axeFaults(sitting.page)).toEqual([]);
      if (process.env['PICTURES'] !== undefined)
        await sitting.page.screenshot({ path: join(process.env['PICTURES'], `blind-${theme}.png`) });
      await sitting.press('Escape');
    }
    await sitting.page.evaluate(() => (document.documentElement.dataset['theme'] = 'dark'));
  });

  it('had no earlier mark in any answer while blind, and has none in the page’s memory', async () => {
    const told = answers.filter(({ body }) => earlier.some((id) => body.includes(id))).map(({ url }) => url);
    expect(answers.length).toBeGreaterThan(5);
    expect(told).toEqual([]);
    // What tells marks without their ids is not asked either.
    const judging = /call\/(stage\.game|sheet|board|sideBySide|dossier\.read|change\.history|secondLook\.agreement)/;
    expect(answers.filter(({ url }) => judging.test(url)).map(({ url }) => url)).toEqual([]);
    const carry = answers.filter(({ url }) => url.endsWith('secondLook.carry')).map(({ body }) => body);
    expect(carry).toHaveLength(2);
    for (const word of ['"gain"', '"note"', '"result"', '"value":{"mark', '"holding', '"trait"'])
      expect(carry.filter((body) => body.includes(word))).toEqual([]);
    const memory = await pageMemory();
    expect(memory.length).toBeGreaterThan(100_000);
    expect(earlier.filter((id) => memory.includes(id))).toEqual([]);
    // Agreement, shown before the draw, names the carries it compares: of these only the drawn ones may be left.
    const [look] = await looks();
    expect(compared.length).toBeGreaterThan(3);
    expect(compared.filter((id) => memory.includes(id) && look?.parts.includes(id) !== true)).toEqual([]);
  });

  it('is left and found again where it stood, and shows its carries’ agreement only when finished', async () => {
    const [look] = await looks();
    await sitting.press('Escape');
    await sitting.page.getByText('2 marked').waitFor();
    const open = await sitting.call('secondLook.agreement', { evaluatorId });
    expect(open.leftOut).toBe(3);
    expect(open.comparisons.flatMap(({ differences }) => differences).map(({ partId }) => partId)).not.toContain(
      look?.parts[0],
    );
    await sitting.page.getByRole('button', { name: 'Go on' }).focus();
    await sitting.press('Enter');
    await sitting.page.getByText('Carry 3 of 3').waitFor();
    await sitting.page.getByRole('button', { name: 'Finish the look' }).focus();
    await sitting.press('Enter');
    await sitting.page.getByText(/finished .*, 2 marked/).waitFor();
    expect((await sitting.call('secondLook.agreement', { evaluatorId })).leftOut).toBe(0);
  });

  it('never complains and never asks a stranger', () => {
    expect(sitting.complaints).toEqual([]);
    expect(sitting.strangers).toEqual([]);
  });
});
