import { readFileSync } from 'node:fs';
import { gunzipSync } from 'node:zlib';
import { fieldWidth } from '../../../src/core/field/field-marks.ts';
import { mapped, type Homography } from '../../../src/core/field/homography.ts';
import { placeOf, type NamedPoint } from '../../../src/core/field/named-point.ts';
import { valueOf } from '../../value-of.ts';

const films = [
  'harlan-ridge-at-coldwater-sideline',
  'harlan-ridge-at-coldwater-end-zone',
  'pell-harbor-at-harlan-ridge-sideline',
  'pell-harbor-at-harlan-ridge-end-zone',
];

type Span = { readonly kind: string; readonly cameras: readonly (readonly number[])[] };

/** True ground homographies of the demo's films, `each` frames apart within a span. */
export function demoCameras(each: number): readonly Homography[] {
  return films.flatMap((film) => {
    const url = new URL(`../../../demo/truth/${film}.json.gz`, import.meta.url);
    const { spans } = JSON.parse(gunzipSync(readFileSync(url)).toString()) as { readonly spans: readonly Span[] };
    return spans
      .filter(({ kind }) => kind === 'play')
      .flatMap(({ cameras }) => cameras.filter((_, index) => index % each === 0))
      .map((m): Homography => {
        const n = (index: number) => m[index] ?? 0;
        return [n(0), n(1), n(3), n(4), n(5), n(7), n(8), n(9), n(11)];
      });
  });
}

/** True when a pixel lies in a picture of 1280 by 720. */
export const isInPicture = ({ x, y, w }: { readonly x: number; readonly y: number; readonly w: number }) =>
  w > 0 && x > 0 && x < 1280 && y > 0 && y < 720;

/** Named points of a college field that show in the picture. */
export function pointsInSight(
  camera: Homography,
): readonly { readonly point: NamedPoint; readonly x: number; readonly y: number }[] {
  const points: NamedPoint[] = [];
  for (let line = 0; line <= 100; line += 5) {
    for (const side of ['left', 'right'] as const) {
      for (const mark of ['sideline', 'hash'] as const) points.push({ kind: 'yard line', line, mark, side });
      if (line % 10 === 0 && line > 0 && line < 100) points.push({ kind: 'yard line', line, mark: 'number top', side });
    }
  }
  return points.flatMap((point) => {
    const at = mapped(camera, valueOf(placeOf(point, 'college')));
    return isInPicture(at) ? [{ point, x: at.x, y: at.y }] : [];
  });
}

/** Places every 2 yards across the field that show in the picture. */
export function groundInSight(camera: Homography): readonly { readonly x: number; readonly y: number }[] {
  const places: { readonly x: number; readonly y: number }[] = [];
  for (let x = 0; x <= 100; x += 2) {
    for (let y = 1; y < fieldWidth; y += 2) {
      const at = mapped(camera, { x, y });
      if (isInPicture(at)) places.push({ x, y });
    }
  }
  return places;
}
