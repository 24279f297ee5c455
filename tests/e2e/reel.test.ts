import { spawnSync } from 'node:child_process';
import { join } from 'node:path';
import type { Browser } from 'playwright';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { makeTestFilm } from '../../scripts/make-test-film.ts';
import { numbersByFfmpeg, testSize, timesByFfprobe } from '../film/test-films.ts';
import { makeCutStudy, type CutStudy } from './cut-study.ts';
import { settled } from './film-on-screen.ts';
import { makeDesk, startProgram, type Program } from './program.ts';
import { sitDown, startBrowser, type Sitting } from './sitting.ts';

const frameLength = 1001 / 30_000;

/** One pixel of every frame of a film of the test's size as red, green and blue, decoded by ffmpeg. */
function pixelByFfmpeg(path: string, [x, y]: readonly [number, number]): number[][] {
  const args = ['-loglevel', 'error', '-i', path, '-fps_mode', 'passthrough', '-pix_fmt', 'rgb24', '-f', 'rawvideo'];
  const run = spawnSync('ffmpeg', [...args, '-'], { maxBuffer: 2 ** 30 });
  if (run.status !== 0) throw new Error(`ffmpeg could not read ${path}: ${run.stderr.toString()}`);
  const frame = testSize.width * testSize.height * 3;
  const at = (y * testSize.width + x) * 3;
  return Array.from({ length: run.stdout.length / frame }, (_, index) => [
    ...run.stdout.subarray(index * frame + at, index * frame + at + 3),
  ]);
}

describe('a reel made in the window', () => {
  const desk = makeDesk();
  let browser: Browser;
  let program: Program;
  let sitting: Sitting;
  let cut: CutStudy;

  beforeAll(async () => {
    const film = join(desk.folder, 'coded.mp4');
    await makeTestFilm('h264 29.97', film, 120);
    program = await startProgram(desk, []);
    browser = await startBrowser();
    sitting = await sitDown(browser, program.address);
    cut = await makeCutStudy(sitting, join(desk.folder, 'reel.creasebook'), film);
    await settled(sitting.page);
  });
  afterAll(async () => {
    await browser?.close();
    await program?.stop();
    desk.clear();
  });

  const dialog = () => sitting.page.getByRole('dialog', { name: 'Make a reel' });

  async function openReel(): Promise<void> {
    await sitting.page.keyboard.press('Shift+R');
    await dialog().locator('.reel-rows li').first().waitFor();
  }

  async function make(name: string): Promise<string> {
    const [download] = await Promise.all([
      sitting.page.waitForEvent('download', { timeout: 45_000 }),
      dialog()
        .getByRole('button', { name: /^Make (?:a reel of|it again)/ })
        .click(),
    ]);
    const path = join(desk.folder, name);
    await download.saveAs(path);
    return path;
  }

  it('of one play without cards shows just its frames, at half speed for twice as long', async () => {
    await openReel();
    await dialog().getByLabel('Title card at the beginning').fill('');
    await dialog().getByLabel('A card before each play').uncheck();
    await dialog().getByLabel('Speed').selectOption('half speed');
    const path = await make('half.mp4');
    expect(numbersByFfmpeg(path)).toEqual(Array.from({ length: 81 }, (_, at) => 10 + at));
    const times = timesByFfprobe(path);
    expect((times[80] ?? 0) - (times[0] ?? 0)).toBeCloseTo(80 * frameLength * 2, 2);
    await sitting.page.keyboard.press('Escape');
    await dialog().waitFor({ state: 'detached' });
  });

  it('has its cards before the play and the chalk on its own frames only', async () => {
    const { games, evaluators } = await sitting.call('directory.read', {});
    const { spans } = await sitting.call('stage.game', { gameId: games[0]?.id ?? '' });
    const chalk = {
      id: crypto.randomUUID(),
      spanId: spans[0]?.id ?? '',
      evaluatorId: evaluators[0]?.id ?? '',
      fromFrame: 30,
      toFrame: 39,
      kind: 'line' as const,
      points: [
        [100, 60],
        [220, 60],
      ],
      text: null,
    };
    await sitting.call('change.make', {
      by: evaluators[0]?.id ?? null,
      label: 'A line',
      steps: [{ do: 'add', table: 'chalk', row: chalk }],
    });
    await openReel();
    await dialog().getByLabel('Title card at the beginning').fill('Ilya Quent');
    const path = await make('chalk.mp4');
    const numbers = numbersByFfmpeg(path);
    // Two cards of one frame each, 2.5 s long, then the play.
    expect(numbers.slice(2)).toEqual(Array.from({ length: 81 }, (_, at) => 10 + at));
    const times = timesByFfprobe(path);
    expect(times[1]).toBeCloseTo(2.5, 2);
    expect(times[2]).toBeCloseTo(5, 2);
    // The film is grey, and its encoder keeps colour at half the picture's size: any colour is chalk.
    const amber = pixelByFfmpeg(path, [160, 60])
      .slice(2)
      .flatMap(([red = 0, , blue = 0], at) => (red - blue > 20 ? [10 + at] : []));
    expect(amber).toEqual(Array.from({ length: 10 }, (_, at) => 30 + at));
    await dialog().getByText('pictures encoded anew').waitFor();
    await sitting.page.keyboard.press('Escape');
    await dialog().waitFor({ state: 'detached' });
  });

  it('can be stopped, and nothing is saved', async () => {
    await openReel();
    await dialog().getByLabel('Speed').selectOption('quarter speed');
    let saved = 0;
    const hear = (): void => void (saved += 1);
    sitting.page.on('download', hear);
    await dialog()
      .getByRole('button', { name: /^Make a reel of/ })
      .click();
    await dialog().getByRole('button', { name: 'Stop' }).click();
    await dialog()
      .getByRole('button', { name: /^Make a reel of/ })
      .waitFor();
    await sitting.page.waitForTimeout(500);
    sitting.page.off('download', hear);
    expect(saved).toBe(0);
    await sitting.page.keyboard.press('Escape');
  });

  it('is offered on the sheet for the runner’s carries', async () => {
    await sitting.page.keyboard.press('Alt+2');
    await sitting.page.getByRole('button', { name: 'Make a reel' }).click();
    await dialog().locator('.reel-rows li').first().waitFor();
    expect(await dialog().locator('.reel-rows li').count()).toBe(1);
    expect(await dialog().getByLabel('Title card at the beginning').inputValue()).toBe('Ilya Quent');
    expect(cut.playId).not.toBe('');
    await sitting.page.keyboard.press('Escape');
  });

  it('complained of nothing on the way', () => {
    expect(sitting.complaints).toEqual([]);
    expect(sitting.strangers).toEqual([]);
  });
});
