import { GAME_ONE_LATER } from './game-one-later.ts';
import { GAME_ONE_OPENING } from './game-one-opening.ts';
import type { GameRow } from './rows.ts';

const DEZ = 'okafor-lyle';
const BRASK = 'brask';
const QUILLANE = 'quillane';

/** Harlan Ridge at Coldwater: every carry of the three runners is logged. */
export const GAME_ONE: GameRow = {
  id: 'harlan-ridge-at-coldwater',
  season: 2025,
  week: 6,
  date: '2025-10-04',
  away: 'harlan-ridge',
  home: 'coldwater',
  finalAwayScore: 24,
  finalHomeScore: 13,
  venue: 'coldwater',
  kits: { away: 'harlan-ridge-away', home: 'coldwater-home' },
  loggedInPart: false,
  note: 'Every carry of the three runners is on the film and logged; their snaps without the ball are not all on it.',
  officialLines: [
    { runnerId: DEZ, attempts: 11, yards: 54, touchdowns: 1, fumblesLost: 0, snaps: 38 },
    { runnerId: BRASK, attempts: 5, yards: 28, touchdowns: 0, fumblesLost: 0, snaps: 21 },
    { runnerId: QUILLANE, attempts: 4, yards: 17, touchdowns: 0, fumblesLost: 1, snaps: 33 },
  ],
  cardBefore: 16,
  series: [...GAME_ONE_OPENING, ...GAME_ONE_LATER],
};
