import type { Page } from 'playwright';
import { codeBits } from '../../scripts/coded-picture.ts';

/** The frame number the window says, from the clock over the film. */
export async function frameSaid(page: Page): Promise<number> {
  const words = (await page.locator('.film-clock').first().textContent()) ?? '';
  return Number(/^frame ([\d\s]+?) ·/.exec(words)?.[1]?.replaceAll(/\s/g, '') ?? Number.NaN);
}

/** Waits until the exact picture of the frame that is said has been painted; gives the frame. */
export async function settled(page: Page): Promise<number> {
  await page.waitForFunction(() => {
    const film = document.querySelector<HTMLElement>('.film');
    const words = film?.querySelector('.film-clock')?.textContent ?? '';
    const said = /^frame ([\d\s]+?) ·/.exec(words)?.[1]?.replaceAll(/\s/g, '');
    return film?.dataset['onTop'] === 'exact' && film.querySelector('canvas')?.dataset['frame'] === said;
  });
  return frameSaid(page);
}

/** The number written in the picture's own pixels, on the exact canvas or in the player; films of scripts/make-test-film.ts. */
export function numberInPicture(page: Page, which: 'exact' | 'video' = 'exact'): Promise<number> {
  return page.evaluate(
    ({ which, bits }) => {
      const film = document.querySelector('.film');
      const source =
        which === 'exact'
          ? film?.querySelector<HTMLCanvasElement>('canvas.film-exact')
          : film?.querySelector<HTMLVideoElement>('video');
      const scratch = document.createElement('canvas');
      scratch.width = 320;
      scratch.height = 180;
      const context = scratch.getContext('2d', { willReadFrequently: true });
      if (context === null || source === null || source === undefined) return Number.NaN;
      context.drawImage(source, 0, 0, 320, 180);
      const { data } = context.getImageData(0, 157, 320, 1);
      let number = 0;
      for (let bit = 0; bit < bits; bit += 1) {
        const x = Math.floor((320 * (bit + 0.5)) / bits);
        if ((data[x * 4 + 1] ?? 0) > 125) number += 2 ** bit;
      }
      return number;
    },
    { which, bits: codeBits },
  );
}

/**
 * Goes to a frame as a person does: a click on the rail where it shows the whole film and the way is long, then the
 * arrow keys. Not counted as keys.
 */
export async function goToFrame(page: Page, frame: number): Promise<void> {
  const rail = page.locator('.rail svg');
  const wholeFilm = (await page.locator('.rail .outside').count()) === 0;
  if (wholeFilm && Math.abs((await frameSaid(page)) - frame) > 25) {
    const [box, last] = [await rail.boundingBox(), Number(await rail.getAttribute('aria-valuemax'))];
    // 24 pixels of margin on both sides of the axis.
    if (box !== null) await page.mouse.click(box.x + 24 + (frame / last) * (box.width - 48), box.y + 68);
  }
  // A window that is still busy with the play before may come late to the first keys: look, and go on from there.
  for (let turn = 0; turn < 5; turn += 1) {
    const away = frame - Number(await rail.getAttribute('aria-valuenow'));
    if (away === 0) break;
    const way = away > 0 ? 'Right' : 'Left';
    for (let tens = Math.floor(Math.abs(away) / 10); tens > 0; tens -= 1) {
      await page.keyboard.press(`Shift+Arrow${way}`);
    }
    for (let ones = Math.abs(away) % 10; ones > 0; ones -= 1) await page.keyboard.press(`Arrow${way}`);
    await page.waitForTimeout(40);
  }
  await page.waitForFunction(
    (wanted) => document.querySelector('.rail svg')?.getAttribute('aria-valuenow') === wanted,
    String(frame),
  );
}
