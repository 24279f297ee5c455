/**
 * Charts are drawn in percents of whatever room they are given, so that their letters keep their size in rem at any
 * width, on screen and on paper, without a line of script.
 */
import { scaleLinear } from 'd3-scale';

/** Makes the map from values to places along an axis as "42.5%", with values beyond the ends kept at the ends. */
export function percentScale(from: number, to: number, start = 0, end = 100): (value: number) => string {
  const scale = scaleLinear([from, to], [start, end]).clamp(true);
  return (value) => percent(scale(value));
}

/** Writes a number of percents with at most three decimals. */
export function percent(value: number): string {
  return `${Number(value.toFixed(3))}%`;
}
