import type { GameRow } from './rows.ts';

const DEZ = 'okafor-lyle';
const BRASK = 'brask';
const QUILLANE = 'quillane';
const HEELS = { decision: 'good', press: 'to the heels', feet: 'tidy' } as const;

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
  note: 'Every carry of the three runners is on the film and logged; snaps without the ball are not all on it.',
  officialLines: [
    { runnerId: DEZ, attempts: 11, yards: 57, touchdowns: 1, fumblesLost: 0, snaps: 38 },
    { runnerId: BRASK, attempts: 5, yards: 28, touchdowns: 0, fumblesLost: 0, snaps: 21 },
    { runnerId: QUILLANE, attempts: 4, yards: 17, touchdowns: 0, fumblesLost: 1, snaps: 33 },
  ],
  cardBefore: 16,
  series: [
    {
      offence: 'harlan-ridge',
      quarter: 1,
      clockSeconds: 680,
      spotYards: 25,
      startY: 26.667,
      drive: 1,
      awayScore: 0,
      homeScore: 0,
      rows: [
        { kind: 'carry', runner: DEZ, concept: 'inside zone', side: 'right', personnel: '11', shotgun: true, box: 6, designed: 'B', hit: 'back A', gain: 4, contact: 3, by: 'SS', pathKind: 'bend', ...HEELS, poa: 'won', option: 'give was read', endZone: true, blocks: { NT: 'won', WILL: 'won' }, holdsUp: 'yes', because: 'The crease was there for a full second; no speed was needed.', note: 'Presses the B gap until the linebacker commits, then bends behind the centre.' },
        { kind: 'carry', runner: DEZ, concept: 'outside zone', side: 'left', personnel: '12', shotgun: false, box: 7, designed: 'C', hit: 'C', gain: 1, contact: 0, by: 'FS', assist: ['SAM'], pathKind: 'on track', decision: 'poor', press: 'fair', feet: 'wasteful', poa: 'stalemate', endZone: true, holdsUp: 'no', because: 'Five short steps to turn; a faster safety arrives before the turn is done.', note: 'Feet chop on the edge while the lane closes.' },
        { kind: 'pass', runner: DEZ, part: 'protect', passKind: 'drop back', to: 'Z', at: [8, 10.5], complete: true, gain: 9, side: 'right', personnel: '11', shotgun: true, box: 6, blitzer: 'MIKE', blitz: 'middle linebacker', note: 'Scans inside out, steps up and meets the linebacker square.' },
        { kind: 'carry', runner: DEZ, concept: 'power', side: 'right', personnel: '12', shotgun: false, tightEnd: 'back side', box: 7, designed: 'C', hit: 'C', gain: 9, contact: 5, by: 'FS', pathKind: 'on track', ...HEELS, poa: 'won', blocks: { DTp: 'won', MIKE: 'won', SAM: 'won' }, endZone: true, holdsUp: 'yes', because: 'He waits for the puller and cuts off his heels; the same read works against speed.', note: 'Waits on the kick-out, then one cut off the puller.' },
        { kind: 'carry', runner: BRASK, concept: 'inside zone', side: 'left', personnel: '12', shotgun: false, box: 8, designed: 'A', hit: 'A', gain: 3, contact: 1, by: 'SS', pathKind: 'on track', decision: 'fair', press: 'early', feet: 'fair', poa: 'stalemate', holdsUp: 'yes', because: 'He beats the safety to the line by speed alone.', note: 'Hits it at once; no press, but the speed is there.' },
        { kind: 'carry', runner: BRASK, concept: 'outside zone', side: 'right', personnel: '11', shotgun: true, box: 6, designed: 'D', hit: 'D', gain: 14, pathKind: 'on track', decision: 'good', press: 'fair', feet: 'fair', end: 'out of bounds', through: [[4.5, 12.5, 8.2], [9, 17.5, 8.7]], poa: 'won', blocks: { DEp: 'won', CBz: 'won' }, endZone: true, replay: 0.5, holdsUp: "can't tell", because: 'The corner was blocked to the sideline; nobody tested the angle.', note: 'Turns the corner on pace alone and is run out of bounds.' },
      ],
    },
  ],
};
