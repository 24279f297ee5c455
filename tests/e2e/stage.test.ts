import type { Browser, Locator } from 'playwright';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Directory, StageGame } from '../../src/contract/calls.ts';
import type { Play, Span } from '../../src/contract/rows.ts';
import { copyDemoStudy } from './demo-season.ts';
import { frameSaid, settled } from './film-on-screen.ts';
import { makeDesk, startProgram, type Program } from './program.ts';
import { sitDown, startBrowser, type Sitting } from './sitting.ts';

/** A play that two angles show, both with a snap. */
type TwoAngles = {
  readonly play: Play;
  readonly spans: readonly [Span, Span];
  readonly snaps: readonly [number, number];
};

describe('the Stage on the demo season', () => {
  const desk = makeDesk();
  let browser: Browser;
  let program: Program;
  let sitting: Sitting;
  let directory: Directory;

  const game = (): Promise<StageGame> => sitting.call('stage.game', { gameId: directory.games[0]?.id ?? '' });
  const bars = (): Locator => sitting.page.locator('.strip [data-play]');
  const chosen = (): Promise<string | null> =>
    sitting.page.locator('.strip [data-play][aria-selected="true"]').first().getAttribute('data-play');
  const foot = (): Promise<string> => sitting.page.locator('.strip-foot').innerText();
  /** Takes the focus back to the window, so that keys are the Stage's. */
  const leave = (): Promise<void> =>
    sitting.page.evaluate(() =>
      document.activeElement instanceof HTMLElement ? document.activeElement.blur() : undefined,
    );

  beforeAll(async () => {
    program = await startProgram(desk, ['--study', copyDemoStudy(desk.folder)]);
    browser = await startBrowser();
    sitting = await sitDown(browser, program.address);
    directory = await sitting.call('directory.read', {});
    await bars().first().waitFor();
    await sitting.page.getByRole('combobox', { name: 'Game' }).selectOption(directory.games[0]?.id ?? '');
    await leave();
  });
  afterAll(async () => {
    await browser?.close();
    await program?.stop();
    desk.clear();
  });

  async function choose(playId: string): Promise<void> {
    await sitting.page.locator(`.strip [data-play="${playId}"] .hit`).click();
    await expect.poll(chosen).toBe(playId);
    await settled(sitting.page);
  }

  async function twoAngles(): Promise<TwoAngles> {
    const { plays, spans, moments } = await game();
    const snapOf = (span: Span): number | undefined =>
      moments.find(({ spanId, name }) => spanId === span.id && name === 'snap')?.frame;
    for (const play of plays) {
      const own = spans.filter(({ playId, kind }) => playId === play.id && kind === 'live');
      const [one, two] = [own.find(({ angle }) => angle === 'sideline'), own.find(({ angle }) => angle === 'end zone')];
      if (one === undefined || two === undefined) continue;
      const [first, second] = [snapOf(one), snapOf(two)];
      if (first !== undefined && second !== undefined) return { play, spans: [one, two], snaps: [first, second] };
    }
    throw new Error('The demo has no play that two angles show.');
  }

  it('chooses a play by a click on its bar, and the next and last by arrow', async () => {
    const { plays } = await game();
    const [first, second] = plays;
    await choose(first?.id ?? '');
    await sitting.page.keyboard.press('ArrowDown');
    await expect.poll(chosen).toBe(second?.id);
    await sitting.page.keyboard.press('ArrowUp');
    await expect.poll(chosen).toBe(first?.id);
    expect(await foot()).toContain(`${plays.length} plays`);
  });

  it('filters by words and by any figure, says when nothing fits, and steps only through what does', async () => {
    const { page } = sitting;
    const { plays, parts } = await game();
    await page.keyboard.press('/');
    const filter = page.getByRole('searchbox', { name: 'Filter plays' });
    expect(await filter.evaluate((input) => input === document.activeElement)).toBe(true);
    await filter.fill('power');
    const power = plays.filter(({ concept }) => concept === 'power');
    expect(await foot()).toContain(`${power.length} of ${plays.length} plays`);
    const gains = plays.filter(({ id, gain }) => (parts.find(({ playId }) => playId === id)?.gain ?? gain ?? 0) >= 5);
    await filter.fill('gain >= 5');
    expect(await foot()).toContain(`${gains.length} of ${plays.length} plays`);
    await filter.fill('safety on the moon');
    expect(await foot()).toBe('no play fits the filter');
    await filter.fill('power');
    await leave();
    await page.keyboard.press('ArrowDown');
    expect(power.map(({ id }) => id)).toContain(await chosen());
    await filter.fill('');
    await leave();
  });

  it('folds the strip to the chosen play and unfolds it, by a key of its own', async () => {
    const { page } = sitting;
    const fold = page.locator('.strip');
    await page.keyboard.press('Control+k');
    await page.getByPlaceholder('A runner, a game, something to do').fill('Fold or unfold');
    const key = await page.locator('[cmdk-item]', { hasText: 'Fold or unfold' }).locator('kbd').innerText();
    await page.keyboard.press('Escape');
    await page.getByRole('dialog').waitFor({ state: 'detached' });
    await leave();
    const before = await game();
    await page.keyboard.press(key.toLowerCase());
    await expect.poll(() => fold.getAttribute('data-folded')).toBe('true');
    await expect.poll(() => bars().count()).toBe(1);
    await page.keyboard.press(key.toLowerCase());
    await expect.poll(() => fold.getAttribute('data-folded')).toBe('false');
    expect(await game()).toEqual(before);
  });

  it('shows two angles at the same instant, aligned on a moment both have', async () => {
    const { page } = sitting;
    const { play, spans, snaps } = await twoAngles();
    await choose(play.id);
    expect(await frameSaid(page)).toBe(snaps[0]);
    await page.keyboard.press('h');
    const beside = page.locator('.film canvas').nth(1);
    await expect.poll(() => beside.getAttribute('data-frame')).toBe(String(snaps[1]));
    await page.keyboard.press('ArrowRight');
    await expect.poll(() => beside.getAttribute('data-frame')).toBe(String(snaps[1] + 1));
    await page.keyboard.press('ArrowLeft');
    await settled(page);
    await page.keyboard.press('h');
    await expect.poll(() => page.locator('.film').count()).toBe(1);
    expect(spans.map(({ angle }) => angle)).toEqual(['sideline', 'end zone']);
  });

  it('changes to another angle at the same moment, and back', async () => {
    const { page } = sitting;
    const { play, snaps } = await twoAngles();
    await choose(play.id);
    const angles = page.locator('.spans button');
    const seen: { readonly angle: string; readonly frame: number }[] = [];
    for (let turn = 0; turn < (await angles.count()); turn += 1) {
      const before = await page.locator('.spans [aria-pressed="true"]').innerText();
      await page.keyboard.press('g');
      await expect.poll(() => page.locator('.spans [aria-pressed="true"]').innerText()).not.toBe(before);
      seen.push({ angle: await page.locator('.film-caption').first().innerText(), frame: await settled(page) });
    }
    expect(seen.find(({ angle }) => angle.startsWith('end zone · live'))?.frame).toBe(snaps[1]);
    expect(seen.at(-1)?.frame).toBe(snaps[0]);
  });

  it('moves a moment to the frame shown, takes it away on its own frame, and both can be taken back', async () => {
    const { page } = sitting;
    const { play, spans } = await twoAngles();
    await choose(play.id);
    const [span] = spans;
    const exchange = async (): Promise<number | undefined> =>
      (await game()).moments.find(({ spanId, name }) => spanId === span.id && name === 'exchange')?.frame;
    const stood = await exchange();
    expect(stood).toBeDefined();
    const here = await frameSaid(page);
    await page.keyboard.press('2');
    await expect.poll(exchange).toBe(here);
    await page.keyboard.press('2');
    await expect.poll(exchange).toBeUndefined();
    await page.keyboard.press('Control+z');
    await expect.poll(exchange).toBe(here);
    await page.keyboard.press('Control+z');
    await expect.poll(exchange).toBe(stood);
    await page.locator(`.rail [data-moment="exchange"][data-frame="${stood}"]`).waitFor();
  });

  it('sets feet down by key at the frame shown, and takes them away again', async () => {
    const { page } = sitting;
    const { play, spans } = await twoAngles();
    await choose(play.id);
    await page.keyboard.press('ArrowRight');
    const here = await settled(page);
    const feet = async (): Promise<string[]> =>
      (await game()).steps
        .filter(({ spanId, frame }) => spanId === spans[0].id && frame === here)
        .map(({ foot }) => foot)
        .toSorted();
    expect(await feet()).toEqual([]);
    await page.keyboard.press('z');
    await expect.poll(feet).toEqual(['left']);
    await page.keyboard.press('x');
    await expect.poll(feet).toEqual(['left', 'right']);
    await page.keyboard.press('z');
    await page.keyboard.press('x');
    await expect.poll(feet).toEqual([]);
  });

  it('turns the clearness of the view round, and flags a carry to come back to on the strip', async () => {
    const { page } = sitting;
    const { play, spans } = await twoAngles();
    await choose(play.id);
    const clearness = async (): Promise<string | null | undefined> =>
      (await game()).spans.find(({ id }) => id === spans[0].id)?.clearness;
    const stood = await clearness();
    for (const wanted of ['partial', 'obscured', 'clear']) {
      await page.keyboard.press('v');
      await expect.poll(clearness).toBe(stood === 'clear' ? wanted : await clearness());
    }
    const bar = page.locator(`.strip [data-play="${play.id}"]`);
    const flagged = (await bar.locator('.flag').count()) > 0;
    await page.keyboard.press('w');
    await expect.poll(async () => (await bar.locator('.flag').count()) > 0).toBe(!flagged);
    await page.keyboard.press('w');
    await expect.poll(async () => (await bar.locator('.flag').count()) > 0).toBe(flagged);
  });

  it('fills a blank on plays chosen together as one change, which one undo takes back', async () => {
    const { page } = sitting;
    const { plays } = await game();
    const three = plays.slice(0, 3).map(({ id }) => id);
    await choose(three[0] ?? '');
    await page.keyboard.press('Shift+ArrowDown');
    await page.keyboard.press('Shift+ArrowDown');
    await page.locator('.together').waitFor();
    const hashes = async (): Promise<(string | null)[]> => (await game()).plays.slice(0, 4).map(({ hash }) => hash);
    const before = await hashes();
    await page.locator('.sentence input[name="hash"]').focus();
    await page.keyboard.press('r');
    await expect.poll(hashes).toEqual(['right', 'right', 'right', before[3]]);
    await leave();
    await page.keyboard.press('Control+z');
    await expect.poll(hashes).toEqual(before);
    await page.keyboard.press('Escape');
    await page.locator('.together').waitFor({ state: 'detached' });
  });

  it('shows the history of a carry, newest first, with what stood there before', async () => {
    const { page } = sitting;
    const { plays } = await game();
    await choose(plays[0]?.id ?? '');
    const stood = plays[0]?.gain ?? 0;
    const gain = page.locator('.sentence input[name="gain"]');
    await gain.focus();
    await page.keyboard.type('12');
    await leave();
    await expect.poll(async () => (await game()).plays[0]?.gain).toBe(12);
    await page.keyboard.press('Shift+H');
    const first = page.getByRole('dialog').locator('.history li').first();
    await first.waitFor();
    expect(await first.innerText()).toMatch(/gain: 12/i);
    expect(await first.innerText()).toContain(`gain: ${stood} → 12`);
    await page.keyboard.press('Escape');
    await page.getByRole('dialog').waitFor({ state: 'detached' });
    await page.keyboard.press('Control+z');
    await expect.poll(async () => (await game()).plays[0]?.gain).toBe(stood);
  });

  it('lists every key from the table that binds them, and no key stands for two actions', async () => {
    const { page } = sitting;
    await page.keyboard.press('?');
    const dialog = page.getByRole('dialog', { name: 'Keys' });
    await dialog.waitFor();
    const rows = await dialog.locator('dl > div').evaluateAll((all) =>
      all.map((row) => ({
        does: row.querySelector('dd')?.textContent ?? '',
        keys: [...row.querySelectorAll('kbd')].map((kbd) => kbd.textContent ?? ''),
      })),
    );
    expect(rows.find(({ does }) => does === 'A play begins at this frame')?.keys).toContain('I');
    expect(rows.find(({ does }) => does === 'Tag snap')?.keys).toEqual(['1']);
    const twice = rows.flatMap(({ does, keys }) =>
      [...new Set(keys)].flatMap((key) =>
        rows
          .filter((other) => other.does !== does && other.keys.includes(key))
          .map((other) => `${key}: ${does} and ${other.does}`),
      ),
    );
    expect(twice).toEqual([]);
    await page.keyboard.press('Escape');
    await dialog.waitFor({ state: 'detached' });
  });

  it('finds a runner by part of his name and opens his sheet', async () => {
    const { page } = sitting;
    const runner = directory.runners.at(-1);
    await page.keyboard.press('Control+k');
    await page.getByPlaceholder('A runner, a game, something to do').fill((runner?.name ?? '').slice(0, 6));
    await page.keyboard.press('Enter');
    await page.locator('.sheet').waitFor();
    expect(await page.getByRole('combobox', { name: 'Runner' }).inputValue()).toBe(runner?.id);
    await page.keyboard.press('Alt+1');
    await page.locator('.stage').waitFor();
  });

  it('asks afresh each time: what was sought and not chosen is gone', async () => {
    const { page } = sitting;
    const input = page.getByPlaceholder('A runner, a game, something to do');
    await page.keyboard.press('Control+k');
    await input.waitFor();
    await page.keyboard.type('nobody');
    await page.getByText('Nothing by that name.').waitFor();
    await page.keyboard.press('Escape');
    await page.getByRole('dialog').waitFor({ state: 'detached' });
    await page.keyboard.press('Control+k');
    expect(await input.inputValue()).toBe('');
    await page.keyboard.press('Escape');
    await page.getByRole('dialog').waitFor({ state: 'detached' });
  });

  it('changes between dark and light and stays so after the window is opened again', async () => {
    const { page } = sitting;
    const theme = (): Promise<string | undefined> => page.evaluate(() => document.documentElement.dataset['theme']);
    const ground = (): Promise<string> => page.evaluate(() => getComputedStyle(document.body).backgroundColor);
    expect(await theme()).toBe('dark');
    const dark = await ground();
    await page.keyboard.press('Control+k');
    await page.getByPlaceholder('A runner, a game, something to do').fill('Change between dark and light');
    await page.keyboard.press('Enter');
    await expect.poll(theme).toBe('light');
    expect(await ground()).not.toBe(dark);
    await page.waitForTimeout(700);
    await page.reload();
    await expect.poll(theme).toBe('light');
  });

  it('brings every control into view without a sideways scroll of the page, in any room at 1280 x 800, at 1920 x 1080, and at 200 % zoom', async () => {
    const { page } = sitting;
    const tooWide: string[] = [];
    // 200 % zoom of a window of 1280 x 800 is a window of 640 x 400 CSS pixels.
    for (const [width, height] of [
      [1280, 800],
      [1920, 1080],
      [640, 400],
    ] as const) {
      await page.setViewportSize({ width, height });
      const rooms = page.getByRole('navigation', { name: 'Rooms' }).getByRole('button');
      for (let room = 0; room < (await rooms.count()); room += 1) {
        await rooms.nth(room).click();
        await page.waitForTimeout(150);
        const over = await page.evaluate(() => {
          const found = new Set<string>();
          const room = document.querySelector('.room-now');
          const all = document.querySelectorAll<HTMLElement>('button, input, select, textarea, a, [tabindex="0"]');
          for (const control of all) {
            if (!control.checkVisibility({ visibilityProperty: true })) continue;
            // A page of paper keeps its width and scrolls in its own frame.
            if (control.closest('.paper article') !== null) continue;
            control.focus();
            const { left, right } = control.getBoundingClientRect();
            const moved = window.scrollX + document.body.scrollLeft + (room?.scrollLeft ?? 0);
            const wide = (room?.scrollWidth ?? 0) - (room?.clientWidth ?? 0);
            if (right > window.innerWidth + 1 || left < -1 || moved > 0 || wide > 0)
              found.add(control.getAttribute('aria-label') ?? control.textContent.slice(0, 30));
          }
          return [...found];
        });
        if (over.length > 0)
          tooWide.push(`${await rooms.nth(room).innerText()} at ${width} x ${height}: ${over.slice(0, 8).join('; ')}`);
      }
    }
    await page.setViewportSize({ width: 1280, height: 800 });
    expect(tooWide).toEqual([]);
  });

  it('complained of nothing on the way, and asked nobody else', () => {
    expect(sitting.complaints).toEqual([]);
    expect(sitting.strangers).toEqual([]);
  });
});
