/** A frame's calibration from clicks on named points: how the picture maps the field, and how sure that is. */
import { known, unknown, type Known } from '../known.ts';
import { marksPresets, type FieldPlace, type MarksPreset } from './field-marks.ts';
import { extentOf, firstRepeat, mostOnALine } from './direct-fit.ts';
import { determinantOf, mapped, scaled, type Homography, type PlanePoint } from './homography.ts';
import type { FieldMap } from './field-map.ts';
import { dependsOnPreset, placeOf, pointInWords, type NamedPoint } from './named-point.ts';
import { reach95, placesFrom } from './places.ts';
import { refinedFit, type MeasuredPair, type RefinedFit } from './refined-fit.ts';

/** A named point clicked at a pixel; `sd` is the click's standard deviation a coordinate in pixels, above 0. */
export type PointClick = { readonly point: NamedPoint; readonly x: number; readonly y: number; readonly sd: number };

/** Why clicks give no calibration. The three `marks fit` reasons name the level to switch to. */
export type CalibrationProblem =
  | 'fewer than four points'
  | 'same place twice'
  | 'points on one line'
  | 'not a number'
  | 'off the field'
  | 'no such mark'
  | 'behind the camera'
  | 'mirror image'
  | 'badly conditioned'
  | 'points disagree'
  | `${MarksPreset} marks fit`;

/** How far the map misses one click: map less click, in pixels. */
export type PointResidual = {
  readonly point: NamedPoint;
  readonly dx: number;
  readonly dy: number;
  readonly pixels: number;
};

/** A calibrated frame. */
export type Calibration = FieldMap & {
  readonly preset: MarksPreset;
  readonly residuals: readonly PointResidual[];
  /** The point the map misses by most pixels; with four points every residual is 0 and this says nothing. */
  readonly worst: PointResidual;
  readonly rmsPixels: number;
  /** 1, or the factor by which all errors are widened because the points disagree more than their clicks explain. */
  readonly widened: number;
  /** The point whose leaving out mends most of a disagreement; null when there is none or too few points to tell. */
  readonly suspect: NamedPoint | null;
};

/** What the fit is asked for: the frame's index names the error the calibration shares with what is carried from it. */
export type CalibrationChoices = { readonly frame: number; readonly preset: MarksPreset };

/** Yards a clicked point may be off (95 %) before the set counts as badly conditioned (own convention). */
const worstErrorAllowed = 3;
/** Residuals this many times what clicks explain are a mistake, not an error to widen by (own convention). */
const disagreementRefused = 10;
/** Least distance of distinct marks in yards: half a yard line's step. */
const fieldReach = 0.25;

/**
 * The calibration of one frame. Every reason is a sentence that names the fault and its points. Errors are the clicks'
 * own, propagated; when residuals exceed the 99.9 % point of chi-square they are widened by the square root of
 * chi-square over its degrees (Birge 1932, Phys. Rev. 40:207, from memory). Throws RangeError on an sd not above 0.
 */
export function calibrate(
  clicks: readonly PointClick[],
  { frame, preset }: CalibrationChoices,
): Known<Calibration, CalibrationProblem> {
  const placed = pairsOf(clicks, preset);
  if (!placed.known) return placed;
  const pairs = placed.value;
  const unfit = unfitSet(clicks, pairs);
  if (unfit !== null) return unfit;
  const fitted = refinedFit(pairs);
  if (!fitted.known) return fitted;
  const fit = fitted.value;
  const wrong = wrongView(clicks, pairs, fit.homography);
  const bound = chiSquareBound(fit.degrees);
  if (fit.chiSquare > bound || wrong !== null) {
    const other = fittingPreset(clicks, preset, fit);
    if (other !== null) {
      return unknown(
        `${other} marks fit`,
        `With ${preset} marks the points disagree (${rms(fit).toFixed(1)} px); with ${other} marks they agree. ` +
          `Switch to ${other} marks, or look at the hash and number points again.`,
      );
    }
  }
  if (wrong !== null) {
    // One bad name can bend the whole map, and the point it pushes behind the camera need not be the bad one.
    const bad = soleMistake(clicks, pairs);
    if (bad === null) return wrong;
    return unknown(
      'points disagree',
      `All points but one agree. Look at ${pointInWords(bad)}: its name or its place is likely wrong.`,
    );
  }
  const ratio = fit.chiSquare > bound ? Math.sqrt(fit.chiSquare / fit.degrees) : 1;
  const suspect = ratio > 1 ? suspectOf(clicks, pairs, fit) : null;
  const residuals = clicks.map(({ point }, index): PointResidual => {
    const { x, y } = fit.residuals[index] ?? { x: 0, y: 0 };
    return { point, dx: x, dy: y, pixels: Math.hypot(x, y) };
  });
  const worst = residuals.reduce((most, one) => (one.pixels > most.pixels ? one : most));
  if (ratio > disagreementRefused) {
    return unknown(
      'points disagree',
      `The points miss their places by ${rms(fit).toFixed(1)} px. ` +
        `Look first at ${pointInWords(suspect ?? worst.point)}: its name or its place is likely wrong.`,
    );
  }
  const calibration: Calibration = {
    frame,
    homography: fit.homography,
    sources: [{ id: `clicks ${frame}`, columns: fit.factor.map((column) => scaled(column, ratio)) }],
    preset,
    residuals,
    worst,
    rmsPixels: rms(fit),
    widened: ratio,
    suspect,
  };
  return firmly(calibration, clicks, pairs);
}

function pairsOf(
  clicks: readonly PointClick[],
  preset: MarksPreset,
): Known<readonly (MeasuredPair & { readonly from: FieldPlace })[], CalibrationProblem> {
  const pairs: MeasuredPair[] = [];
  for (const { point, x, y, sd } of clicks) {
    const place = placeOf(point, preset);
    if (!place.known) return place;
    pairs.push({ from: place.value, to: { x, y }, sd });
  }
  return known(pairs);
}

/** Faults that show before anything is fitted. */
function unfitSet(clicks: readonly PointClick[], pairs: readonly MeasuredPair[]) {
  const words = (index: number) =>
    pointInWords(clicks[index]?.point ?? { kind: 'pylon', goal: 'own', line: 'goal line', side: 'left' });
  if (pairs.length < 4) {
    return unknown('fewer than four points', `A calibration wants at least 4 points, got ${pairs.length}. Click more.`);
  }
  const places = pairs.map(({ from }) => from);
  const named = firstRepeat(places, fieldReach);
  if (named !== null) {
    return unknown(
      'same place twice',
      `${words(named[0])} and ${words(named[1])} are one place of the field. Remove one.`,
    );
  }
  const spots = pairs.map(({ to }) => to);
  const pixelReach = Math.max(...pairs.map(({ sd }) => sd));
  const clicked = firstRepeat(spots, pixelReach);
  if (clicked !== null) {
    return unknown(
      'same place twice',
      `${words(clicked[0])} and ${words(clicked[1])} were clicked on one spot of the picture. Move one.`,
    );
  }
  const onOneLine = 'All points but at most one lie on one line';
  if (mostOnALine(places, fieldReach) >= places.length - 1) {
    return unknown('points on one line', `${onOneLine} of the field. Click a point on another line.`);
  }
  if (mostOnALine(spots, Math.min(3 * pixelReach, extentOf(spots) / 50)) >= spots.length - 1) {
    return unknown('points on one line', `${onOneLine} of the picture. Click points farther apart.`);
  }
  return null;
}

/** A map no camera above the ground can make: points behind it, or left and right exchanged. */
function wrongView(clicks: readonly PointClick[], pairs: readonly MeasuredPair[], homography: Homography) {
  const behind = pairs.findIndex(({ from }) => mapped(homography, from).w <= 0);
  const point = clicks[behind]?.point;
  if (point !== undefined) {
    return unknown(
      'behind the camera',
      `These points would put ${pointInWords(point)} behind the camera. A name or a click is wrong.`,
    );
  }
  // Field and picture both have y on the right hand of x as seen from above, so a real view keeps the sense of turning.
  if (determinantOf(homography) <= 0) {
    return unknown(
      'mirror image',
      'These points show the field in a mirror: left and right are exchanged in the names.',
    );
  }
  return null;
}

const rms = (fit: RefinedFit) =>
  Math.sqrt(fit.residuals.reduce((sum, { x, y }) => sum + x * x + y * y, 0) / fit.residuals.length);

/** The 99.9 % point of chi-square (Wilson & Hilferty 1931, PNAS 17:684-688, from memory); for 0 degrees a hair. */
function chiSquareBound(degrees: number): number {
  if (degrees === 0) return Infinity;
  const a = 2 / (9 * degrees);
  return degrees * (1 - a + 3.0902 * Math.sqrt(a)) ** 3;
}

/** Another level whose marks fit within their bound, or null. */
function fittingPreset(clicks: readonly PointClick[], preset: MarksPreset, fit: RefinedFit): MarksPreset | null {
  if (fit.degrees === 0 || !clicks.some(({ point }) => dependsOnPreset(point))) return null;
  for (const other of marksPresets) {
    if (other === preset) continue;
    const pairs = pairsOf(clicks, other);
    if (!pairs.known) continue;
    const trial = refinedFit(pairs.value);
    if (!trial.known || wrongView(clicks, pairs.value, trial.value.homography) !== null) continue;
    if (trial.value.chiSquare <= chiSquareBound(trial.value.degrees)) return other;
  }
  return null;
}

/** The point whose leaving out lowers chi-square most; null below six points, where every one would. */
function suspectOf(clicks: readonly PointClick[], pairs: readonly MeasuredPair[], fit: RefinedFit): NamedPoint | null {
  if (pairs.length < 6) return null;
  let least = fit.chiSquare;
  let suspect: NamedPoint | null = null;
  for (const [index, { point }] of clicks.entries()) {
    const without = refinedFit(pairs.filter((_, at) => at !== index));
    if (without.known && without.value.chiSquare < least) {
      least = without.value.chiSquare;
      suspect = point;
    }
  }
  return suspect;
}

/** The one point without which all others agree in a possible view; null when there is none, or below six points. */
function soleMistake(clicks: readonly PointClick[], pairs: readonly MeasuredPair[]): NamedPoint | null {
  if (pairs.length < 6) return null;
  for (const [index, { point }] of clicks.entries()) {
    const others = pairs.filter((_, at) => at !== index);
    const fit = refinedFit(others);
    if (!fit.known || fit.value.chiSquare > chiSquareBound(fit.value.degrees)) continue;
    const names = clicks.filter((_, at) => at !== index);
    if (wrongView(names, others, fit.value.homography) === null) return point;
  }
  return null;
}

/** The calibration unless some clicked point's own place is hardly held. */
function firmly(
  calibration: Calibration,
  clicks: readonly PointClick[],
  pairs: readonly MeasuredPair[],
): Known<Calibration, CalibrationProblem> {
  const spots = pairs.map(({ from, sd }) => {
    const at: PlanePoint = mapped(calibration.homography, from);
    return { map: calibration, x: at.x, y: at.y, sd };
  });
  for (const [index, spot] of spots.entries()) {
    const place = placesFrom([spot]);
    const error = place.known ? reach95(place.value, 0) : Infinity;
    const point = clicks[index]?.point;
    if (!(error <= worstErrorAllowed) && point !== undefined) {
      return unknown(
        'badly conditioned',
        `The points hold the picture too loosely: ${pointInWords(point)} itself would be off by up to ` +
          `${Number.isFinite(error) ? error.toFixed(1) : 'many'} yd. Click points farther apart, across both ways.`,
      );
    }
  }
  return known(calibration);
}
