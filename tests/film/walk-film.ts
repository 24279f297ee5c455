import type { Page } from 'playwright';
import type { FilmTools } from './page/main.ts';
import { testSize } from './test-films.ts';

/** What came of asking for a frame: the number read in its painted picture, or why there was none. */
export type Seen = { readonly asked: number; readonly read: number | string };

/** A walk over a film: steps on, steps back, and jumps, `count` in all, the same for the same seed. */
export function planWalk(frames: number, count: number, seed: number): { frame: number; direction: 1 | -1 }[] {
  let state = seed >>> 0;
  const random = (below: number): number => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return Math.floor((state / 2 ** 32) * below);
  };
  const plan: { frame: number; direction: 1 | -1 }[] = [];
  let frame = 0;
  while (plan.length < count) {
    frame = random(frames);
    const direction = random(2) === 0 ? 1 : -1;
    for (let step = random(20); step >= 0 && plan.length < count && frame >= 0 && frame < frames; step -= 1) {
      plan.push({ frame, direction });
      frame += direction;
    }
  }
  return plan;
}

/** Walks over a film in the page: asks, paints on a canvas, and reads the painted number back. */
export async function walkFilm(
  page: Page,
  film: string,
  plan: readonly { readonly frame: number; readonly direction: 1 | -1 }[],
  budgetBytes: number,
): Promise<{ readonly seen: Seen[]; readonly mostBytes: number }> {
  return page.evaluate(
    async ({ film, plan, budgetBytes, size }) => {
      const { tools } = globalThis as unknown as { tools: FilmTools };
      const server = tools.openFrameServer({ budgetBytes });
      const table = await tools.fetchTable(film);
      const served = await server.openFilm({ id: film, url: `/film/${film}`, table });
      const canvas = document.createElement('canvas');
      const seen: { asked: number; read: number | string }[] = [];
      let mostBytes = 0;
      for (const [place, { frame, direction }] of plan.entries()) {
        const got = await server.frame(served, frame, { direction });
        if (!got.known) {
          seen.push({ asked: frame, read: got.because });
          continue;
        }
        tools.paintFrame(canvas, got.value);
        const pixels =
          canvas.getContext('2d')?.getImageData(0, 0, size.width, size.height).data ?? new Uint8ClampedArray();
        const luma = new Uint8Array(size.width * size.height).map((_, at) => pixels[at * 4 + 1] ?? 0);
        seen.push({ asked: frame, read: tools.readCode(luma, size.width, size) });
        if (place % 50 === 0) mostBytes = Math.max(mostBytes, (await server.report()).cachedBytes);
      }
      server.close();
      return { seen, mostBytes };
    },
    { film, plan, budgetBytes, size: testSize },
  );
}
