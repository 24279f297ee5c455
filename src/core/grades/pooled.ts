/** What the study as a whole says of marks, out of which each runner is graded; plain data that can be stored. */
import type { LeniencyGroup } from '../agreement/leniency.ts';
import type { NormalPrior } from './normal-prior.ts';

/** Parts of the model that a small study cannot tell and that are then assumed. */
export type AssumedPart =
  | 'class mean'
  | 'spread between runners'
  | 'spread between games'
  | 'spread within a game'
  | 'traits leaning together';

/** The model of one trait. Variances are in squared points of the 1 to 5 scale. */
export type TraitPool = {
  /** The class as prior; its `variance` is the spread between runners. */
  readonly prior: NormalPrior;
  /** Variance of one clear mark within a game, above 0. */
  readonly within: number;
  /** Variance of a runner's games around him, from 0. */
  readonly betweenGames: number;
  /** Runners and games with a mark of the trait. */
  readonly runners: number;
  readonly games: number;
  /** Degrees of freedom of the t intervals: games less runners, or those of the assumed spreads. */
  readonly degrees: number;
  readonly assumed: readonly AssumedPart[];
};

/** How much different traits lean the same way: correlations 0 to 1 of what one carry, one game, one runner adds. */
export type LeaningTogether = {
  readonly carry: number;
  readonly game: number;
  readonly runner: number;
  readonly assumed: boolean;
};

/** All of it, by trait key. */
export type Pooled = {
  readonly traits: Readonly<Record<string, TraitPool>>;
  readonly together: LeaningTogether;
  readonly leniency: readonly LeniencyGroup[];
};

/** Fewest runners that tell the class mean and the spread between runners; fewest games that tell the two others. */
export const runnersNeeded = 5;
export const gamesNeeded = 10;

/**
 * What is assumed of a trait where the study is too small to tell: a class around 3 ("takes what is there", itself
 * known to .2), runners .4 apart, a runner's games .2 apart, marks of a game .8 apart, all as standard deviations in
 * points, held as firmly as ten games would. The program's own opinion, no source; every grade that uses it says so.
 */
export const assumedPool = {
  prior: { mean: 3, meanVariance: 0.04, variance: 0.16, morris: 0 },
  within: 0.64,
  betweenGames: 0.04,
  degrees: 10,
} as const;

/** Assumed leaning together of traits where the study is too small to tell. The program's own opinion, no source. */
export const assumedTogether: LeaningTogether = { carry: 0.2, game: 0.3, runner: 0.5, assumed: true };

/** Least variance of a clear mark: that of rounding to halves (1/48), so that equal marks are never taken as exact. */
export const leastWithin = 1 / 48;
