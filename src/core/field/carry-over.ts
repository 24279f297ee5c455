/** A calibration carried from frame to frame along the picture's own motion, its error growing with every step. */
import { mapKnown, type Known } from '../known.ts';
import type { ErrorSource, FieldMap } from './field-map.ts';
import { inverseOf, mapped, product, scaled, type Homography, type PlanePoint } from './homography.ts';
import { placesFrom, reach95, type PlaceProblem } from './places.ts';

/**
 * How the picture moved from one frame to another: a homography of pixels, and the columns of a factor of its
 * covariance. `refinedFit` on tracked points gives both; `to.sd` is then the error of a tracked displacement.
 */
export type PictureMotion = {
  readonly from: number;
  readonly to: number;
  readonly homography: Homography;
  readonly columns: readonly Homography[];
};

/** The same motion backwards, first-order in its error. Throws RangeError on a motion that cannot be undone. */
export function reversed(motion: PictureMotion): PictureMotion {
  const back = inverseOf(motion.homography);
  return {
    from: motion.to,
    to: motion.from,
    homography: back,
    columns: motion.columns.map((column) => scaled(product(back, product(column, back)), -1)),
  };
}

/**
 * The map of frame `motion.to`, from the map of frame `motion.from`: the product, every error of the old map carried
 * along and the motion's own added as a new cause, so that frames farther on share what lies between. Throws
 * RangeError when the motion does not start at the map's frame.
 */
export function carried(map: FieldMap, motion: PictureMotion): FieldMap {
  if (map.frame !== motion.from) {
    throw new RangeError(`a motion from frame ${map.frame} is wanted, got one from frame ${motion.from}`);
  }
  const raw = product(motion.homography, map.homography);
  // A motion's sign is free; the ground that was in front of the camera stays there.
  const middle = groundInSight(map);
  const sign = mapped(raw, middle).w < 0 ? -1 : 1;
  const along = ({ id, columns }: ErrorSource): ErrorSource => ({
    id,
    columns: columns.map((column) => scaled(product(motion.homography, column), sign)),
  });
  const own: ErrorSource = {
    id: `motion ${Math.min(motion.from, motion.to)}-${Math.max(motion.from, motion.to)}`,
    columns: motion.columns.map((column) => scaled(product(column, map.homography), sign)),
  };
  return { frame: motion.to, homography: scaled(raw, sign), sources: [...map.sources.map(along), own] };
}

/** A ground place well in front of the camera: one step down the gradient of w from the field's middle. */
function groundInSight(map: FieldMap): PlanePoint {
  const [, , , , , , a, b] = map.homography;
  const middle = { x: 50, y: 80 / 3 };
  const w = mapped(map.homography, middle).w;
  if (w > 0) return middle;
  const reach = (1 - w) / (a * a + b * b);
  return { x: middle.x + reach * a, y: middle.y + reach * b };
}

/** Whether a carried map still serves, and the largest 95 % error in yards over the spots asked for. */
export type Standing = { readonly good: boolean; readonly error: number };

/**
 * Whether a map is still good at spots of the picture (pixels, at least one): the largest 95 % half axis there is at
 * most `limit` yards (above 0). Click error is left out: this judges the map alone. Reasons as `placesFrom`.
 */
export function standingAt(map: FieldMap, spots: readonly PlanePoint[], limit: number): Known<Standing, PlaceProblem> {
  const clicked = placesFrom(spots.map(({ x, y }) => ({ map, x, y, sd: 0 })));
  return mapKnown(clicked, (places) => {
    const error = Math.max(...spots.map((_, index) => reach95(places, index)));
    return { good: error <= limit, error };
  });
}
