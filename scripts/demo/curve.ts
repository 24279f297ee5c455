/** A value at a frame; curves pass through every knot. */
export type Knot = { readonly frame: number; readonly u: number; readonly w: number };

function slopes(frames: readonly number[], values: readonly number[]): number[] {
  const count = values.length;
  const secants = frames.slice(1).map((frame, at) => {
    const run = frame - (frames[at] ?? 0);
    return run === 0 ? 0 : ((values[at + 1] ?? 0) - (values[at] ?? 0)) / run;
  });
  return Array.from({ length: count }, (_, at) => {
    const before = secants[at - 1];
    const after = secants[at];
    if (before === undefined || after === undefined) return (before ?? after ?? 0) * (at === 0 ? 1 : 0);
    return before * after <= 0 ? 0 : (2 * before * after) / (before + after);
  });
}

/** Monotone cubic through the knots (no overshoot: figures never drift past where they are sent); holds outside. */
export function trackOf(knots: readonly Knot[], frameCount: number): [number, number][] {
  const frames = knots.map((knot) => knot.frame);
  const us = knots.map((knot) => knot.u);
  const ws = knots.map((knot) => knot.w);
  const uSlopes = slopes(frames, us);
  const wSlopes = slopes(frames, ws);
  const last = frames.length - 1;
  let segment = 0;
  return Array.from({ length: frameCount }, (_, frame) => {
    if (frame <= (frames[0] ?? 0)) return [us[0] ?? 0, ws[0] ?? 0];
    if (frame >= (frames[last] ?? 0)) return [us[last] ?? 0, ws[last] ?? 0];
    while (segment < last - 1 && frame > (frames[segment + 1] ?? 0)) segment += 1;
    const start = frames[segment] ?? 0;
    const run = (frames[segment + 1] ?? 0) - start;
    const t = (frame - start) / run;
    const blend = (values: readonly number[], steep: readonly number[]): number =>
      (values[segment] ?? 0) * (1 + 2 * t) * (1 - t) * (1 - t) +
      (steep[segment] ?? 0) * run * t * (1 - t) * (1 - t) +
      (values[segment + 1] ?? 0) * t * t * (3 - 2 * t) +
      (steep[segment + 1] ?? 0) * run * t * t * (t - 1);
    return [blend(us, uSlopes), blend(ws, wSlopes)];
  });
}

/** Smooths a series in time with a Gaussian of `sigma` frames; ends are held. */
export function smoothed(values: readonly number[], sigma: number): number[] {
  const reach = Math.ceil(sigma * 3);
  const weights = Array.from({ length: reach * 2 + 1 }, (_, at) =>
    Math.exp(-((at - reach) ** 2) / (2 * sigma * sigma)),
  );
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  const last = values.length - 1;
  return values.map((_, frame) =>
    weights.reduce((sum, weight, at) => {
      const from = Math.min(last, Math.max(0, frame + at - reach));
      return sum + (weight / total) * (values[from] ?? 0);
    }, 0),
  );
}

/** Smooths a path in time with a Gaussian of `sigma` frames. */
export function smoothedPath(path: readonly (readonly [number, number])[], sigma: number): [number, number][] {
  const us = smoothed(
    path.map((place) => place[0]),
    sigma,
  );
  const ws = smoothed(
    path.map((place) => place[1]),
    sigma,
  );
  return us.map((u, frame) => [u, ws[frame] ?? 0]);
}

/** Smooths a series of angles (radians) without tearing at a half turn. */
export function smoothedAngles(angles: readonly number[], sigma: number): number[] {
  const xs = smoothed(angles.map(Math.cos), sigma);
  const ys = smoothed(angles.map(Math.sin), sigma);
  return xs.map((x, frame) => Math.atan2(ys[frame] ?? 0, x));
}

/** Speed in yards a second at each frame of a path sampled once a frame. */
export function speedsOf(path: readonly (readonly [number, number])[], frameSeconds: number): number[] {
  const last = path.length - 1;
  return path.map((_, frame) => {
    const from = path[Math.max(0, frame - 1)];
    const to = path[Math.min(last, frame + 1)];
    if (!from || !to) return 0;
    const frames = Math.min(last, frame + 1) - Math.max(0, frame - 1);
    return frames === 0 ? 0 : Math.hypot(to[0] - from[0], to[1] - from[1]) / (frames * frameSeconds);
  });
}
