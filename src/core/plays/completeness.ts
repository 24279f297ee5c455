/** What is logged of a runner against the official book of the game. */
import { type Known, known, unknown } from '../known.ts';

/** Carries logged and in the book; share = logged / official (above 1 when more are logged); complete from 90 %. */
export type Completeness = {
  readonly logged: number;
  readonly official: number;
  readonly share: number;
  readonly complete: boolean;
};

/** A game as logged and as the book has it; official figures are null where the book is not known. */
export type GameLine = {
  readonly logged: number;
  readonly loggedYards: number;
  readonly official: number | null;
  readonly officialYards: number | null;
};

/**
 * Logged carries against the book over games (only those whose book is known). Complete means that at least 90 % are
 * logged, by whole-number arithmetic; the limit is the program's own. Reasons: 'no official line' (no game has one),
 * 'no official attempts' (the book has none). Throws RangeError on counts that are not whole numbers from 0.
 */
export function completeness(
  games: readonly GameLine[],
): Known<Completeness, 'no official line' | 'no official attempts'> {
  let logged = 0;
  let official = 0;
  let compared = 0;
  for (const game of games) {
    checkAttempts(game.logged);
    if (game.official === null) continue;
    checkAttempts(game.official);
    compared += 1;
    logged += game.logged;
    official += game.official;
  }
  if (compared === 0) return unknown('no official line', 'No game has an official line to set the log beside.');
  if (official === 0)
    return unknown('no official attempts', `The official lines have no carries; ${logged} are logged.`);
  return known({ logged, official, share: logged / official, complete: logged * 10 >= official * 9 });
}

/** Carries the book has and the log has not, and what they must have gained. */
export type Unlogged = {
  readonly carries: number;
  readonly yards: number;
  /** Yards a carry, logged and not. */
  readonly loggedMean: number;
  readonly unloggedMean: number;
};

/**
 * How logged and unlogged carries differ: the book less the log, over games whose attempts and yards are both known.
 * Reasons: 'no official yards', 'nothing unlogged' (as many or more logged than the book has), 'nothing logged'.
 */
export function unlogged(
  games: readonly GameLine[],
): Known<Unlogged, 'no official yards' | 'nothing unlogged' | 'nothing logged'> {
  let logged = 0;
  let loggedYards = 0;
  let carries = 0;
  let yards = 0;
  let compared = 0;
  for (const game of games) {
    checkAttempts(game.logged);
    if (game.official === null || game.officialYards === null) continue;
    checkAttempts(game.official);
    if (!(Number.isFinite(game.officialYards) && Number.isFinite(game.loggedYards))) {
      throw new RangeError(`yards want finite numbers, got ${game.officialYards} and ${game.loggedYards}`);
    }
    compared += 1;
    logged += game.logged;
    loggedYards += game.loggedYards;
    carries += game.official - game.logged;
    yards += game.officialYards - game.loggedYards;
  }
  if (compared === 0) return unknown('no official yards', 'No game has official attempts and yards.');
  if (carries <= 0) return unknown('nothing unlogged', 'As many carries are logged as the official lines have.');
  if (logged === 0) return unknown('nothing logged', 'Nothing is logged in the games with an official line.');
  return known({ carries, yards, loggedMean: loggedYards / logged, unloggedMean: yards / carries });
}

function checkAttempts(count: number): void {
  if (!(Number.isSafeInteger(count) && count >= 0)) {
    throw new RangeError(`carries want a whole number from 0, got ${count}`);
  }
}
