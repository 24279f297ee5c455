/** The body of a lane's gain: two half-normals that meet at the likely gain. */
import normalCdf from '@stdlib/stats-base-dists-normal-cdf';
import normalQuantile from '@stdlib/stats-base-dists-normal-quantile';

/** Mode in yards, share of the mass below it (0.1 to 0.9), and the two spreads in yards (0 on both sides: one sure gain). */
export type SplitNormal = {
  readonly mode: number;
  readonly below: number;
  readonly spreadBelow: number;
  readonly spreadAbove: number;
};

/**
 * The split normal with its mode at likely, a tenth of its mass under low and a tenth over high (finite yards,
 * low <= likely <= high, else throws RangeError). With low = likely the tenth below the mode is all there is below; with
 * all three equal it is one sure gain.
 * Source of the family: Fechner 1897, as in Wallis 2014, Statistical Science 29:106-112 (citation from memory).
 */
export function splitNormalFrom(low: number, likely: number, high: number): SplitNormal {
  const under = likely - low;
  const over = high - likely;
  if (!(under >= 0 && over >= 0 && under + over < Infinity)) {
    throw new RangeError(`a split normal wants low <= likely <= high, got ${low}, ${likely}, ${high}`);
  }
  if (under + over === 0) return { mode: likely, below: 0.5, spreadBelow: 0, spreadAbove: 0 };
  // The share below the mode settles how far a tenth lies from it on either side: rising in the share, so halve.
  let least = 0.1;
  let most = 0.9;
  for (let step = 0; step < 60; step += 1) {
    const share = (least + most) / 2;
    if (under * reach(1 - share) > over * reach(share)) least = share;
    else most = share;
  }
  const below = under === 0 ? 0.1 : over === 0 ? 0.9 : (least + most) / 2;
  const scale = (under + over) / (reach(below) + reach(1 - below));
  return { mode: likely, below, spreadBelow: below * scale, spreadAbove: (1 - below) * scale };
}

/** Distance from the mode, in the whole scale, beyond which a tenth lies on a side that holds this share. */
function reach(share: number): number {
  return share <= 0.1 ? 0 : share * normalQuantile(1 - 0.05 / share, 0, 1);
}

/** The chance of at most x yards, 0 to 1. Throws RangeError on NaN. */
export function splitNormalCdf(body: SplitNormal, x: number): number {
  if (Number.isNaN(x)) throw new RangeError('a chance of at most x yards wants a number, got NaN');
  if (body.spreadBelow === 0 && body.spreadAbove === 0) return x < body.mode ? 0 : 1;
  return x <= body.mode
    ? 2 * body.below * normalCdf(x, body.mode, body.spreadBelow)
    : body.below + (1 - body.below) * (2 * normalCdf(x, body.mode, body.spreadAbove) - 1);
}
