import type { Browser } from 'playwright';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Directory, StageGame } from '../../src/contract/calls.ts';
import { add, remove } from '../../src/contract/changes.ts';
import type { Decision, Lane } from '../../src/contract/rows.ts';
import { studySettings } from '../../src/contract/study-settings.ts';
import { laneValues } from '../../src/ui/stage/lanes-of.ts';
import { axeFaults } from './axe.ts';
import { copyDemoStudy } from './demo-season.ts';
import { frameSaid, settled } from './film-on-screen.ts';
import { makeDesk, startProgram, type Program } from './program.ts';
import { sitDown, startBrowser, type Sitting } from './sitting.ts';

const desk = makeDesk();
let program: Program;
let browser: Browser;
let sitting: Sitting;
let directory: Directory;
let evaluatorId: string;

const game = (): Promise<StageGame> => sitting.call('stage.game', { gameId: directory.games[0]?.id ?? '' });
const ledger = () => sitting.page.getByRole('region', { name: 'Ledger' });
const focusLedger = () => ledger().evaluate((panel: HTMLElement) => panel.focus());
const partOf = (rows: StageGame, playId: string) => rows.parts.find((part) => part.playId === playId)?.id ?? '';
const entries = async (): Promise<number> => (await sitting.call('study.info', {}))?.journalEntries ?? -1;

async function decided(at = 0): Promise<{ playId: string; decision: Decision }> {
  const rows = await game();
  const found = rows.plays.flatMap((play) => {
    const decision = rows.decisions.find(
      (each) => each.partId === partOf(rows, play.id) && each.evaluatorId === evaluatorId,
    );
    return decision === undefined ? [] : [{ playId: play.id, decision }];
  })[at];
  if (found === undefined) throw new Error('The demo has no decision of this evaluator.');
  return found;
}

async function lanesOf(decisionId: string): Promise<Lane[]> {
  const rows = await game();
  return rows.lanes.filter((lane) => lane.decisionId === decisionId).toSorted((a, b) => a.position - b.position);
}

async function choose(playId: string): Promise<void> {
  await sitting.page.locator(`.strip [data-play="${playId}"] .hit`).click({ position: { x: 8, y: 6 } });
  await expect.poll(() => sitting.page.locator('.strip [aria-selected="true"]').getAttribute('data-play')).toBe(playId);
  await settled(sitting.page);
}

async function leave(): Promise<void> {
  await sitting.page.evaluate(() => document.activeElement instanceof HTMLElement && document.activeElement.blur());
}

beforeAll(async () => {
  program = await startProgram(desk, ['--study', copyDemoStudy(desk.folder)]);
  browser = await startBrowser();
  sitting = await sitDown(browser, program.address, { viewport: { width: 1280, height: 800 }, bypassCSP: true });
  directory = await sitting.call('directory.read', {});
  evaluatorId = directory.evaluators[0]?.id ?? '';
  await sitting.page.locator('.strip .play').first().waitFor();
  await sitting.page.getByRole('combobox', { name: 'Game' }).selectOption(directory.games[0]?.id ?? '');
  await leave();
});
afterAll(async () => {
  await browser?.close();
  await program?.stop();
  desk.clear();
});

describe('the ledger', () => {
  it('opens by key at the decision frame with what each lane was worth, as the core has it', async () => {
    const { page } = sitting;
    const { playId, decision } = await decided();
    await choose(playId);
    await page.keyboard.press('Shift+L');
    await ledger().waitFor();
    expect(await settled(page)).toBe(decision.frame);
    const rows = await game();
    const play = rows.plays.find(({ id }) => id === playId);
    const lanes = await lanesOf(decision.id);
    if (play === undefined) throw new Error('The play is gone.');
    const values = laneValues(play, lanes, studySettings(directory.settings));
    if (!values.known) throw new Error(values.detail);
    for (const [index, line] of values.value.lines.entries()) {
      const words = await page.locator('.ledger-lane').nth(index).innerText();
      expect(words).toContain(`${Math.abs(line.added).toFixed(2)} points ± ${line.standardError.toFixed(2)}`);
      expect(words).toContain(`${Math.abs(line.yards).toFixed(1)} yards`);
    }
    expect(await page.locator('.ledger-film .lane').count()).toBe(lanes.length);
    expect(await ledger().innerText()).toMatch(/equal lanes would show [\d.]+ by chance/);
  });

  it('takes a lane by keyboard alone: name, state, yards, path, taken; and gives it back on undo', async () => {
    const { page } = sitting;
    const { decision } = await decided();
    const before = await lanesOf(decision.id);
    await focusLedger();
    await page.keyboard.press('n');
    await expect.poll(async () => (await lanesOf(decision.id)).length).toBe(before.length + 1);
    await expect.poll(() => page.evaluate(() => document.activeElement?.getAttribute('name'))).toBe('lane name');
    await page.keyboard.type('Cut back');
    await page.keyboard.press('Enter');
    await page.keyboard.press('c');
    await page.keyboard.press('Tab');
    for (const yards of ['-2', '1', '9']) {
      await page.keyboard.type(yards);
      await page.keyboard.press('Tab');
    }
    await focusLedger();
    const made = async () => (await lanesOf(decision.id)).at(-1);
    await expect.poll(made).toMatchObject({ name: 'Cut back', state: 'closing', low: -2, likely: 1, high: 9 });
    await page.keyboard.press('f');
    await page.keyboard.press('t');
    await expect.poll(made).toMatchObject({ state: 'filled', taken: true });
    expect((await lanesOf(decision.id)).filter(({ taken }) => taken).length).toBe(1);
    await page.keyboard.press('d');
    await page.keyboard.press('Enter');
    for (const key of ['Shift+ArrowRight', 'Shift+ArrowUp', 'ArrowUp', 'Enter', 'Enter'])
      await page.keyboard.press(key);
    await expect.poll(async () => (await made())?.path.length).toBe(2);
    const [from, to] = (await made())?.path ?? [];
    expect([(to?.[0] ?? 0) - (from?.[0] ?? 0), (to?.[1] ?? 0) - (from?.[1] ?? 0)]).toEqual([40, -48]);
    await page.keyboard.press('Delete');
    await expect.poll(async () => (await lanesOf(decision.id)).length).toBe(before.length);
    await page.keyboard.press('Control+z');
    await expect.poll(made).toMatchObject({ name: 'Cut back', taken: true });
  });

  it('refuses yards out of order and yards that are none, in words', async () => {
    const { page } = sitting;
    const low = page.locator('.ledger-lane').last().getByRole('textbox', { name: /^high/ });
    for (const [typed, words] of [
      ['-9', /go up/],
      ['x', /Whole yards/],
    ] as const) {
      await low.fill(typed);
      await low.press('Enter');
      expect(await page.getByRole('alert').innerText()).toMatch(words);
    }
    await low.press('Escape');
    await focusLedger();
  });

  it('drags a handle as one change, draws a path by clicks, and says whether it holds, by mouse', async () => {
    const { page } = sitting;
    const { decision } = await decided();
    const last = (await lanesOf(decision.id)).at(-1);
    const count = await entries();
    const handle = page.locator(`.ledger-film [data-lane="${last?.id}"] [data-handle="high"]`);
    const box = await handle.boundingBox();
    if (box === null) throw new Error('The handle is not drawn.');
    const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
    await page.mouse.move(x, y);
    await page.mouse.down();
    for (const by of [5, 12, 20, 28]) await page.mouse.move(x + by, y);
    await page.mouse.up();
    await expect.poll(async () => (await lanesOf(decision.id)).at(-1)?.high).toBeGreaterThan(last?.high ?? 99);
    expect(await entries()).toBe(count + 1);
    await page
      .locator(`.ledger .ledger-lane[data-lane="${last?.id}"]`)
      .getByRole('button', { name: /path|again/ })
      .click();
    const film = await page.locator('.film').boundingBox();
    if (film === null) throw new Error('There is no film.');
    const [cx, cy] = [film.x + film.width / 2, film.y + film.height / 2];
    await page.mouse.click(cx, cy);
    await page.mouse.click(cx + 40, cy + 10);
    await page.mouse.dblclick(cx + 60, cy - 30);
    await expect.poll(async () => (await lanesOf(decision.id)).at(-1)?.path.length).toBe(3);
    await ledger().getByRole('button', { name: 'no', exact: true }).click();
    await ledger().getByRole('textbox', { name: 'Because' }).fill('The end was unblocked and late');
    await ledger().getByRole('textbox', { name: 'Because' }).press('Enter');
    await expect
      .poll(async () => (await game()).holdings.find(({ partId }) => partId === decision.partId)?.because)
      .toBe('The end was unblocked and late');
  });

  it.each(['dark', 'light'] as const)('has nothing against access, in the %s theme', async (theme) => {
    const { page } = sitting;
    await page.evaluate((name) => (document.documentElement.dataset['theme'] = name), theme);
    expect(await axeFaults(page)).toEqual([]);
  });

  it('goes away by Escape and leaves the lanes on their frame', async () => {
    const { page } = sitting;
    await focusLedger();
    await page.keyboard.press('Escape');
    await ledger().waitFor({ state: 'detached' });
    expect(await page.locator('.lanes .lane').count()).toBeGreaterThan(1);
  });

  it('proposes nothing at the end of a half and says why', async () => {
    const { page } = sitting;
    const { playId } = await decided(1);
    await sitting.call('change.make', {
      by: null,
      label: 'At the end of the half',
      steps: [{ do: 'set', table: 'play', id: playId, set: { quarter: 2, clockSeconds: 20 } }],
    });
    await page.waitForTimeout(300);
    await choose(playId);
    await page.keyboard.press('Shift+L');
    await ledger().waitFor();
    expect(await ledger().locator('.ledger-refusal').innerText()).toMatch(/half/i);
    expect(
      await ledger()
        .getByRole('button', { name: /Accept/ })
        .count(),
    ).toBe(0);
    await page.keyboard.press('Escape');
  });
});

describe('a sealed carry', () => {
  let playId: string;
  let partId: string;
  let frame: number;

  beforeAll(async () => {
    const found = await decided(2);
    playId = found.playId;
    partId = found.decision.partId;
    frame = found.decision.frame;
    const rows = await game();
    const judged = rows.marks.filter(
      (mark) => mark.partId === partId && mark.evaluatorId === evaluatorId && ['crease', 'risk'].includes(mark.trait),
    );
    const standing = rows.moments.some(({ spanId, name }) => spanId === found.decision.spanId && name === 'decision');
    await sitting.call('change.make', {
      by: null,
      label: 'Not judged yet',
      steps: [
        remove('decision', found.decision.id),
        ...judged.map(({ id }) => remove('mark', id)),
        ...(standing
          ? []
          : [
              add('moment', {
                id: crypto.randomUUID(),
                spanId: found.decision.spanId,
                partId,
                name: 'decision',
                frame,
                time: found.decision.time,
              }),
            ]),
      ],
    });
    await sitting.page.waitForTimeout(300);
  });

  it('shows nothing of the play after its decision frame, nor asks the door for it', async () => {
    const { page } = sitting;
    await choose(playId);
    await page.getByRole('textbox', { name: 'gain', exact: true }).waitFor();
    await leave();
    await page.keyboard.press('Shift+K');
    await ledger().getByText('Sealed.').waitFor();
    expect(await settled(page)).toBe(frame);
    expect(await page.getByRole('textbox', { name: 'gain', exact: true }).count()).toBe(0);
    expect(await page.locator('.carry-figures').innerText()).not.toMatch(/, delta|success/);
    const bar = page.locator(`.strip [data-play="${playId}"]`);
    expect(await bar.locator('.gain, .loss, .after, .success').count()).toBe(0);
    for (const at of await page
      .locator('.rail .moment')
      .evaluateAll((all) => all.map((each) => each.getAttribute('data-frame'))))
      expect(Number(at)).toBeLessThanOrEqual(frame);
    await leave();
    for (const key of ['ArrowRight', 'Shift+ArrowRight', 'Space', 'l', 'g', ';', 'h', 'Shift+H']) {
      await page.keyboard.press(key);
      await page.waitForTimeout(120);
      expect(await frameSaid(page)).toBeLessThanOrEqual(frame);
    }
    await page.keyboard.press('k');
    expect(await page.getByRole('dialog').count()).toBe(0);
    const last = (await game()).plays.at(-1);
    const sealed = await sitting.call('stage.sealed', {
      gameId: directory.games[0]?.id ?? '',
      playId,
      spanId: (await game()).spans.find((span) => span.playId === playId)?.id ?? '',
      frame,
      time: 1,
      evaluatorId,
    });
    expect(sealed.plays.find(({ id }) => id === playId)).toMatchObject({ gain: null, result: null });
    expect(sealed.plays.find(({ id }) => id === last?.id)).toMatchObject({ spot: null, down: null, gain: null });
  });

  it('opens once two lanes with one taken and the mark are in, and is kept as sealed', async () => {
    const { page } = sitting;
    const answered: string[] = [];
    let asked = 0;
    page.on('response', (response) => {
      if (response.url().endsWith('/call/stage.game')) answered.push(response.url());
    });
    const lanes = async () => {
      const rows = await game();
      const own = rows.decisions.find((each) => each.partId === partId && each.evaluatorId === evaluatorId);
      asked += 1;
      return rows.lanes.filter(({ decisionId }) => decisionId === own?.id);
    };
    await focusLedger();
    await page.keyboard.press('n');
    await expect.poll(async () => (await lanes()).length).toBe(1);
    await focusLedger();
    await page.keyboard.press('t');
    await page.keyboard.press('n');
    await expect.poll(async () => (await lanes()).length).toBe(2);
    await page.keyboard.type('Outside');
    await focusLedger();
    const rest = ledger().getByRole('button', { name: 'Show the rest' });
    expect(await rest.isDisabled()).toBe(true);
    expect(await ledger().getByText('your mark of').count()).toBe(1);
    expect(answered.length).toBe(asked);
    await page.keyboard.press('a');
    await page.getByRole('textbox', { name: 'gain', exact: true }).waitFor();
    const rows = await game();
    expect(rows.decisions.find((each) => each.partId === partId && each.evaluatorId === evaluatorId)).toMatchObject({
      sealed: true,
      frame,
    });
    expect(await page.locator('.ledger-badge').innerText()).toBe('judged sealed');
    await leave();
    await page.keyboard.press('ArrowRight');
    await expect.poll(() => frameSaid(page)).toBe(frame + 1);
  });

  it('cannot be sealed again once judged', async () => {
    const { page } = sitting;
    await page.keyboard.press('Shift+K');
    await page.getByText('only a carry not yet judged can be sealed').first().waitFor();
  });

  it('complains of nothing', () => {
    expect(sitting.complaints).toEqual([]);
  });
});
