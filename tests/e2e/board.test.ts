import { join } from 'node:path';
import type { Browser } from 'playwright';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { plainChoice, savedBoards, type BoardChoice } from '../../src/contract/comparison-views.ts';
import { valueOf } from '../value-of.ts';
import { classOf } from '../host/study-of-class.ts';
import { axeFaults } from './axe.ts';
import { makeClassStudy } from './class-study.ts';
import { makeDesk, startProgram, type Program } from './program.ts';
import { sitDown, startBrowser, type Sitting } from './sitting.ts';

const figures = (chance: number): string => {
  const whole = Math.round(100 * chance);
  return whole >= 100 ? '>99' : whole <= 0 ? '<1' : String(whole);
};

describe('the Board', () => {
  const desk = makeDesk();
  const study = join(desk.folder, 'Class.creasebook');
  let browser: Browser;
  let program: Program;
  let sitting: Sitting;

  beforeAll(async () => {
    await makeClassStudy(study, {
      runners: 10,
      games: 3,
      carries: 10,
      spread: 0.8,
      by: (runner) => (runner === 9 ? [] : [runner === 5 ? classOf.other : classOf.one]),
    });
    program = await startProgram(desk, ['--study', study]);
    browser = await startBrowser();
    sitting = await sitDown(browser, program.address, { viewport: { width: 1280, height: 800 }, bypassCSP: true });
    await sitting.press('Alt+4');
    await settled();
  });
  afterAll(async () => {
    await sitting?.close();
    await browser?.close();
    await program?.stop();
    desk.clear();
  });

  /** Waits until the order is drawn and the slower parts are of the same weights. */
  async function settled(): Promise<void> {
    await sitting.page.locator('.board[data-settled="true"] .ranking').waitFor();
  }
  const shownRows = () =>
    sitting.page.locator('.ranking tbody tr').evaluateAll((rows) =>
      rows.map((row) => ({
        place: row.querySelector('.rank-place')?.textContent ?? '',
        name: row.querySelector('.rank-name')?.textContent ?? '',
        best: row.querySelector('.rank-best')?.textContent ?? '',
        strip: row.querySelector('.plot-strip')?.getAttribute('aria-label') ?? '',
      })),
    );
  /** The same rows out of the door's JSON. */
  async function asked(choice: Partial<BoardChoice>, evaluatorId: string | null = classOf.one) {
    const ranked = await sitting.call('board.rank', { evaluatorId, choice: { ...plainChoice, ...choice } });
    const { runners } = await sitting.call('directory.read', {});
    const name = (id: string): string => runners.find((runner) => runner.id === id)?.name ?? '';
    return valueOf(ranked.answer).rows.map(({ place, runner, best, score, low, high }) => ({
      place: String(place),
      name: name(runner),
      best: figures(best),
      strip: `${score.toFixed(1)}, 95 % interval ${low.toFixed(1)} to ${high.toFixed(1)}`,
    }));
  }

  it('says in its first line who is first and how sure that is', async () => {
    const [first] = await asked({});
    const line = await sitting.page.locator('.board-first').textContent();
    expect(line).toContain(first?.name);
    expect(line).toContain(`${first?.best} in 100`);
  });

  it('shows the numbers the door gives, the table of every place included', async () => {
    expect(await shownRows()).toEqual(await asked({}));
    await sitting.page.getByRole('button', { name: /The class in order.* as a table/ }).press('Enter');
    const cells = await sitting.page
      .getByRole('table', { name: 'Chance of each place in figures' })
      .locator('tbody tr')
      .evaluateAll((rows) => rows.map((row) => [...row.querySelectorAll('td')].map((cell) => cell.textContent)));
    const ranked = await sitting.call('board.rank', { evaluatorId: classOf.one, choice: plainChoice });
    expect(cells).toEqual(
      valueOf(ranked.answer).rows.map(({ score, low, high, expectedPlace, places }) => [
        score.toFixed(2),
        `${low.toFixed(2)}–${high.toFixed(2)}`,
        expectedPlace.toFixed(1),
        ...places.map((chance) => (100 * chance).toFixed(1)),
      ]),
    );
    await sitting.page.getByRole('button', { name: /The class in order.* as a chart/ }).press('Enter');
    const pairs = valueOf(ranked.answer).pairwise;
    await sitting.page.getByRole('button', { name: /Who is truly above whom.* as a table/ }).press('Enter');
    const square = await sitting.page
      .getByRole('table', { name: 'Pairwise chances in figures' })
      .locator('tbody tr')
      .evaluateAll((rows) => rows.map((row) => [...row.querySelectorAll('td')].map((cell) => cell.textContent)));
    expect(square).toEqual(pairs.map((row, y) => row.map((chance, x) => (x === y ? '·' : (100 * chance).toFixed(1)))));
    await sitting.page.getByRole('button', { name: /Who is truly above whom.* as a chart/ }).press('Enter');
  });

  it('has each runner’s results as his sheet gives them', async () => {
    const [first] = await asked({});
    const row = sitting.page.locator('.ranking tbody tr').first();
    const { runners } = await sitting.call('directory.read', {});
    const runnerId = runners.find(({ name }) => name === first?.name)?.id ?? '';
    const sheet = await sitting.call('sheet.read', { runnerId, evaluatorId: classOf.one });
    await expect.poll(() => row.textContent()).toContain(valueOf(sheet.success).rate.toFixed(3).replace(/^0/, ''));
    expect(await row.textContent()).toContain(valueOf(sheet.delta).mean.toFixed(1).replace('-', '−'));
  });

  it('answers a slider moved by keys with the board of those weights, and takes the rubric’s own back', async () => {
    const vision = sitting.page.getByRole('slider', { name: 'Vision' });
    await vision.focus();
    await sitting.press('Home');
    await settled();
    expect(await shownRows()).toEqual(await asked({ families: { vision: 0 } }));
    await sitting.press('End');
    await settled();
    const { rubric } = await sitting.call('board.read', { evaluatorId: classOf.one });
    const others = rubric.body.families.filter(({ key }) => key !== 'vision').map(({ key }) => [key, 0]);
    const only = await asked({ families: Object.fromEntries(others) });
    expect((await shownRows()).map(({ name }) => name)).toEqual(only.map(({ name }) => name));
    await sitting.page.locator('.board-first').click();
    await sitting.press('r');
    await settled();
    expect(await shownRows()).toEqual(await asked({}));
  });

  it('draws weights that are held loosely, and says by how much they vary', async () => {
    await sitting.page.getByLabel('Held').selectOption('20');
    await settled();
    expect(await shownRows()).toEqual(await asked({ concentration: 20 }));
    expect(await sitting.page.locator('.weight-note').textContent()).toContain('concentration 20');
    await sitting.page.getByLabel('Held').selectOption('null');
  });

  it('says beside each weight where another runner would be first', async () => {
    await settled();
    const view = valueOf((await sitting.call('board.rank', { evaluatorId: classOf.one, choice: plainChoice })).answer);
    const said = await sitting.page.locator('.weight-family > .board-weight .weight-swap').allTextContents();
    for (const [at, { swap }] of view.families.entries()) {
      if (swap.known) expect(said[at]).toContain(swap.value.change > 0 ? 'Above' : 'Below');
      else expect(said[at]).toBe('No value of it changes who is first.');
    }
    expect(await sitting.page.locator('.swap-mark').count()).toBe(
      [...view.families, ...view.traits].filter(({ swap }) => swap.known).length,
    );
  });

  it('sets thin runners apart with the reason, places them when asked, and filters', async () => {
    const apart = sitting.page.locator('.apart-list');
    expect(await apart.textContent()).toMatch(/Thin: his marks tell as much as/);
    await sitting.page.locator('.board-first').click();
    await sitting.press('t');
    await settled();
    const thin = await asked({ includeThin: true });
    expect((await shownRows()).map(({ name, best }) => [name, best])).toEqual(
      thin.map(({ name, best }) => [name, best]),
    );
    await sitting.press('t');
    await sitting.page.getByLabel('Class year').selectOption('junior');
    await settled();
    expect(await shownRows()).toEqual(await asked({ classYear: 'junior' }));
    await sitting.page.getByLabel('Class year').selectOption('');
    await settled();
  });

  it('keeps a board under a name in the study, shows it again after a restart of the window, and removes it', async () => {
    await sitting.page.getByLabel('Held').selectOption('60');
    await sitting.page.getByRole('checkbox', { name: 'games' }).check();
    await sitting.page.getByRole('button', { name: 'Save this board' }).click();
    await sitting.page.getByLabel('Name').fill('Loose weights');
    await sitting.press('Enter');
    await sitting.page.getByRole('button', { name: 'Remove Loose weights' }).waitFor();
    const kept = (await sitting.call('directory.read', {})).settings.find(({ id }) => id === 'boards');
    expect(savedBoards.parse(kept?.value)).toMatchObject([
      { name: 'Loose weights', choice: { concentration: 60 }, columns: ['success', 'delta', 'carries', 'games'] },
    ]);
    await sitting.page.waitForTimeout(600);
    await sitting.page.reload();
    await settled();
    expect(await shownRows()).toEqual(await asked({}));
    await sitting.page.getByLabel('Saved').selectOption({ label: 'Loose weights' });
    await settled();
    expect(await shownRows()).toEqual(await asked({ concentration: 60 }));
    await sitting.page.getByRole('button', { name: 'Remove Loose weights' }).click();
    await sitting.page.getByRole('button', { name: 'Save this board' }).waitFor();
    expect((await sitting.call('directory.read', {})).settings.some(({ id }) => id === 'boards')).toBe(false);
    await sitting.page.getByLabel('Held').selectOption('null');
    await settled();
  });

  it('says not comparable in words for evaluators who share no carry, and offers one’s own marks', async () => {
    await sitting.page.getByLabel('Marks by').selectOption('all');
    const none = sitting.page.getByRole('region', { name: 'No order' });
    await none.waitFor();
    expect(await none.textContent()).toContain('(R. Amari; T. Osgaard)');
    expect(await axeFaults(sitting.page)).toEqual([]);
    await none.getByRole('button', { name: 'Only my marks' }).click();
    await settled();
  });

  it.each(['dark', 'light'] as const)('has no fault that axe-core can find: %s', async (theme) => {
    await sitting.page.evaluate((name) => (document.documentElement.dataset['theme'] = name), theme);
    for (const details of await sitting.page.locator('.weights summary').all()) await details.click();
    expect(await axeFaults(sitting.page)).toEqual([]);
    for (const details of await sitting.page.locator('.weights summary').all()) await details.click();
    const table = sitting.page.getByRole('button', { name: /The class in order.* as a/ });
    await table.click();
    expect(await axeFaults(sitting.page)).toEqual([]);
    await table.click();
  });

  it('prints the order without its controls, black on white', async () => {
    await sitting.page.emulateMedia({ media: 'print' });
    expect(await sitting.page.locator('.ranking').isVisible()).toBe(true);
    expect(await sitting.page.locator('.room-head').isVisible()).toBe(false);
    expect(await sitting.page.getByRole('slider').first().isVisible()).toBe(false);
    const [ground, ink] = await sitting.page.evaluate(() => {
      const name = document.querySelector('.rank-name');
      return [getComputedStyle(document.body).backgroundColor, name === null ? '' : getComputedStyle(name).color];
    });
    expect([ground, ink]).toEqual(['rgb(255, 255, 255)', 'rgb(0, 0, 0)']);
    await sitting.page.emulateMedia({ media: 'screen' });
  });

  it('opens what to watch next on the Stage, a runner’s Sheet, and two picked runners side by side', async () => {
    const next = valueOf(await sitting.call('board.watchNext', { evaluatorId: classOf.one }));
    await sitting.page.locator('.watch-list button').first().click();
    await sitting.page.locator('main[aria-label="stage"]').waitFor();
    expect(next[0]?.playId).toBeDefined();
    await sitting.press('Alt+4');
    await settled();
    const rows = await shownRows();
    await sitting.page.getByRole('button', { name: rows[1]?.name ?? '', exact: true }).click();
    await expect
      .poll(() => sitting.page.getByLabel('Runner').first().locator('option:checked').textContent())
      .toBe(rows[1]?.name);
    await sitting.press('Alt+4');
    await settled();
    await sitting.page.getByLabel(`Compare ${rows[0]?.name}`).check();
    await sitting.page.getByLabel(`Compare ${rows[2]?.name}`).check();
    await sitting.page.locator('.board-first').click();
    await sitting.press('c');
    const side = (label: string) => sitting.page.getByLabel(label).locator('option:checked').textContent();
    await expect.poll(() => side('Runner on the left')).toBe(rows[0]?.name);
    expect(await side('Runner on the right')).toBe(rows[2]?.name);
  });

  it('never complains and never asks a stranger', () => {
    expect(sitting.complaints).toEqual([]);
    expect(sitting.strangers).toEqual([]);
  });
});
