import { copyFileSync, readFileSync, renameSync, truncateSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import type { Browser, Locator } from 'playwright';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { StageGame } from '../../src/contract/calls.ts';
import { makeTestFilm } from '../../scripts/make-test-film.ts';
import { makeCutStudy, type CutStudy } from './cut-study.ts';
import { settled } from './film-on-screen.ts';
import { makeDesk, startProgram, startRefused, type Program } from './program.ts';
import { sitDown, startBrowser, type Sitting } from './sitting.ts';

describe('what can not be is said in place, with what to do, and nothing is written', () => {
  const desk = makeDesk();
  const film = join(desk.folder, 'coded.mp4');
  const study = join(desk.folder, 'Spring.creasebook');
  let browser: Browser;
  let program: Program;
  let sitting: Sitting;
  let made: CutStudy;

  const game = (): Promise<StageGame> => sitting.call('stage.game', { gameId: made.gameId });
  const blank = (name: string): Locator => sitting.page.locator(`.sentence input[name="${name}"]`);
  const trouble = (name: string): Promise<string> =>
    sitting.page
      .locator('.blank-place', { has: sitting.page.locator(`input[name="${name}"]`) })
      .getByRole('alert')
      .innerText();

  beforeAll(async () => {
    await makeTestFilm('h264 29.97', film, 120);
    program = await startProgram(desk, []);
    browser = await startBrowser();
    sitting = await sitDown(browser, program.address);
    made = await makeCutStudy(sitting, study, film);
    await blank('down').waitFor();
    await settled(sitting.page);
  });
  afterAll(async () => {
    await browser?.close();
    await program?.stop();
    desk.clear();
  });

  /** Types into a blank and leaves it with Tab; gives the sentence that stands there after. */
  async function refused(name: string, typed: string): Promise<string> {
    const { journalEntries } = (await sitting.call('study.info', {})) ?? { journalEntries: -1 };
    await blank(name).focus();
    await sitting.page.keyboard.press('Control+a');
    await sitting.page.keyboard.type(typed);
    await sitting.page.keyboard.press('Tab');
    const words = await trouble(name);
    // The focus stays where the trouble is, and the journal has no line more.
    expect(await sitting.page.evaluate(() => document.activeElement?.getAttribute('name'))).toBe(name);
    expect((await sitting.call('study.info', {}))?.journalEntries).toBe(journalEntries);
    expect(await blank(name).getAttribute('aria-invalid')).toBe('true');
    await sitting.page.keyboard.press('Escape');
    return words;
  }

  it('names what the spot, the down and the runner take, and what it got', async () => {
    expect(await refused('spot', '103')).toMatch(/spot such as own 34.*got “103”/);
    expect(await refused('down', '5')).toMatch(/from 1st to 4th.*got “5”/);
    expect(await refused('runner', 'Nobody')).toMatch(/runner of this study.*got “Nobody”/);
    expect(await refused('to go', '0')).toMatch(/from 1 to 99.*got “0”/);
    const [play] = (await game()).plays;
    expect([play?.spot, play?.down, play?.toGo]).toEqual([null, null, null]);
  });

  it('names a to go longer than the way to the goal line, and a gain beyond it', async () => {
    const { page } = sitting;
    await blank('down').focus();
    await page.keyboard.type('3');
    await blank('spot').focus();
    await page.keyboard.type('o7');
    await page.keyboard.press('Tab');
    await expect.poll(async () => (await game()).plays[0]?.spot).toBe(93);
    expect(await refused('to go', '8')).toMatch(/at most 7, got 8/);
    expect(await refused('gain', '9')).toMatch(/goal line is 7 yards away.*at most 7, got 9/);
    const [play] = (await game()).plays;
    expect([play?.toGo, play?.gain]).toEqual([null, null]);
  });

  it('asks about third and forty at the own 2 in the sentence, and keeps it', async () => {
    const { page } = sitting;
    await blank('spot').focus();
    await page.keyboard.press('Control+a');
    await page.keyboard.type('own 2');
    await page.keyboard.press('Tab');
    await expect.poll(async () => (await game()).plays[0]?.spot).toBe(2);
    await blank('to go').focus();
    await page.keyboard.press('Control+a');
    await page.keyboard.type('40');
    await page.keyboard.press('Tab');
    await expect.poll(async () => (await game()).plays[0]?.toGo).toBe(40);
    expect(await page.locator('.doubts').innerText()).toMatch(/40 to go.*own 2.*is it right\?/);
    await page.keyboard.press('Escape');
  });

  it('takes no mark of 6: the trait goes on waiting, and no mark is kept', async () => {
    const { page } = sitting;
    await page.evaluate(() => (document.activeElement as HTMLElement | null)?.blur());
    await page.keyboard.press('p');
    await page.getByRole('group', { name: 'Mark Press' }).waitFor();
    await page.keyboard.press('6');
    expect((await game()).marks).toEqual([]);
    expect((await game()).moments, 'a 6 that is no mark must not tag a moment either').toEqual([]);
    await page.getByRole('group', { name: 'Mark Press' }).waitFor();
    await page.keyboard.press('4');
    await expect.poll(async () => (await game()).marks.map(({ value }) => value)).toEqual([4]);
  });

  it('refuses a span that overlaps another play, and takes what it drew back', async () => {
    const { page } = sitting;
    const before = await game();
    await page.keyboard.press('i');
    for (let turn = 0; turn < 3; turn += 1) await page.keyboard.press('Shift+ArrowRight');
    await page.keyboard.press('o');
    const said = await page.locator('.fault-line').innerText();
    expect(said).toMatch(/overlap another play/);
    expect(said).toMatch(/Move the in or out point/);
    expect(await game()).toEqual(before);
    await expect.poll(() => page.locator('.strip [data-play]').count()).toBe(1);
    await page.getByRole('button', { name: 'Put this message away' }).click();
  });

  /** Adds a film by the file browser and gives the sentence at the foot. */
  async function addFilm(name: string): Promise<string> {
    const { page } = sitting;
    await page.getByRole('button', { name: 'Add a film' }).first().click();
    const dialog = page.getByRole('dialog');
    await dialog
      .getByRole('button', { name: desk.folder.split('/').at(-1) ?? '', exact: true })
      .first()
      .click();
    await dialog.getByRole('button', { name }).click();
    const said = await page.locator('.fault-line').innerText();
    await page.getByRole('button', { name: 'Put this message away' }).click();
    return said;
  }

  it('names a film that breaks off, and text that is named .mp4, and adds neither', async () => {
    const whole = readFileSync(film);
    const broken = join(desk.folder, 'broken.mp4');
    copyFileSync(film, broken);
    truncateSync(broken, Math.floor(whole.length * 0.6));
    writeFileSync(join(desk.folder, 'letter.mp4'), 'Dear scout, here is what I saw on Saturday.\n'.repeat(50));
    writeFileSync(join(desk.folder, 'nothing.mp4'), '');
    expect(await addFilm('broken.mp4')).toMatch(/Wanted a whole film.*Copy it again/s);
    expect(await addFilm('letter.mp4')).toMatch(/Wanted MP4.*none of these.*Choose another file/s);
    expect(await addFilm('nothing.mp4')).toMatch(/Wanted a film with frames.*Copy the film again/s);
    expect((await sitting.call('directory.read', {})).films.map(({ name }) => name)).toEqual(['coded.mp4']);
  });

  it('says so when the film of a play is gone, goes on taking marks, and finds the film again where it was moved', async () => {
    const { page } = sitting;
    const complained = sitting.complaints.length;
    const moved = join(desk.folder, 'elsewhere.mp4');
    renameSync(film, moved);
    await page.reload();
    const fault = page.locator('.fault-line');
    await fault.waitFor();
    expect(await fault.innerText()).toMatch(
      /coded\.mp4 is not where the study last saw it.*find it under Films in Settings/s,
    );
    await page.getByRole('button', { name: 'Put this message away' }).click();
    await page.locator('.sentence').waitFor();
    await page.keyboard.press('t');
    await page.keyboard.press('3');
    await expect.poll(async () => (await game()).marks.length).toBe(2);
    await page.keyboard.press('Alt+7');
    await page.getByRole('button', { name: 'Find a moved film' }).click();
    const dialog = page.getByRole('dialog');
    await dialog
      .getByRole('button', { name: desk.folder.split('/').at(-1) ?? '', exact: true })
      .first()
      .click();
    await dialog.getByRole('button', { name: 'elsewhere.mp4' }).click();
    await expect
      .poll(async () => (await sitting.call('directory.read', {})).films.map(({ path, missing }) => [path, missing]))
      .toEqual([[moved, false]]);
    await page.getByText('not found where it was').waitFor({ state: 'detached' });
    await page.keyboard.press('Alt+1');
    await settled(page);
    // The browser itself writes down each address that answered "not found"; nothing else was said.
    const during = sitting.complaints.splice(complained);
    expect(during.filter((words) => !/^Failed to load resource: .* 404/.test(words))).toEqual([]);
  });

  /** Opens a study through the window, by its path. */
  async function openStudy(name: string): Promise<void> {
    const { page } = sitting;
    await page.keyboard.press('Control+k');
    await page.getByPlaceholder('A runner, a game, something to do').fill('Open or make another study');
    await page.keyboard.press('Enter');
    await page.getByRole('button', { name: 'Open a study' }).click();
    const dialog = page.getByRole('dialog').last();
    await dialog
      .getByRole('button', { name: desk.folder.split('/').at(-1) ?? '', exact: true })
      .first()
      .click();
    await dialog.getByRole('button', { name }).click();
  }

  it('says of a study that another window holds why it can only be read, and what to do', async () => {
    const { page } = sitting;
    const other = await startProgram({ ...desk, data: join(desk.folder, 'other-data') }, []);
    try {
      const second = await sitDown(browser, other.address);
      await makeCutStudy(second, join(desk.folder, 'Held.creasebook'), join(desk.folder, 'elsewhere.mp4'));
      await openStudy('Held.creasebook');
      const fault = page.locator('.fault-line');
      await fault.waitFor();
      expect(await fault.innerText()).toMatch(/reading only.*open in another window.*close it elsewhere/s);
      await page.getByRole('button', { name: 'Put this message away' }).click();
      await page.locator('.sentence').waitFor();
      await page.keyboard.press('w');
      await fault.waitFor();
      expect(await fault.innerText()).toMatch(/read/);
      await page.getByRole('button', { name: 'Put this message away' }).click();
      await second.close();
    } finally {
      await other.stop();
    }
  });

  it('opens a study of a newer program for reading only and says so; a file that is none is refused', async () => {
    const { page } = sitting;
    const newer = join(desk.folder, 'Newer.creasebook');
    const held = new Database(join(desk.folder, 'Held.creasebook'));
    held.prepare('VACUUM INTO ?').run(newer);
    held.close();
    const database = new Database(newer);
    database.pragma('user_version = 9000');
    database.close();
    const before = readFileSync(newer);
    await openStudy('Newer.creasebook');
    const fault = page.locator('.fault-line');
    await fault.waitFor();
    expect(await fault.innerText()).toMatch(/reading only.*newer Creasebook \(study version 9000.*newer program/s);
    await page.getByRole('button', { name: 'Put this message away' }).click();
    writeFileSync(join(desk.folder, 'Poem.creasebook'), 'No study.\n'.repeat(100));
    await openStudy('Poem.creasebook');
    await fault.waitFor();
    expect(await fault.innerText()).toMatch(/Poem\.creasebook is not a Creasebook study.*Choose a file/s);
    expect(readFileSync(newer).equals(before)).toBe(true);
  });

  it('refuses a start with a study that is not there in one sentence and a next step', async () => {
    const { code, printed } = await startRefused(desk, ['--study', join(desk.folder, 'Gone.creasebook')]);
    expect(code).toBe(1);
    expect(printed).toMatch(/There is no study at .*Gone\.creasebook\. Check the path, or make a new study there\./);
  });

  it('complained of nothing else on the way, and asked nobody else', () => {
    expect(sitting.complaints).toEqual([]);
    expect(sitting.strangers).toEqual([]);
  });
});
