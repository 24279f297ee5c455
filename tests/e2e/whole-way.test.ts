import { execFileSync } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Browser } from 'playwright';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Directory, StageGame } from '../../src/contract/calls.ts';
import type { SheetView } from '../../src/contract/views.ts';
import { momentNames } from '../../src/contract/words.ts';
import { makeTestFilm } from '../../scripts/make-test-film.ts';
import { expectedYards } from '../../src/core/expectation/expected-yards.ts';
import { yardsModels } from '../../src/core/expectation/yards-model.ts';
import { valueOf } from '../value-of.ts';
import { frameSaid, goToFrame, numberInPicture, settled } from './film-on-screen.ts';
import { imagesIn, numbersPrinted, wordsOf } from './printed.ts';
import { makeDesk, startProgram, type Program } from './program.ts';
import { sitDown, startBrowser, type Sitting } from './sitting.ts';

const cli = join(import.meta.dirname, '../../build/src/cli/main.js');
const cut = { in: 40, out: 130 };
const tagged = { snap: 52, exchange: 67, decision: 81, 'first contact': 97 } as const;

/** The results as they are to be read on screen and paper: the figure, or the reason why there is none. */
function resultsSaid({ success, delta, overall }: SheetView): string[] {
  if (!success.known) throw new Error(success.detail);
  return [
    success.value.rate.toFixed(3).replace(/^0/, ''),
    delta.known ? delta.value.mean.toFixed(1).replace('-', '−') : delta.detail,
    overall.known ? overall.value.grade.toFixed(1) : overall.detail,
  ];
}

describe('one carry from film to paper', () => {
  const desk = makeDesk();
  const study = join(desk.folder, 'Autumn.creasebook');
  let browser: Browser;
  let program: Program;
  let sitting: Sitting;

  const directory = (): Promise<Directory> => sitting.call('directory.read', {});
  async function game(): Promise<StageGame> {
    const [first] = (await directory()).games;
    if (first === undefined) throw new Error('The study has no game.');
    return sitting.call('stage.game', { gameId: first.id });
  }
  const own = async (): Promise<string> => (await directory()).evaluators[0]?.id ?? '';

  beforeAll(async () => {
    await makeTestFilm('h264 29.97', join(desk.folder, 'coded.mp4'), 240, { width: 640, height: 360 });
    program = await startProgram(desk, []);
    browser = await startBrowser();
    sitting = await sitDown(browser, program.address);
  });
  afterAll(async () => {
    await browser?.close();
    await program?.stop();
    desk.clear();
  });

  /** Walks the program's own file browser to the desk's folder. */
  async function browseToDesk(): Promise<void> {
    const name = desk.folder.split('/').at(-1) ?? '';
    await sitting.page.getByRole('dialog').last().getByRole('button', { name, exact: true }).click();
  }

  it('makes a study in the window, with a name, an evaluator and a folder', async () => {
    const { page } = sitting;
    await page.keyboard.press('Control+k');
    await page.getByPlaceholder('A runner, a game, something to do').fill('Open or make another study');
    await page.keyboard.press('Enter');
    await page.getByLabel('Name of a new study').fill('Autumn');
    await page.getByLabel('Your name, as evaluator').fill('N. Halvorsen');
    await page.getByRole('button', { name: 'Make it in a folder' }).click();
    await browseToDesk();
    await page.getByRole('button', { name: 'Use this folder' }).click();
    await page.getByText('No game is in this study yet').waitFor();
    expect(await sitting.call('study.info', {})).toMatchObject({ path: study, readOnly: false });
    expect((await directory()).evaluators.map(({ name }) => name)).toEqual(['N. Halvorsen']);
  });

  it('adds a game with its two teams, the runner and his official attempts', async () => {
    const { page } = sitting;
    await page.getByRole('button', { name: 'Add a game' }).first().click();
    const dialog = page.getByRole('dialog');
    await dialog.getByLabel('Away team').fill('Marlow State');
    await dialog.getByLabel('Home team').fill('Tannis Ford');
    await dialog.getByLabel('Season').fill('2025');
    await dialog.getByLabel('Week').fill('3');
    await dialog.getByLabel('Runner', { exact: true }).fill('Ilya Quent');
    await dialog.getByLabel('His number').fill('31');
    await dialog.getByLabel('Official attempts').fill('1');
    await dialog.getByRole('button', { name: 'Add the game' }).click();
    await page.getByText('No film yet').waitFor();
    const { games, runners, officialLines } = await directory();
    expect([games.length, runners[0]?.name, runners[0]?.jersey, officialLines[0]?.attempts]).toEqual([
      1,
      'Ilya Quent',
      31,
      1,
    ]);
  });

  it('adds the film by the file browser, and shows frame 0 exactly', async () => {
    const { page } = sitting;
    await page.getByRole('button', { name: 'Add a film' }).first().click();
    await browseToDesk();
    await page.getByRole('dialog').getByRole('button', { name: 'coded.mp4' }).click();
    await page.locator('.film-clock').waitFor();
    expect(await settled(page)).toBe(0);
    expect(await numberInPicture(page)).toBe(0);
    expect((await directory()).films[0]).toMatchObject({ name: 'coded.mp4', frames: 240, missing: false });
  });

  it('steps by one and by ten frames, and each picture carries the number that is said', async () => {
    const { page } = sitting;
    for (const [key, frame] of [
      ['ArrowRight', 1],
      ['ArrowRight', 2],
      ['Shift+ArrowRight', 12],
      ['ArrowLeft', 11],
      ['Shift+ArrowLeft', 1],
      ['Shift+ArrowLeft', 0],
      ['ArrowLeft', 0],
    ] as const) {
      await page.keyboard.press(key);
      expect(await settled(page)).toBe(frame);
      expect(await numberInPicture(page)).toBe(frame);
    }
  });

  it('plays and pauses without a jump: the frame said after pausing is the one in the picture and in the player', async () => {
    const { page } = sitting;
    for (const from of [10, 60]) {
      await goToFrame(page, from);
      await settled(page);
      await page.keyboard.press('Space');
      await page.locator('.film[data-on-top="video"]').waitFor();
      await page.waitForTimeout(400);
      await page.keyboard.press('Space');
      const stopped = await settled(page);
      expect(stopped).toBeGreaterThan(from);
      expect(stopped).toBeLessThan(from + 60);
      expect(await numberInPicture(page)).toBe(stopped);
      expect(await numberInPicture(page, 'video')).toBe(stopped);
      // Nothing moves after the pause.
      await page.waitForTimeout(150);
      expect(await settled(page)).toBe(stopped);
    }
  });

  it('cuts a play with I and O, and stands in the first blank of its sentence', async () => {
    const { page } = sitting;
    await goToFrame(page, cut.in);
    await page.keyboard.press('i');
    await goToFrame(page, cut.out);
    await page.keyboard.press('o');
    await page.locator('.sentence input').first().waitFor();
    await expect.poll(() => page.evaluate(() => document.activeElement?.getAttribute('name'))).toBe('down');
    const { spans, plays, parts } = await game();
    expect([plays.length, parts.length]).toEqual([1, 1]);
    expect(spans[0]).toMatchObject({ inFrame: cut.in, outFrame: cut.out, kind: 'live', timeScale: 1 });
    // 30000 frames in 1001 seconds.
    expect(spans[0]?.inTime).toBeCloseTo((cut.in * 1001) / 30_000, 5);
    expect(spans[0]?.outTime).toBeCloseTo((cut.out * 1001) / 30_000, 5);
  });

  it('charts the play by keys in its sentence', async () => {
    const { page } = sitting;
    await sitting.type('2');
    await sitting.type('7');
    await sitting.press('Tab');
    await sitting.type('34');
    await sitting.press('Tab');
    await sitting.type('l');
    await sitting.type('c');
    await sitting.type('l');
    await sitting.press('Tab');
    await sitting.type('5');
    await sitting.press('Enter');
    await expect.poll(async () => (await game()).plays[0]?.gain).toBe(5);
    expect((await game()).plays[0]).toMatchObject({
      down: 2,
      toGo: 7,
      spot: 34,
      hash: 'left',
      concept: 'counter',
      scheme: 'gap',
      direction: 'left',
      result: 'down',
    });
    expect((await game()).parts[0]).toMatchObject({ kind: 'run', gain: 5, counts: true });
    // Out of the sentence: the next key is a key of the Stage again.
    expect(await page.evaluate(() => document.activeElement?.tagName)).not.toBe('INPUT');
  });

  it('tags snap, exchange, decision and first contact at the very frames asked for', async () => {
    const { page } = sitting;
    for (const [name, frame] of Object.entries(tagged)) {
      await goToFrame(page, frame);
      expect(await settled(page)).toBe(frame);
      expect(await numberInPicture(page)).toBe(frame);
      const key = String(momentNames.indexOf(name as keyof typeof tagged) + 1);
      await page.keyboard.press(key);
      await page.locator(`.rail [data-moment="${name}"][data-frame="${frame}"]`).waitFor();
    }
    const { moments } = await game();
    expect(Object.fromEntries(moments.map(({ name, frame }) => [name, frame]))).toEqual(tagged);
    for (const { frame, time } of moments) expect(time).toBeCloseTo((frame * 1001) / 30_000, 5);
  });

  it('marks traits by letter and figure, one with a half, one as not shown, and pins them on their frame', async () => {
    const { page } = sitting;
    await goToFrame(page, tagged.decision);
    await settled(page);
    for (const keys of ['p4', 't3', 'c4.', 'u2', 'd0', 'r-']) {
      for (const key of keys) await page.keyboard.press(key);
    }
    await expect.poll(async () => (await game()).marks.length).toBe(6);
    await expect.poll(async () => (await game()).marks.find(({ trait }) => trait === 'crease')?.value).toBe(4.5);
    const { marks } = await game();
    expect(Object.fromEntries(marks.map(({ trait, state, value }) => [trait, value ?? state]))).toEqual({
      press: 4,
      tempo: 3,
      crease: 4.5,
      cut: 2,
      pads: 'not shown',
      risk: 'unseen',
    });
    for (const mark of marks) expect(mark).toMatchObject({ frame: tagged.decision, clearness: 'clear', lookId: null });
    expect(await page.locator('.rail .pin').count()).toBe(6);
  });

  it('shows on the Sheet the very numbers that the call gives, and expected yards as the core works them out', async () => {
    const { page } = sitting;
    await page.keyboard.press('Alt+2');
    await page.locator('.sheet').waitFor();
    const runnerId = (await directory()).runners[0]?.id ?? '';
    const sheet = await sitting.call('sheet.read', { runnerId, evaluatorId: await own() });
    expect(sheet.carries.length).toBe(1);
    const [carry] = sheet.carries;
    const core = valueOf(expectedYards(yardsModels.college, { down: 2, toGo: 7, yardsToGoal: 66 }));
    expect(carry?.expected).toBeCloseTo(core.mean, 9);
    expect(carry?.delta).toBeCloseTo(5 - core.mean, 9);
    // Classic rule: 60 of 100 yards to go on second down, 4.2 of 7.
    expect(carry?.success).toBe(true);
    const row = await page.locator('.carry-row').innerText();
    expect(row).toContain('2nd and 7 at own 34');
    expect(row).toContain('counter left, gain of 5');
    expect(row).toContain(`expected ${carry?.expected?.toFixed(1)}`);
    expect(row).toContain(`${carry?.delta?.toFixed(1)}`.replace('-', '−'));
    await page.getByRole('button', { name: /^Grades.*as a table$/ }).click();
    const table = page.getByRole('table', { name: 'Grades in figures' });
    const traits = sheet.families.flatMap((family) => family.traits);
    for (const trait of traits) {
      const cells = await table
        .getByRole('row', { name: new RegExp(`^${trait.name}`) })
        .locator('td')
        .allInnerTexts();
      if (trait.grade.known) {
        expect(cells[0]).toContain(trait.grade.value.grade.toFixed(1));
        expect(cells[1]).toBe(`${trait.grade.value.low.toFixed(1)}–${trait.grade.value.high.toFixed(1)}`);
        expect(cells.slice(2, 3)).toEqual([String(trait.grade.value.marks)]);
      } else expect(cells[0]).toContain(trait.grade.detail);
      expect(cells.slice(-4)).toEqual([trait.shown, trait.notShown, trait.unseen, trait.unlooked].map(String));
    }
    expect(traits.filter(({ grade }) => grade.known).length).toBeGreaterThan(0);
    const results = await page.getByRole('table', { name: /^Results/ }).innerText();
    for (const said of resultsSaid(sheet)) expect(results).toContain(said);
  });

  it('keeps a verdict that cites carry 1, and previews the still of its decision frame', async () => {
    const { page } = sitting;
    await page.keyboard.press('Alt+5');
    await page.getByRole('button', { name: 'Add a sentence' }).click();
    await page.getByLabel('Sentence 1').fill('Sets the counter up and hits it late enough.');
    await page.getByLabel('Carries for it').fill('1');
    await page.getByLabel('Role').fill('Early-down runner');
    await page.getByRole('button', { name: 'Keep these words' }).click();
    const still = page.locator('.paper img').first();
    await still.waitFor();
    await expect.poll(() => still.evaluate((img: HTMLImageElement) => img.complete && img.naturalWidth)).toBe(640);
    expect(await page.locator('.paper').innerText()).toContain('Sets the counter up and hits it late enough.');
    const runnerId = (await directory()).runners[0]?.id ?? '';
    const { evidence } = await sitting.call('dossier.read', { runnerId, evaluatorId: await own() });
    expect(evidence.map(({ number, frame, missing }) => [number, frame, missing])).toEqual([
      [1, tagged.decision, null],
    ]);
  });

  it('issues the PDF, whose words, numbers and still are those of the screen', async () => {
    const { page } = sitting;
    const opened = page.context().waitForEvent('page');
    await page.getByRole('button', { name: 'Issue PDF' }).click();
    await (await opened).close();
    const link = page.locator('.issued a', { hasText: 'PDF' }).first();
    await link.waitFor();
    const bytes = await page.evaluate(
      async (href) => {
        const response = await fetch(href ?? '');
        return [...new Uint8Array(await response.arrayBuffer())];
      },
      await link.getAttribute('href'),
    );
    const pdf = join(desk.folder, 'dossier.pdf');
    writeFileSync(pdf, Uint8Array.from(bytes));
    const words = wordsOf(pdf);
    const runnerId = (await directory()).runners[0]?.id ?? '';
    const sheet = await sitting.call('sheet.read', { runnerId, evaluatorId: await own() });
    for (const said of [
      'Ilya Quent',
      'Sets the counter up and hits it late enough.',
      'Early-down runner',
      '2nd and 7 at own 34',
      'N. Halvorsen',
      ...resultsSaid(sheet),
    ])
      expect(words).toContain(said);
    expect(imagesIn(pdf)).toBe(1);
    expect(numbersPrinted(pdf)).toEqual([tagged.decision]);
  });

  it('is all there after the program was ended and started again', async () => {
    const before = await game();
    const { overall, families, success } = await sitting.call('sheet.read', {
      runnerId: (await directory()).runners[0]?.id ?? '',
      evaluatorId: await own(),
    });
    await sitting.close();
    expect(await program.stop()).toBe(0);
    // The command line reads the same numbers from the same file.
    const said: unknown = JSON.parse(
      execFileSync(process.execPath, [cli, 'grades', study, '--json', '--evaluator', 'N. Halvorsen'], {
        encoding: 'utf8',
        stdio: ['ignore', 'pipe', 'ignore'],
      }),
    );
    expect(said).toMatchObject({ runners: [{ runner: { name: 'Ilya Quent' }, overall, families, success }] });
    program = await startProgram(desk, ['--study', study]);
    const kept = sitting;
    sitting = await sitDown(browser, program.address);
    sitting.complaints.push(...kept.complaints);
    sitting.strangers.push(...kept.strangers);
    expect(await game()).toEqual(before);
    await sitting.page.keyboard.press('Alt+1');
    await sitting.page.locator('.sentence input[name="gain"]').waitFor();
    expect(await sitting.page.locator('.sentence input[name="gain"]').inputValue()).toBe('5');
    await settled(sitting.page);
    expect(await numberInPicture(sitting.page)).toBe(await frameSaid(sitting.page));
    const runnerId = (await directory()).runners[0]?.id ?? '';
    expect(await sitting.call('dossier.issued', { runnerId })).toHaveLength(1);
  });

  it('takes back with Ctrl+Z what was done before the restart, and does it again', async () => {
    const { page } = sitting;
    const runnerId = (await directory()).runners[0]?.id ?? '';
    const dossier = async (): Promise<string | null> =>
      (await sitting.call('dossier.read', { runnerId, evaluatorId: await own() })).role;
    expect(await dossier()).toBe('Early-down runner');
    await page.keyboard.press('Control+z');
    await expect.poll(dossier).toBe(null);
    await page.keyboard.press('Control+z');
    await page.keyboard.press('Control+z');
    await expect.poll(async () => (await game()).marks.length).toBe(4);
    await page.locator('.rail .pin').nth(3).waitFor();
    await expect.poll(() => page.locator('.rail .pin').count()).toBe(4);
    for (let turn = 0; turn < 3; turn += 1) await page.keyboard.press('Control+Shift+z');
    await expect.poll(dossier).toBe('Early-down runner');
    await expect.poll(() => page.locator('.rail .pin').count()).toBe(6);
  });

  it('complained of nothing on the way, and asked nobody else', () => {
    expect(sitting.complaints).toEqual([]);
    expect(sitting.strangers).toEqual([]);
  });
});
