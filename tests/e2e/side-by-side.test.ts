import { join } from 'node:path';
import type { Browser } from 'playwright';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { codeBits } from '../../scripts/coded-picture.ts';
import { makeTestFilm } from '../../scripts/make-test-film.ts';
import type { CarryFilm, SideBySideView } from '../../src/contract/comparison-views.ts';
import { classOf } from '../host/study-of-class.ts';
import { valueOf } from '../value-of.ts';
import { axeFaults } from './axe.ts';
import { makeClassStudy } from './class-study.ts';
import { makeDesk, startProgram, type Program } from './program.ts';
import { sitDown, startBrowser, type Sitting } from './sitting.ts';

const [firstId, secondId] = [classOf.runner(0), classOf.runner(1)];
/** Film of the left runner at 29.97, of the right one at 59.94 frames a second. */
const rates = [30_000 / 1001, 60_000 / 1001] as const;

describe('Side by side', () => {
  const desk = makeDesk();
  let browser: Browser;
  let program: Program;
  let sitting: Sitting;

  beforeAll(async () => {
    const [slow, fast] = [join(desk.folder, 'slow.mp4'), join(desk.folder, 'fast.mp4')];
    await makeTestFilm('h264 29.97', slow, 900);
    await makeTestFilm('h264 59.94', fast, 1800);
    const study = join(desk.folder, 'Two.creasebook');
    await makeClassStudy(study, { runners: 2, games: 2, carries: 9, spread: 0.6 }, [slow, fast]);
    program = await startProgram(desk, ['--study', study]);
    browser = await startBrowser();
    sitting = await sitDown(browser, program.address, { viewport: { width: 1280, height: 800 }, bypassCSP: true });
    await sitting.press('Alt+3');
    await sitting.page.getByLabel('Runner on the left').selectOption(firstId);
    await sitting.page.getByLabel('Runner on the right').selectOption(secondId);
  });
  afterAll(async () => {
    await sitting?.close();
    await browser?.close();
    await program?.stop();
    desk.clear();
  });

  const view = async (): Promise<SideBySideView> =>
    valueOf(await sitting.call('sideBySide.read', { firstId, secondId, evaluatorId: classOf.one }));
  /** The frames that are said, once both pictures show them. */
  async function framesShown(): Promise<[number, number]> {
    await sitting.page.waitForFunction(() => {
      const sides = [...document.querySelectorAll('.side-picture')];
      return (
        sides.length === 2 &&
        sides.every((side) => {
          const said = /^frame (\d+)/.exec(side.querySelector('.side-note-foot')?.textContent ?? '')?.[1];
          return said !== undefined && side.querySelector('canvas')?.dataset['frame'] === said;
        })
      );
    });
    const [left, right] = await sitting.page
      .locator('.side-canvas')
      .evaluateAll((canvases) => canvases.map((canvas) => Number((canvas as HTMLCanvasElement).dataset['frame'])));
    return [left ?? Number.NaN, right ?? Number.NaN];
  }
  /** The numbers the pictures themselves carry. */
  const numbersInPictures = (): Promise<number[]> =>
    sitting.page.locator('.side-canvas').evaluateAll(
      (canvases, bits) =>
        canvases.map((canvas) => {
          const { data } = (canvas as HTMLCanvasElement).getContext('2d')?.getImageData(0, 157, 320, 1) ?? { data: [] };
          let number = 0;
          for (let bit = 0; bit < bits; bit += 1)
            if ((data[Math.floor((320 * (bit + 0.5)) / bits) * 4 + 1] ?? 0) > 125) number += 2 ** bit;
          return number;
        }),
      codeBits,
    );
  const shownCarries = (): Promise<string[]> =>
    sitting.page
      .locator('.side-half > select')
      .evaluateAll((selects) => selects.map((select) => (select as HTMLSelectElement).value));
  const films = async (): Promise<[CarryFilm, CarryFilm]> => {
    const [one, other] = await shownCarries();
    return [
      await sitting.call('carry.film', { partId: one ?? '' }),
      await sitting.call('carry.film', { partId: other ?? '' }),
    ];
  };
  const momentFrame = ({ moments }: CarryFilm, name: string): number =>
    moments.find((moment) => moment.name === name)?.frame ?? Number.NaN;

  it('opens on the closest pair that is on film, both at the exchange, each at its own exact frame', async () => {
    const { pairs } = await view();
    const [closest] = valueOf(pairs).pairs;
    await framesShown();
    expect(await shownCarries()).toEqual([closest?.first, closest?.second]);
    const [one, other] = await films();
    const wanted = [momentFrame(one, 'exchange'), momentFrame(other, 'exchange')];
    expect(await framesShown()).toEqual(wanted);
    expect(await numbersInPictures()).toEqual(wanted);
  });

  it('steps both by the frames of the faster film, the slower one keeping the same instant', async () => {
    const [start, fastStart] = await framesShown();
    for (let step = 1; step <= 6; step += 1) {
      await sitting.press('ArrowRight');
      const [slow, fast] = await framesShown();
      expect(fast).toBe(fastStart + step);
      expect(Math.abs((slow - start) / rates[0] - step / rates[1])).toBeLessThanOrEqual(0.5 / rates[0] + 1e-6);
    }
    expect(await numbersInPictures()).toEqual(await framesShown());
    await sitting.press('Shift+ArrowLeft', 'ArrowRight', 'ArrowRight', 'ArrowRight', 'ArrowRight');
    expect(await framesShown()).toEqual([start, fastStart]);
  });

  it('locks on another moment both have, and goes to it by key without locking on it', async () => {
    const [one, other] = await films();
    await sitting.press(';');
    const [slow] = await framesShown();
    expect(slow).toBe(momentFrame(one, 'plant'));
    await sitting.page.getByLabel('Locked on').selectOption('plant');
    expect(await framesShown()).toEqual([momentFrame(one, 'plant'), momentFrame(other, 'plant')]);
    await sitting.page.getByLabel('Locked on').selectOption('exchange');
    await framesShown();
    await sitting.page.locator('.side-pair-line p').click();
  });

  it('plays both in a loop and stops on one instant of both', async () => {
    const [one, other] = await films();
    await sitting.press('Space');
    await sitting.page.waitForTimeout(2600);
    await sitting.press('Space');
    const [slow, fast] = await framesShown();
    const away = [slow - momentFrame(one, 'exchange'), fast - momentFrame(other, 'exchange')] as const;
    expect(Math.abs(away[0] / rates[0] - away[1] / rates[1])).toBeLessThanOrEqual(
      0.5 / rates[0] + 0.5 / rates[1] + 1e-6,
    );
    expect(await numbersInPictures()).toEqual([slow, fast]);
  });

  it('turns one picture over, and swaps the runners with their pictures', async () => {
    const scale = () =>
      sitting.page.locator('.side-canvas').evaluateAll((all) => all.map((one) => getComputedStyle(one).scale));
    expect(await scale()).toEqual(['none', 'none']);
    await sitting.press('m');
    expect(await scale()).toEqual(['none', '-1 1']);
    const before = await shownCarries();
    await sitting.press('s');
    await expect.poll(shownCarries).toEqual(before.toReversed());
    expect(await sitting.page.getByLabel('Runner on the left').inputValue()).toBe(secondId);
    await expect.poll(scale).toEqual(['-1 1', 'none']);
    await sitting.press('Shift+M', 's');
    await expect.poll(shownCarries).toEqual(before);
    await framesShown();
  });

  it('shows pair after pair with what they share and differ in', async () => {
    const { pairs } = valueOf((await view()).pairs);
    for (const pair of pairs.slice(1, 3)) {
      await sitting.press('ArrowDown');
      expect(await shownCarries()).toEqual([pair.first, pair.second]);
      const words = await sitting.page.locator('.side-pair-line p').textContent();
      for (const one of [...pair.same, ...pair.differ]) expect(words).toContain(one);
      await framesShown();
    }
    await sitting.page.locator('.side-pair-list button').last().click();
    const last = pairs.at(-1);
    expect(await shownCarries()).toEqual([last?.first, last?.second]);
    await framesShown();
  });

  it('shows the differences the door gives, every one in the table', async () => {
    const both = await view();
    await sitting.page.getByRole('button', { name: /^Grades: .* as a table/ }).press('Enter');
    const rows = await sitting.page
      .getByRole('table', { name: 'Differences in figures' })
      .locator('tbody tr')
      .evaluateAll((all) => all.map((row) => [...row.querySelectorAll('td')].map((cell) => cell.textContent)));
    const signed = (value: number): string =>
      Number(value.toFixed(2)) === 0 ? '0.00' : `${value < 0 ? '−' : '+'}${Math.abs(value).toFixed(2)}`;
    const flat = [
      { difference: both.overall.difference },
      ...both.families.flatMap((family) => [family, ...family.traits]),
    ];
    expect(rows.map((row) => row.slice(4, 7))).toEqual(
      flat.map(({ difference }) => {
        const { difference: gap, low, high, chance } = valueOf(difference);
        return [signed(gap), `${signed(low)} to ${signed(high)}`, (100 * chance).toFixed(1)];
      }),
    );
    await sitting.page.getByRole('button', { name: /^Grades: .* as a chart/ }).press('Enter');
    const results = (await sitting.page.getByRole('table', { name: 'Results of both' }).textContent()) ?? '';
    const { difference, low, high } = valueOf(both.success);
    for (const share of [difference, low, high]) {
      expect(results).toContain(Math.abs(share).toFixed(3).replace(/^0/, ''));
    }
    expect(results).toContain(Math.abs(valueOf(both.delta).difference).toFixed(1));
    expect(results).toContain(`${valueOf(both.first.success).n} carries`);
  });

  it.each(['dark', 'light'] as const)('has no fault that axe-core can find: %s', async (theme) => {
    await sitting.page.evaluate((name) => (document.documentElement.dataset['theme'] = name), theme);
    expect(await axeFaults(sitting.page)).toEqual([]);
    const table = sitting.page.getByRole('button', { name: /^Grades: .* as a/ });
    await table.click();
    expect(await axeFaults(sitting.page)).toEqual([]);
    await table.click();
  });

  it('says so when one runner stands on both sides', async () => {
    await sitting.page.getByLabel('Runner on the right').selectOption(firstId);
    await sitting.page.getByText('Dez Okafor-Lyle stands on both sides').waitFor();
    await sitting.page.getByLabel('Runner on the right').selectOption(secondId);
    await framesShown();
  });

  it('never complains and never asks a stranger', () => {
    expect(sitting.complaints).toEqual([]);
    expect(sitting.strangers).toEqual([]);
  });
});
