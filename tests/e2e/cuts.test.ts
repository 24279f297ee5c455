import { mkdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Browser } from 'playwright';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { makeTestFilm } from '../../scripts/make-test-film.ts';
import type { StageGame } from '../../src/contract/calls.ts';
import { scoreCuts } from '../../src/core/cutting/score-cuts.ts';
import { demoFolder, makeUncutStudy, readSeason } from './demo-season.ts';
import { frameSaid } from './film-on-screen.ts';
import { makeDesk, startProgram, type Program } from './program.ts';
import { sitDown, startBrowser, type Sitting } from './sitting.ts';

type Place = { readonly last: number; readonly first: number };

/** The true changes of a demo film: a cut's first frame, or a dissolve's first mixed frame and how many are mixed. */
function transitionsOf(filmId: string): { readonly frame: number; readonly lengthFrames: number }[] {
  const { films } = JSON.parse(readFileSync(join(demoFolder, 'season.json'), 'utf8')) as {
    readonly films: readonly { id: string; transitions: { frame: number; lengthFrames: number }[] }[];
  };
  return films.find(({ id }) => id === filmId)?.transitions ?? [];
}

/** A demo film's frame rate is 30000/1001: when its frames are shown, seconds. */
const timeOf = (frame: number): number => (frame * 1001) / 30_000;

describe('proposed cuts under review', () => {
  const desk = makeDesk();
  const season = readSeason();
  const sidelines = season.films.filter(({ angle }) => angle === 'sideline');
  let browser: Browser;
  let program: Program;
  let sitting: Sitting;
  let gameId: string;

  beforeAll(async () => {
    mkdirSync(join(desk.folder, 'one play each'));
    for (const [name, frames] of [
      ['play 10.mp4', 40],
      ['play 2.mp4', 50],
      ['play 1.mp4', 60],
    ] as const)
      await makeTestFilm('h264 29.97', join(desk.folder, 'one play each', name), frames);
    program = await startProgram(desk, []);
    browser = await startBrowser();
    sitting = await sitDown(browser, program.address);
    await makeUncutStudy(sitting, join(desk.folder, 'uncut.creasebook'), season);
    const { games } = await sitting.call('directory.read', {});
    gameId = games[0]?.id ?? '';
    await sitting.page.locator('.film canvas[data-frame]').waitFor();
  });
  afterAll(async () => {
    await browser?.close();
    await program?.stop();
    desk.clear();
  });

  const rows = () => sitting.page.locator('.cuts-list li');
  const chosen = () => sitting.page.locator('.cuts-list li[aria-current="true"]');
  const game = (): Promise<StageGame> => sitting.call('stage.game', { gameId });
  const entries = async (): Promise<number> => (await sitting.call('study.info', {}))?.journalEntries ?? -1;

  async function showFilm(name: string): Promise<void> {
    const { page } = sitting;
    await page.getByRole('combobox', { name: 'Film shown' }).selectOption({ label: name });
    await page.evaluate(() =>
      document.activeElement instanceof HTMLElement ? document.activeElement.blur() : undefined,
    );
    await page.locator('.film canvas[data-frame]').waitFor();
  }

  const fileOf = (file: string): string => file.split('/').at(-1) ?? file;

  async function propose(): Promise<void> {
    await sitting.page.keyboard.press('Shift+P');
    await rows().first().waitFor({ timeout: 50_000 });
  }

  /** First and last frame of every proposal, as the list says. */
  async function stretches(): Promise<{ first: number; last: number }[]> {
    const said = await sitting.page.locator('.cuts-list .cut-frames').allInnerTexts();
    return said.map((words) => {
      const [first = Number.NaN, last = Number.NaN] = words.split('–').map(Number);
      return { first, last };
    });
  }

  it('come with progress, and stopping by Escape leaves nothing', async () => {
    const { page } = sitting;
    await showFilm(fileOf(sidelines[0]?.file ?? ''));
    const before = await entries();
    await page.keyboard.press('Shift+P');
    const progress = page.locator('.cuts-progress progress');
    await expect.poll(async () => Number(await progress.getAttribute('value'))).toBeGreaterThan(0.1);
    await page.keyboard.press('Escape');
    await progress.waitFor({ state: 'detached' });
    await page.waitForTimeout(1500);
    expect(await rows().count()).toBe(0);
    expect(await entries()).toBe(before);
  });

  it('write nothing until one is accepted, and then that one as one change that can be taken back', async () => {
    const { page } = sitting;
    const before = await entries();
    await propose();
    const [first, second] = await stretches();
    await expect.poll(() => frameSaid(page)).toBe(first?.first);
    expect(await entries()).toBe(before);
    // Move the beginning on by 11 frames and the end back by two.
    await page.keyboard.press('Shift+ArrowRight');
    await page.keyboard.press('ArrowRight');
    await expect.poll(() => frameSaid(page)).toBe((first?.first ?? 0) + 11);
    await page.keyboard.press('o');
    await page.keyboard.press('ArrowLeft');
    await page.keyboard.press('ArrowLeft');
    await expect.poll(() => frameSaid(page)).toBe((first?.last ?? 0) - 2);
    expect(await entries()).toBe(before);
    await page.keyboard.press('Enter');
    await expect.poll(async () => (await game()).spans.length).toBe(1);
    const { plays, parts, spans } = await game();
    const [inFrame, outFrame] = [(first?.first ?? 0) + 11, (first?.last ?? 0) - 2];
    expect([plays.length, parts.length]).toEqual([1, 1]);
    expect(spans[0]).toMatchObject({ kind: 'live', inFrame, outFrame, timeScale: 1, playId: plays[0]?.id });
    expect(spans[0]?.inTime).toBeCloseTo(timeOf(inFrame), 5);
    expect(spans[0]?.outTime).toBeCloseTo(timeOf(outFrame), 5);
    expect(await entries()).toBe(before + 1);
    await expect.poll(() => frameSaid(page)).toBe(second?.first);
    expect(await rows().first().getAttribute('data-state')).toBe('accepted');
    await page.keyboard.press('Control+z');
    await expect.poll(async () => (await game()).spans.length).toBe(0);
    await expect.poll(() => rows().first().getAttribute('data-state')).toBe('open');
  });

  it('are left out and taken back in by key, and called something else', async () => {
    const { page } = sitting;
    await page.keyboard.press('ArrowUp');
    const at = await chosen().locator('.number').first().innerText();
    const row = rows().nth(Number(at) - 1);
    await page.keyboard.press('Delete');
    await expect.poll(() => row.getAttribute('data-state')).toBe('dropped');
    await page.keyboard.press('ArrowUp');
    await page.keyboard.press('Delete');
    await expect.poll(() => row.getAttribute('data-state')).toBe('open');
    const was = await row.getAttribute('data-kind');
    for (let turn = 0; turn < 3; turn += 1) await page.keyboard.press('t');
    expect(await row.getAttribute('data-kind')).toBe(was);
    expect((await game()).spans).toHaveLength(0);
  });

  it('are accepted all at once where likely: plays in order, replays with the play before them, no graphic', async () => {
    const { page } = sitting;
    const listed = await rows().evaluateAll((all) =>
      all.map((row) => ({
        kind: row.getAttribute('data-kind'),
        likely: row.textContent.includes('likely'),
      })),
    );
    const frames = await stretches();
    const wanted = frames.flatMap((stretch, index) => {
      const row = listed[index];
      return row?.likely === true && row.kind !== 'graphic' ? [{ ...stretch, kind: row.kind }] : [];
    });
    await page.keyboard.press('Shift+Enter');
    await expect.poll(async () => (await game()).spans.length, { timeout: 20_000 }).toBe(wanted.length);
    const { plays, spans } = await game();
    const kept = spans.toSorted((a, b) => a.inFrame - b.inFrame);
    expect(
      kept.map(({ inFrame, outFrame, kind }) => ({
        first: inFrame,
        last: outFrame,
        kind: kind === 'live' ? 'play' : kind,
      })),
    ).toEqual(wanted);
    for (const { inFrame, inTime, outFrame, outTime } of kept) {
      expect(inTime).toBeCloseTo(timeOf(inFrame), 5);
      expect(outTime).toBeCloseTo(timeOf(outFrame), 5);
    }
    const live = kept.filter(({ kind }) => kind === 'live');
    expect(plays.map(({ id }) => id)).toEqual(live.map(({ playId }) => playId));
    for (const replay of kept.filter(({ kind }) => kind === 'replay')) {
      const before = live.findLast(({ inFrame }) => inFrame < replay.inFrame);
      expect(replay.playId).toBe(before?.playId);
      expect(replay.timeScale).toBeNull();
    }
    await page.keyboard.press('Escape');
    await page.locator('.cuts').waitFor({ state: 'detached' });
    await propose();
    const again = await rows().evaluateAll((all) => all.map((row) => row.getAttribute('data-state')));
    expect(again.filter((state) => state === 'cut before').length).toBe(wanted.length);
    await page.keyboard.press('Escape');
  });

  it('reach the true cuts of the demo films: F1 at least .97 for hard cuts and .90 for dissolves', async () => {
    const truth: Place[] = [];
    const proposed: Place[] = [];
    for (const [index, film] of sidelines.entries()) {
      // Films lie one after another, so that all are scored together.
      const begins = index * 1_000_000;
      const put = ({ last, first }: Place): Place => ({ last: last + begins, first: first + begins });
      await showFilm(fileOf(film.file));
      await propose();
      const found = await stretches();
      proposed.push(...found.slice(1).map(({ first }, at) => put({ last: found[at]?.last ?? Number.NaN, first })));
      truth.push(
        ...transitionsOf(film.id).map(({ frame, lengthFrames }) =>
          put({ last: frame - 1, first: frame + lengthFrames }),
        ),
      );
      await sitting.page.keyboard.press('Escape');
      await sitting.page.locator('.cuts').waitFor({ state: 'detached' });
    }
    const [hard, soft] = [scoreCuts(truth, proposed, 'cut'), scoreCuts(truth, proposed, 'gradual')];
    const words = (name: string, score: typeof hard): string =>
      `${name}: right ${score.truePositives}, false ${score.falsePositives}, missed ${score.falseNegatives}, F1 ${score.f1.known ? score.f1.value.toFixed(3) : 'none'}`;
    console.log(`${words('hard cuts', hard)}; ${words('dissolves', soft)}`);
    expect(hard.f1.known ? hard.f1.value : 0, words('hard cuts', hard)).toBeGreaterThanOrEqual(0.97);
    expect(soft.f1.known ? soft.f1.value : 0, words('dissolves', soft)).toBeGreaterThanOrEqual(0.9);
  });

  it('are not needed for films of one play: a folder of them becomes plays in the order of their names', async () => {
    const { page } = sitting;
    const before = await game();
    await page.keyboard.press('Control+k');
    await page.locator('[cmdk-input]').fill('Each film is one play');
    await page.keyboard.press('Enter');
    const dialog = page.getByRole('dialog', { name: 'Each film is one play' });
    await dialog.getByRole('button', { name: 'Choose a folder of films' }).click();
    const browserDialog = page.getByRole('dialog', { name: 'Choose a folder of films' });
    await browserDialog
      .getByRole('button', { name: fileOf(desk.folder) })
      .first()
      .click();
    await browserDialog.getByRole('button', { name: 'one play each' }).click();
    await browserDialog.locator('.file-folder', { hasText: 'one play each' }).waitFor();
    await browserDialog.getByRole('button', { name: 'Use this folder' }).click();
    await dialog.locator('.film-plays li').first().waitFor();
    const names = await dialog.locator('.film-plays label').allInnerTexts();
    const mine = names.filter((name) => name.startsWith('play '));
    expect(mine.map((name) => name.split('\n')[0]?.replace(/\.mp4.*/, ''))).toEqual(['play 1', 'play 2', 'play 10']);
    // The second game's film is none of one play.
    for (const box of await dialog.locator('.film-plays li').all())
      if (!(await box.innerText()).startsWith('play ')) await box.locator('input').uncheck();
    await dialog.getByRole('button', { name: 'Make 3 plays' }).click();
    await dialog.waitFor({ state: 'detached' });
    const after = await game();
    const { films } = await sitting.call('directory.read', {});
    const old = new Set(before.plays.map(({ id }) => id));
    const made = after.plays.filter(({ id }) => !old.has(id));
    expect(
      made.map(({ id }) => {
        const span = after.spans.find(({ playId }) => playId === id);
        return [films.find((film) => film.id === span?.filmId)?.name, span?.inFrame, span?.outFrame];
      }),
    ).toEqual([
      ['play 1.mp4', 0, 59],
      ['play 2.mp4', 0, 49],
      ['play 10.mp4', 0, 39],
    ]);
    expect(after.plays.slice(-3).map(({ id }) => id)).toEqual(made.map(({ id }) => id));
    for (const { inTime, outTime, outFrame } of after.spans.filter(({ playId }) => !old.has(playId ?? ''))) {
      expect(inTime).toBeCloseTo(0, 5);
      expect(outTime).toBeCloseTo(timeOf(outFrame), 5);
    }
  });

  it('complained of nothing on the way', () => {
    expect(sitting.complaints).toEqual([]);
    expect(sitting.strangers).toEqual([]);
  });
});
