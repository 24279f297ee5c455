/** How one frame's picture maps the field, and where the map's error comes from. */
import { known, unknown, type Known } from '../known.ts';
import type { FieldPlace, MarkLine } from './field-marks.ts';
import { inverseOf, mapped, type Homography, type PlanePoint } from './homography.ts';

/**
 * One independent cause of a map's error, as columns of a factor: a standard normal draw for each column moves the
 * map's nine numbers by that column. Maps that share a cause share its id, so that their errors are taken together.
 */
export type ErrorSource = { readonly id: string; readonly columns: readonly Homography[] };

/** A frame's map from field yards to picture pixels, w above 0 in front of the camera. */
export type FieldMap = {
  readonly frame: number;
  readonly homography: Homography;
  readonly sources: readonly ErrorSource[];
};

/** The pixel at which a place of the ground shows, inside the picture or not; or that it lies behind the camera. */
export function toPicture(map: FieldMap, place: FieldPlace): Known<PlanePoint, 'behind the camera'> {
  const at = mapped(map.homography, place);
  if (!(at.w > 0)) return unknown('behind the camera', 'That place lies behind the camera in this frame.');
  return known({ x: at.x, y: at.y });
}

/** The place of the ground that shows at a pixel, in yards, on the field or not; or that the pixel is sky. */
export function toField(map: FieldMap, pixel: PlanePoint): Known<FieldPlace, 'above the horizon'> {
  const at = mapped(inverseOf(map.homography), pixel);
  if (!(at.w > 0)) return unknown('above the horizon', 'That spot of the picture is above the horizon, not ground.');
  return known({ x: at.x, y: at.y });
}

/** The part of a line of the field that lies in front of the camera, in pixels; null when none does. */
export function lineInPicture(
  map: FieldMap,
  { from, to }: MarkLine,
): { readonly from: PlanePoint; readonly to: PlanePoint } | null {
  const [, , , , , , a, b, c] = map.homography;
  const depth = ({ x, y }: FieldPlace) => a * x + b * y + c;
  // A hundredth of the clicked points' depth keeps the ends away from infinity.
  const near = 0.01;
  const start = depth(from);
  const end = depth(to);
  if (start < near && end < near) return null;
  const between = (share: number) => ({ x: from.x + share * (to.x - from.x), y: from.y + share * (to.y - from.y) });
  const edge = (near - start) / (end - start);
  return {
    from: mapped(map.homography, start < near ? between(edge) : from),
    to: mapped(map.homography, end < near ? between(edge) : to),
  };
}
