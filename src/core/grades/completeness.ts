/** Logged carries against the game's official line, so that a selective log is said aloud. */
import { type Known, known, unknown } from '../known.ts';

/** One game of one runner. Yards may be missing (null): of the log when a gain is not charted, of the line when not kept. */
export type LoggedGame = {
  readonly game: string;
  readonly carries: number;
  readonly yards: number | null;
  readonly attempts: number;
  readonly officialYards: number | null;
};

/** Why there is no answer. */
export type NoCompleteness =
  | 'no official attempts'
  | 'more logged than official'
  | 'yards not kept'
  | 'nothing unlogged'
  | 'nothing logged';

/** Counts are of carries; yards per carry are yards. */
export type Completeness = {
  readonly logged: number;
  readonly attempts: number;
  /** Logged over official, 0 to 1, and whether that is enough (90 % by default). */
  readonly share: number;
  readonly complete: boolean;
  readonly unlogged: number;
  readonly loggedYardsPerCarry: Known<number, NoCompleteness>;
  readonly unloggedYardsPerCarry: Known<number, NoCompleteness>;
};

/** Share of carries from which a log counts as complete. Common practice, no source. */
export const completeFrom = 0.9;

/**
 * How complete a runner's log is over games with an official line, and how the carries that were not logged did: the
 * official yards less the logged ones over the attempts not logged. Reasons: 'no official attempts'; 'more logged than
 * official' (the line or the log is wrong); for the yards also 'yards not kept', 'nothing logged', 'nothing unlogged'.
 * Throws RangeError on a count that is not whole or below 0.
 */
export function completeness(games: readonly LoggedGame[], enough = completeFrom): Known<Completeness, NoCompleteness> {
  let logged = 0;
  let attempts = 0;
  let loggedYards = 0;
  let officialYards = 0;
  let yardsKept = true;
  for (const game of games) {
    for (const count of [game.carries, game.attempts]) {
      if (!Number.isInteger(count) || count < 0)
        throw new RangeError(`carries want a whole number from 0, got ${count}`);
    }
    if (game.carries > game.attempts) {
      return unknown(
        'more logged than official',
        `${game.carries} carries are logged in a game whose official line has ${game.attempts}.`,
      );
    }
    logged += game.carries;
    attempts += game.attempts;
    if (game.yards === null || game.officialYards === null) yardsKept = false;
    else {
      loggedYards += game.yards;
      officialYards += game.officialYards;
    }
  }
  if (attempts === 0) return unknown('no official attempts', 'No official line gives this runner an attempt.');
  const unlogged = attempts - logged;
  const share = logged / attempts;
  const perCarry = (yards: number, carries: number, none: 'nothing logged' | 'nothing unlogged', detail: string) => {
    if (carries === 0) return unknown(none, detail);
    if (!yardsKept) return unknown('yards not kept', 'A gain or an official yardage is missing.');
    return known(yards / carries);
  };
  return known({
    logged,
    attempts,
    share,
    complete: share >= enough,
    unlogged,
    loggedYardsPerCarry: perCarry(loggedYards, logged, 'nothing logged', 'No carry is logged.'),
    unloggedYardsPerCarry: perCarry(
      officialYards - loggedYards,
      unlogged,
      'nothing unlogged',
      'Every carry is logged.',
    ),
  });
}
