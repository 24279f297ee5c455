import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { AxeResults } from 'axe-core';
import type { Browser } from 'playwright';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { copyDemoStudy } from './demo-season.ts';
import { settled } from './film-on-screen.ts';
import { makeDesk, startProgram, type Program } from './program.ts';
import { sitDown, startBrowser, type Sitting } from './sitting.ts';

const axe = readFileSync(join(import.meta.dirname, '../../node_modules/axe-core/axe.min.js'), 'utf8');

describe.each(['dark', 'light'] as const)('the window in its %s theme, read by axe for WCAG 2.2 AA', (theme) => {
  const desk = makeDesk();
  let browser: Browser;
  let program: Program;
  let sitting: Sitting;

  beforeAll(async () => {
    program = await startProgram(desk, ['--study', copyDemoStudy(desk.folder)]);
    browser = await startBrowser();
    sitting = await sitDown(browser, program.address);
    await sitting.call('preferences.write', { set: { theme } });
    await sitting.page.addInitScript({ content: axe });
    await sitting.page.reload();
    await settled(sitting.page);
    expect(await sitting.page.evaluate(() => document.documentElement.dataset['theme'])).toBe(theme);
  });
  afterAll(async () => {
    await browser?.close();
    await program?.stop();
    desk.clear();
  });

  /** What axe finds in the window as it stands: rule, element and what is wrong, one a line. */
  async function found(): Promise<string[]> {
    const results = await sitting.page.evaluate(async () => {
      const { axe } = globalThis as unknown as { axe: { run: (where: Document, how: object) => Promise<AxeResults> } };
      return axe.run(document, {
        runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'],
      });
    });
    return results.violations.flatMap(({ id, nodes }) =>
      nodes.map((node) => `${id}: ${node.target.join(' ')}: ${node.failureSummary?.replaceAll(/\s+/g, ' ') ?? ''}`),
    );
  }

  it('finds nothing in any room', { timeout: 120_000 }, async () => {
    const { page } = sitting;
    const rooms = page.getByRole('navigation', { name: 'Rooms' }).getByRole('button');
    const all: Record<string, string[]> = {};
    for (let room = 0; room < (await rooms.count()); room += 1) {
      const name = await rooms.nth(room).innerText();
      await rooms.nth(room).click();
      await page.waitForTimeout(400);
      const here = await found();
      if (here.length > 0) all[name] = here;
    }
    expect(all).toEqual({});
  });

  it('finds nothing in the Stage at work: a blank with trouble, a trait being marked, two angles, plays together', async () => {
    const { page } = sitting;
    await page.keyboard.press('Alt+1');
    await page.locator('.strip [data-play] .hit').first().click();
    const all: Record<string, string[]> = {};
    const look = async (name: string): Promise<void> => {
      const here = await found();
      if (here.length > 0) all[name] = here;
    };
    await page.locator('.sentence input[name="concept"]').focus();
    await look('a blank with its choices');
    await page.locator('.sentence input[name="spot"]').focus();
    await page.keyboard.type('103');
    await page.keyboard.press('Tab');
    await page.locator('.blank-hint.trouble').waitFor();
    await look('a blank with trouble');
    await page.keyboard.press('Escape');
    await page.waitForFunction(() => document.activeElement?.matches('input') !== true);
    await page.keyboard.press('p');
    await page.locator('.anchors').waitFor();
    await look('a trait being marked');
    await page.keyboard.press('Escape');
    await page.keyboard.press('h');
    await page.keyboard.press('Shift+ArrowDown');
    await page.locator('.together').waitFor();
    await look('two angles and plays together');
    await page.keyboard.press('Escape');
    await page.keyboard.press('h');
    await page.keyboard.press('q');
    await look('every blank');
    await page.keyboard.press('q');
    expect(all).toEqual({});
  });

  it('finds nothing in any dialog', async () => {
    const { page } = sitting;
    await page.keyboard.press('Alt+1');
    await page.locator('.stage').waitFor();
    const all: Record<string, string[]> = {};
    const look = async (name: string): Promise<void> => {
      await page.getByRole('dialog').last().waitFor();
      const here = await found();
      if (here.length > 0) all[name] = here;
      await page.keyboard.press('Escape');
      await page.getByRole('dialog').waitFor({ state: 'detached' });
    };
    const byName = async (action: string): Promise<void> => {
      await page.keyboard.press('Control+k');
      await page.getByPlaceholder('A runner, a game, something to do').fill(action);
      await page.keyboard.press('Enter');
    };
    await page.keyboard.press('Control+k');
    await look('palette');
    await page.keyboard.press('?');
    await look('keys');
    await page.keyboard.press('Shift+H');
    await look('history');
    for (const action of ['Add a game', 'Add a film', 'Open or make another study']) {
      await byName(action);
      await look(action);
    }
    expect(all).toEqual({});
  });
});
