import { readFileSync, writeFileSync } from 'node:fs';

/** Where the window was: kept between starts beside the program's own files, never in a study. */
export type WindowPlace = { readonly x: number; readonly y: number; readonly width: number; readonly height: number };

const isPlace = (value: unknown): value is WindowPlace =>
  typeof value === 'object' &&
  value !== null &&
  (['x', 'y', 'width', 'height'] as const).every((key) => key in value && Number.isInteger(Reflect.get(value, key)));

/** Reads where the window was; null when that is not known or now lies outside every screen. */
export function readPlace(path: string, screens: readonly WindowPlace[]): WindowPlace | null {
  let place: unknown;
  try {
    place = JSON.parse(readFileSync(path, 'utf8'));
  } catch {
    return null;
  }
  if (!isPlace(place)) return null;
  const { x, y, width, height } = place;
  const seen = screens.some(
    (screen) =>
      x + width > screen.x + 100 &&
      x < screen.x + screen.width - 100 &&
      y >= screen.y - 10 &&
      y < screen.y + screen.height - 100,
  );
  return seen && width >= 600 && height >= 400 ? { x, y, width, height } : null;
}

/** Keeps where the window is; a place that can't be kept is forgotten without a word. */
export function keepPlace(path: string, { x, y, width, height }: WindowPlace): void {
  try {
    writeFileSync(path, `${JSON.stringify({ x, y, width, height })}\n`);
  } catch {
    // The next start opens in the middle, which is no harm.
  }
}
