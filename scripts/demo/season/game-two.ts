import { GAME_TWO_THIRD_QUARTER } from './game-two-third-quarter.ts';
import { GAME_TWO_OPENING } from './game-two-opening.ts';
import type { GameRow } from './rows.ts';

const DEZ = 'okafor-lyle';
const BRASK = 'brask';

/** Pell Harbor at Harlan Ridge: logged in part; the film misses two series of the second half. */
export const GAME_TWO: GameRow = {
  id: 'pell-harbor-at-harlan-ridge',
  season: 2025,
  week: 9,
  date: '2025-10-25',
  away: 'pell-harbor',
  home: 'harlan-ridge',
  finalAwayScore: 17,
  finalHomeScore: 31,
  venue: 'harlan-ridge',
  kits: { away: 'pell-harbor-away', home: 'harlan-ridge-home' },
  loggedInPart: true,
  note: 'Two series of the second half are not on the film we hold: seven carries are missing.',
  officialLines: [
    { runnerId: DEZ, attempts: 15, yards: 71, touchdowns: 0, fumblesLost: 0, snaps: 44 },
    { runnerId: BRASK, attempts: 14, yards: 88, touchdowns: 2, fumblesLost: 0, snaps: 35 },
  ],
  cardBefore: 12,
  series: [...GAME_TWO_OPENING, ...GAME_TWO_THIRD_QUARTER],
};
