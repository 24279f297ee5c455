import { join } from 'node:path';
import type { Browser } from 'playwright';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { StageGame } from '../../src/contract/calls.ts';
import { makeTestFilm } from '../../scripts/make-test-film.ts';
import { frameSaid, numberInPicture, settled } from './film-on-screen.ts';
import { makeDesk, startProgram, type Program } from './program.ts';
import { sitDown, startBrowser, type Sitting } from './sitting.ts';

/** The mouse is never used here: every step is a key, and what has the focus is found as a person finds it, by Tab. */
describe('the work from film to marks by keyboard alone', () => {
  const desk = makeDesk();
  let browser: Browser;
  let program: Program;
  let sitting: Sitting;

  beforeAll(async () => {
    await makeTestFilm('h264 29.97', join(desk.folder, 'coded.mp4'), 200);
    program = await startProgram(desk, []);
    browser = await startBrowser();
    sitting = await sitDown(browser, program.address);
  });
  afterAll(async () => {
    await browser?.close();
    await program?.stop();
    desk.clear();
  });

  async function game(): Promise<StageGame> {
    const { games } = await sitting.call('directory.read', {});
    return sitting.call('stage.game', { gameId: games[0]?.id ?? '' });
  }

  /** Presses Tab until the control with these words has the focus. */
  async function tabTo(words: string): Promise<void> {
    const { page } = sitting;
    for (let turn = 0; turn < 60; turn += 1) {
      const here = await page.evaluate(() => {
        const at = document.activeElement;
        if (!(at instanceof HTMLElement)) return '';
        const label = 'labels' in at ? [...(at.labels as NodeListOf<HTMLElement>)].map((one) => one.textContent) : [];
        return [at.getAttribute('aria-label') ?? '', ...label, at.matches('button, a') ? at.textContent : '']
          .join(' ')
          .trim();
      });
      if (here.startsWith(words)) return;
      await page.keyboard.press('Tab');
    }
    throw new Error(`Tab never came to “${words}”.`);
  }

  /** Finds an action by name and does it. */
  async function doByName(action: string): Promise<void> {
    const { page } = sitting;
    await page.keyboard.press('Control+k');
    const input = page.locator('[cmdk-input]');
    await input.waitFor();
    await expect.poll(() => input.evaluate((one) => one === document.activeElement)).toBe(true);
    await page.keyboard.type(action);
    const item = page.locator('[cmdk-item]', { hasText: action }).first();
    await item.waitFor();
    for (let turn = 0; turn < 5 && (await item.getAttribute('data-selected')) !== 'true'; turn += 1) {
      await page.keyboard.press('ArrowDown');
      await page.waitForTimeout(50);
    }
    await page.keyboard.press('Enter');
  }

  async function goTo(frame: number): Promise<void> {
    const { page } = sitting;
    const away = frame - (await settled(page));
    const way = away > 0 ? 'Right' : 'Left';
    for (let tens = Math.floor(Math.abs(away) / 10); tens > 0; tens -= 1)
      await page.keyboard.press(`Shift+Arrow${way}`);
    for (let ones = Math.abs(away) % 10; ones > 0; ones -= 1) await page.keyboard.press(`Arrow${way}`);
    await expect.poll(() => frameSaid(page)).toBe(frame);
  }

  const folder = (): string => desk.folder.split('/').at(-1) ?? '';

  it('makes the study, the game and the film of it', async () => {
    const { page } = sitting;
    await doByName('Open or make another study');
    await tabTo('Name of a new study');
    await page.keyboard.press('Control+a');
    await page.keyboard.type('By hand');
    await tabTo('Your name, as evaluator');
    await page.keyboard.type('N. Halvorsen');
    await tabTo('Make it in a folder');
    await page.keyboard.press('Enter');
    await page.getByText('Folder for the new study').waitFor();
    await tabTo(folder());
    await page.keyboard.press('Enter');
    await page.locator('.file-folder', { hasText: folder() }).waitFor();
    await tabTo('Use this folder');
    await page.keyboard.press('Enter');
    await page.getByText('No game is in this study yet').waitFor();
    await doByName('Add a game');
    for (const [label, words] of [
      ['Away team', 'Marlow State'],
      ['Home team', 'Tannis Ford'],
      ['Runner', 'Ilya Quent'],
    ] as const) {
      await tabTo(label);
      await page.keyboard.type(words);
    }
    await page.keyboard.press('Enter');
    await page.getByText('No film yet').waitFor();
    await doByName('Add a film');
    await tabTo(folder());
    await page.keyboard.press('Enter');
    await page.locator('.file-folder', { hasText: folder() }).waitFor();
    await tabTo('coded.mp4');
    await page.keyboard.press('Enter');
    await page.locator('.film canvas[data-frame]').waitFor();
    expect(await settled(page)).toBe(0);
  });

  it('cuts a play, and attaches a replay to it', async () => {
    const { page } = sitting;
    await goTo(20);
    await page.keyboard.press('i');
    await goTo(90);
    await page.keyboard.press('o');
    await expect.poll(() => page.evaluate(() => document.activeElement?.getAttribute('name'))).toBe('down');
    await page.keyboard.press('Escape');
    await page.waitForFunction(() => document.activeElement?.matches('input') !== true);
    await goTo(120);
    await page.keyboard.press('i');
    await goTo(180);
    await page.keyboard.press('Alt+o');
    await expect
      .poll(async () => (await game()).spans.map(({ kind, inFrame, outFrame }) => [kind, inFrame, outFrame]))
      .toEqual([
        ['live', 20, 90],
        ['replay', 120, 180],
      ]);
    expect((await game()).plays).toHaveLength(1);
  });

  it('charts the play down to who made first contact, folding and unfolding the sentence', async () => {
    const { page } = sitting;
    await page.keyboard.press('q');
    await page.keyboard.press('e');
    for (const [name, text] of [
      ['down', '1'],
      ['to go', '10'],
      ['spot', 'o40'],
      ['hash', 'm'],
      ['backs', '1'],
      ['tight ends', '2'],
      ['motion', 'none'],
      ['concept', 'o'],
      ['direction', 'r'],
      ['gap', 'c'],
      ['hit', 'd'],
      ['path', 'o'],
      ['box', '7'],
      ['pressure', 's'],
      ['point of attack', 'w'],
      ['gain', '11'],
      ['contact at', '4'],
      ['contact by', 'corner'],
      ['missed tackles', '1'],
    ] as const) {
      await tabTo(name);
      await page.keyboard.type(text);
    }
    await page.keyboard.press('Tab');
    await page.keyboard.press('Escape');
    await page.waitForFunction(() => document.activeElement?.matches('input') !== true);
    await page.keyboard.press('q');
    await expect.poll(async () => (await game()).parts[0]?.missedTackles).toBe(1);
    const { plays, parts } = await game();
    expect(plays[0]).toMatchObject({
      down: 1,
      toGo: 10,
      spot: 60,
      hash: 'middle',
      backs: 1,
      tightEnds: 2,
      motion: 'none',
      concept: 'outside zone',
      scheme: 'zone',
      direction: 'right',
      designedGap: 'C',
      box: 7,
      pressure: 'slant',
      gain: 11,
    });
    expect(parts[0]).toMatchObject({
      hitGap: 'D',
      path: 'bounce',
      pointOfAttack: 'won',
      gain: 11,
      contactAt: 4,
      contactBy: 'corner',
    });
  });

  it('tags moments and feet on exact frames, and goes from one to the next', async () => {
    const { page } = sitting;
    // The replay was attached last; the live span comes first.
    if ((await settled(page)) > 90) await page.keyboard.press('g');
    for (const [key, frame] of [
      ['1', 25],
      ['2', 38],
      ['z', 41],
      ['x', 47],
      ['8', 60],
    ] as const) {
      await goTo(frame);
      await settled(page);
      expect(await numberInPicture(page)).toBe(frame);
      await page.keyboard.press(key);
    }
    await expect
      .poll(async () => (await game()).moments.map(({ name, frame }) => [name, frame]))
      .toEqual([
        ['snap', 25],
        ['exchange', 38],
        ['first contact', 60],
      ]);
    await expect
      .poll(async () => (await game()).steps.map(({ foot, frame }) => [foot, frame]))
      .toEqual([
        ['left', 41],
        ['right', 47],
      ]);
    for (const frame of [47, 41, 38, 25]) {
      await page.keyboard.press(',');
      await expect.poll(() => frameSaid(page)).toBe(frame);
    }
    await page.keyboard.press(';');
    await expect.poll(() => frameSaid(page)).toBe(38);
  });

  it('marks traits, sets the view’s clearness and the flag to come back', async () => {
    const { page } = sitting;
    await page.keyboard.press('v');
    await expect.poll(async () => (await game()).spans[0]?.clearness).toBe('partial');
    for (const key of ['p', '4', '.', 'u', '3', 'w']) await page.keyboard.press(key);
    await expect.poll(async () => (await game()).parts[0]?.comeBack).toBe(true);
    expect((await game()).marks.map(({ trait, value, clearness }) => [trait, value, clearness])).toEqual([
      ['press', 4.5, 'partial'],
      ['cut', 3, 'partial'],
    ]);
  });

  it('complained of nothing on the way, and asked nobody else', () => {
    expect(sitting.complaints).toEqual([]);
    expect(sitting.strangers).toEqual([]);
  });
});
