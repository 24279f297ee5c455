import type { Browser } from 'playwright';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Chalk } from '../../src/contract/rows.ts';
import { copyDemoStudy } from './demo-season.ts';
import { frameSaid, goToFrame, settled } from './film-on-screen.ts';
import { makeDesk, startProgram, type Program } from './program.ts';
import { sitDown, startBrowser, type Sitting } from './sitting.ts';

type Point = readonly [number, number];

/** How far a hand's point may lie from where it was meant: a screen pixel is up to two of the film. */
const handsWidth = 2;

/** Keys that follow each other are kept together half a second after the last; a busy machine takes longer. */
const soon = { timeout: 5000 };

describe('chalk on the film', () => {
  const desk = makeDesk();
  let browser: Browser;
  let program: Program;
  let sitting: Sitting;
  let gameId: string;
  let runnerId: string;

  beforeAll(async () => {
    program = await startProgram(desk, ['--study', copyDemoStudy(desk.folder)]);
    browser = await startBrowser();
    sitting = await sitDown(browser, program.address);
    const directory = await sitting.call('directory.read', {});
    gameId = directory.games[0]?.id ?? '';
    runnerId = directory.runners[0]?.id ?? '';
    await sitting.page.getByRole('combobox', { name: 'Game' }).selectOption(gameId);
    await leave();
    await settled(sitting.page);
  });
  afterAll(async () => {
    await browser?.close();
    await program?.stop();
    desk.clear();
  });

  const leave = (): Promise<void> =>
    sitting.page.evaluate(() =>
      document.activeElement instanceof HTMLElement ? document.activeElement.blur() : undefined,
    );
  const surface = () => sitting.page.locator('.chalk-surface');
  const all = async (): Promise<Chalk[]> => (await sitting.call('stage.game', { gameId })).chalk;

  /** Chooses a play and opens chalk at a frame of its span where none lies yet. */
  async function openChalk(number: number): Promise<number> {
    const { page } = sitting;
    const { plays, spans, chalk } = await sitting.call('stage.game', { gameId });
    const play = plays[number];
    // At the row's left end, where no word or bar lies over it.
    await page.locator(`.strip [data-play="${play?.id}"] .hit`).click({ position: { x: 4, y: 6 } });
    await page.locator(`.strip [data-play="${play?.id}"][aria-selected="true"]`).first().waitFor();
    await settled(page);
    const span = spans.find(
      ({ playId, angle, kind }) => playId === play?.id && angle === 'sideline' && kind === 'live',
    );
    const frame = (span?.inFrame ?? 0) + 8;
    expect(
      chalk.filter(({ spanId, fromFrame, toFrame }) => spanId === span?.id && fromFrame <= frame && frame <= toFrame),
    ).toEqual([]);
    await goToFrame(page, frame);
    await settled(page);
    await page.keyboard.press('Shift+C');
    await surface().waitFor();
    return frame;
  }

  /** Where a film pixel lies on the screen. */
  const onScreen = (points: readonly Point[]): Promise<Point[]> =>
    surface().evaluate((svg: SVGSVGElement, points: readonly Point[]) => {
      const matrix = svg.getScreenCTM();
      if (matrix === null) throw new Error('The chalk is not on screen.');
      return points.map(([x, y]): [number, number] => {
        const at = new DOMPoint(x, y).matrixTransform(matrix);
        return [at.x, at.y];
      });
    }, points);

  async function drag(points: readonly Point[]): Promise<void> {
    const { mouse } = sitting.page;
    const [first, ...rest] = await onScreen(points);
    if (first === undefined) return;
    await mouse.move(...first);
    await mouse.down();
    for (const [x, y] of rest) await mouse.move(x, y, { steps: 8 });
    await mouse.up();
  }

  /** The shapes that are new since, once there are as many. */
  async function drawnSince(before: readonly Chalk[], count = 1): Promise<Chalk[]> {
    const old = new Set(before.map(({ id }) => id));
    await expect.poll(async () => (await all()).filter(({ id }) => !old.has(id)).length, soon).toBe(count);
    return (await all()).filter(({ id }) => !old.has(id));
  }

  function expectNear(got: readonly Point[] | undefined, wanted: readonly Point[]): void {
    expect(got).toHaveLength(wanted.length);
    for (const [index, [x, y]] of wanted.entries()) {
      expect(Math.abs((got?.[index]?.[0] ?? Number.NaN) - x)).toBeLessThanOrEqual(handsWidth);
      expect(Math.abs((got?.[index]?.[1] ?? Number.NaN) - y)).toBeLessThanOrEqual(handsWidth);
    }
  }

  it('drawn by hand lies in the study in film pixels, whatever the picture’s size on screen', async () => {
    const { page } = sitting;
    const wanted: readonly Point[] = [
      [300, 520],
      [700, 360],
    ];
    for (const [width, height, number] of [
      [1280, 800, 0],
      [1920, 1080, 1],
    ] as const) {
      await page.setViewportSize({ width, height });
      const frame = await openChalk(number);
      const before = await all();
      await page.keyboard.press('a');
      await drag(wanted);
      const [arrow] = await drawnSince(before);
      expect(arrow).toMatchObject({ kind: 'arrow', fromFrame: frame });
      expectNear(arrow?.points, wanted);
      await page.keyboard.press('Escape');
      await page.keyboard.press('Escape');
      await surface().waitFor({ state: 'detached' });
    }
    await page.setViewportSize({ width: 1280, height: 800 });
  });

  it('takes lines, lanes, rings, freehand and words by hand, each as one change', async () => {
    const { page } = sitting;
    await openChalk(2);
    const before = await all();
    await page.keyboard.press('l');
    await drag([
      [200, 200],
      [400, 260],
    ]);
    await drawnSince(before, 1);
    await page.keyboard.press('r');
    await drag([
      [800, 400],
      [840, 430],
    ]);
    await drawnSince(before, 2);
    await page.keyboard.press('f');
    await drag([
      [500, 500],
      [560, 540],
      [620, 500],
      [680, 540],
    ]);
    await drawnSince(before, 3);
    await page.keyboard.press('n');
    const corners: readonly Point[] = [
      [300, 600],
      [420, 560],
      [560, 610],
    ];
    for (const [x, y] of await onScreen(corners)) {
      await page.mouse.click(x, y);
      // Two clicks of one place and time would be a double click, which ends a lane.
      await page.waitForTimeout(550);
    }
    await page.keyboard.press('Enter');
    await drawnSince(before, 4);
    await page.keyboard.press('t');
    const [words] = await onScreen([[900, 200]]);
    await page.mouse.click(...(words ?? [0, 0]));
    await page.keyboard.type('safety late');
    await page.keyboard.press('Enter');
    const drawn = await drawnSince(before, 5);
    const of = (kind: Chalk['kind']): Chalk | undefined => drawn.find((each) => each.kind === kind);
    expectNear(of('line')?.points, [
      [200, 200],
      [400, 260],
    ]);
    // A ring is its centre and a point on it.
    expectNear(of('ring')?.points, [
      [800, 400],
      [840, 430],
    ]);
    expectNear(of('lane')?.points, corners);
    expect(of('text')).toMatchObject({ text: 'safety late' });
    expectNear(of('text')?.points, [[900, 200]]);
    const free = of('freehand')?.points ?? [];
    expect(free.length).toBeGreaterThan(8);
    expectNear(
      [free[0] ?? [0, 0], free.at(-1) ?? [0, 0]],
      [
        [500, 500],
        [680, 540],
      ],
    );
    for (let left = 4; left >= 0; left -= 1) {
      await page.keyboard.press('Control+z');
      await drawnSince(before, left);
    }
    await page.keyboard.press('Escape');
  });

  it('is drawn, moved, reshaped and erased by keys alone, to the pixel', async () => {
    const { page } = sitting;
    if ((await surface().count()) > 0) await page.keyboard.press('Escape');
    await openChalk(3);
    const before = await all();
    const name = (await surface().getAttribute('aria-label')) ?? '';
    const [x = 0, y = 0] = [...name.matchAll(/Cross at (\d+), (\d+)/g)].flatMap(([, a, b]) => [Number(a), Number(b)]);
    await page.keyboard.press('a');
    await page.keyboard.press('ArrowLeft');
    await page.keyboard.press('Enter');
    await page.keyboard.press('Shift+ArrowRight');
    await page.keyboard.press('Shift+ArrowRight');
    await page.keyboard.press('Shift+ArrowUp');
    await page.keyboard.press('Control+ArrowUp');
    await page.keyboard.press('Enter');
    const [arrow] = await drawnSince(before);
    const start = [
      [x - 8, y],
      [x + 72, y - 41],
    ];
    expect(arrow?.points).toEqual(start);
    const points = async (): Promise<Chalk['points'] | undefined> =>
      (await all()).find(({ id }) => id === arrow?.id)?.points;
    // Several presses are one move, as one drag is.
    await page.keyboard.press('ArrowDown');
    await page.keyboard.press('ArrowDown');
    await page.keyboard.press('ArrowRight');
    await expect.poll(points, soon).toEqual([
      [x, y + 16],
      [x + 80, y - 25],
    ]);
    await page.keyboard.press('Control+z');
    await expect.poll(points, soon).toEqual(start);
    await page.keyboard.press('p');
    await page.keyboard.press('p');
    await page.keyboard.press('Shift+ArrowLeft');
    await expect.poll(points, soon).toEqual([start[0], [x + 32, y - 41]]);
    await page.keyboard.press('Delete');
    await expect.poll(points, soon).toBeUndefined();
    await page.keyboard.press('Control+z');
    await expect.poll(points, soon).toEqual([start[0], [x + 32, y - 41]]);
    // Backspace takes back a point of a shape that is not finished.
    await page.keyboard.press('n');
    await page.keyboard.press('Enter');
    await page.keyboard.press('ArrowRight');
    await page.keyboard.press('Enter');
    await page.keyboard.press('Backspace');
    await page.keyboard.press('Backspace');
    expect(await page.locator('.chalk-drawn').count()).toBe(0);
    await page.keyboard.press('Escape');
    await surface().waitFor({ state: 'detached' });
    await drawnSince(before, 1);
  });

  it('is chosen and moved by hand as one change a drag, a point of it too', async () => {
    const { page } = sitting;
    await openChalk(4);
    const before = await all();
    await page.keyboard.press('l');
    await drag([
      [300, 300],
      [600, 300],
    ]);
    const [line] = await drawnSince(before);
    const points = async (): Promise<Point[]> => (await all()).find(({ id }) => id === line?.id)?.points ?? [];
    const first = await points();
    await drag([
      [450, 300],
      [470, 350],
      [490, 400],
    ]);
    await expect.poll(async () => (await points())[0]?.[1], soon).toBeGreaterThan(390);
    expectNear(await points(), [
      [340, 400],
      [640, 400],
    ]);
    const second = await points();
    await drag([
      [640, 400],
      [700, 500],
    ]);
    await expect.poll(async () => (await points())[1]?.[1], soon).toBeGreaterThan(480);
    expectNear(await points(), [second[0] ?? [0, 0], [700, 500]]);
    await page.keyboard.press('Control+z');
    await expect.poll(points, soon).toEqual(second);
    await page.keyboard.press('Control+z');
    await expect.poll(points, soon).toEqual(first);
    await page.keyboard.press('Escape');
    await page.keyboard.press('Escape');
    await surface().waitFor({ state: 'detached' });
  });

  it('lies on its own frames only, a second by default, and its ends are set by keys', async () => {
    const { page } = sitting;
    const frame = await openChalk(5);
    const before = await all();
    await page.keyboard.press('r');
    await page.keyboard.press('Enter');
    await page.keyboard.press('Shift+ArrowRight');
    await page.keyboard.press('Enter');
    const [ring] = await drawnSince(before);
    // 29 frames of 1001/30000 s are .968 s, 30 would be 1.001 s.
    expect(ring).toMatchObject({ fromFrame: frame, toFrame: frame + 29 });
    const now = async (): Promise<Chalk | undefined> => (await all()).find(({ id }) => id === ring?.id);
    for (let turn = 0; turn < 3; turn += 1) await page.keyboard.press('.');
    await page.keyboard.press('o');
    await expect.poll(now, soon).toMatchObject({ fromFrame: frame, toFrame: frame + 3 });
    await page.keyboard.press(',');
    await page.keyboard.press(',');
    await page.keyboard.press('i');
    await expect.poll(now, soon).toMatchObject({ fromFrame: frame + 1, toFrame: frame + 3 });
    await page.keyboard.press('Escape');
    await page.keyboard.press('Escape');
    await surface().waitFor({ state: 'detached' });
    const rings = page.locator('.film svg.chalk:not(.lanes) .chalk-over circle');
    for (const [at, seen] of [
      [frame, 0],
      [frame + 1, 1],
      [frame + 3, 1],
      [frame + 4, 0],
    ] as const) {
      await goToFrame(page, at);
      await settled(page);
      await expect.poll(() => rings.count()).toBe(seen);
    }
  });

  it('offers no distance on a frame that is not calibrated, and says why', async () => {
    const { page } = sitting;
    await openChalk(6);
    const palette = page.getByRole('toolbar', { name: 'Chalk' });
    const distance = palette.getByRole('button', { name: 'distance' });
    expect(await distance.getAttribute('aria-disabled')).toBe('true');
    expect(await palette.innerText()).toContain('needs a calibrated frame');
    await page.keyboard.press('Escape');
  });

  it('leaves marks and blanks alone while it is open: a letter is a tool', async () => {
    const { page } = sitting;
    await openChalk(7);
    const before = await sitting.call('stage.game', { gameId });
    for (const key of ['t', 'a', '3', 'f', 'n', '2']) await page.keyboard.press(key);
    await page.keyboard.press('Escape');
    await surface().waitFor({ state: 'detached' });
    const after = await sitting.call('stage.game', { gameId });
    expect(after.marks).toEqual(before.marks);
    expect(after.chalk).toEqual(before.chalk);
  });

  it('prints over the still of the dossier, in the same film pixels', async () => {
    const { page } = sitting;
    const evaluatorId = (await sitting.call('directory.read', {})).evaluators[0]?.id ?? null;
    const { evidence, sheet } = await sitting.call('dossier.read', { runnerId, evaluatorId });
    const games = await sitting.call('stage.game', { gameId });
    const shown = evidence.find(({ partId, filmId, frame }) =>
      games.spans.some(
        (span) =>
          span.filmId === filmId &&
          span.inFrame <= frame &&
          frame <= span.outFrame &&
          games.parts.some(({ id, playId }) => id === partId && playId === span.playId),
      ),
    );
    const carry = sheet.carries.find(({ partId }) => partId === shown?.partId);
    await page.locator(`.strip [data-play="${carry?.playId}"] .hit`).click({ position: { x: 4, y: 6 } });
    await settled(page);
    await goToFrame(page, shown?.frame ?? 0);
    await settled(page);
    expect(await frameSaid(page)).toBe(shown?.frame);
    await page.keyboard.press('Shift+C');
    await surface().waitFor();
    const before = await all();
    await page.keyboard.press('l');
    await drag([
      [150, 650],
      [450, 640],
    ]);
    const [line] = await drawnSince(before);
    await page.keyboard.press('Escape');
    await page.keyboard.press('Escape');
    await page.keyboard.press('Alt+5');
    const printed = (line?.points ?? []).map(([x, y]) => `${x},${y}`).join(' ');
    await page.locator(`.paper svg.chalk polyline[points="${printed}"]`).first().waitFor({ state: 'attached' });
    const box = await page
      .locator('.paper svg.chalk', { has: page.locator(`polyline[points="${printed}"]`) })
      .first()
      .getAttribute('viewBox');
    expect(box).toBe('0 0 1280 720');
    await page.keyboard.press('Alt+1');
    await page.locator('.stage').waitFor();
  });

  it('complained of nothing on the way', () => {
    expect(sitting.complaints).toEqual([]);
    expect(sitting.strangers).toEqual([]);
  });
});
