import type { Play } from '../../../src/contract/rows.ts';
import { backAlignments, concepts, playResults } from '../../../src/contract/words.ts';
import type { SeasonPlay } from './season.ts';

const schemes = {
  'inside zone': 'zone',
  'outside zone': 'zone',
  power: 'gap',
  counter: 'gap',
  toss: 'zone',
  draw: 'other',
} as const;
const isScheme = (concept: string): concept is keyof typeof schemes => Object.hasOwn(schemes, concept);

const results: Readonly<Record<string, (typeof playResults)[number]>> = {
  tackled: 'down',
  complete: 'down',
  touchdown: 'touchdown',
  'out of bounds': 'out of bounds',
  'fumble lost': 'fumble lost',
  incomplete: 'incomplete',
  'no play': 'no play',
};

function alignmentOf(words: string | undefined): Play['backAlignment'] {
  if (words === undefined) return null;
  if (words.endsWith('left')) return 'left of the passer';
  if (words.endsWith('right')) return 'right of the passer';
  return backAlignments[0];
}

/** A play of the season as the study keeps it. */
export function playRow(play: SeasonPlay, idOf: (kind: string, name: string) => string): Play {
  const run = play.kind === 'run';
  const concept = run ? concepts.find((word) => word === play.concept) : 'pass';
  const home = play.offenceTeamId !== play.gameId.split('-at-')[0];
  const [first] = play.parts;
  return {
    id: idOf('play', play.id),
    gameId: idOf('game', play.gameId),
    position: play.number,
    series: play.series,
    quarter: play.quarter,
    clockSeconds: play.clockSeconds,
    offenceTeamId: idOf('team', play.offenceTeamId),
    scoreFor: home ? play.homeScore : play.awayScore,
    scoreAgainst: home ? play.awayScore : play.homeScore,
    down: play.down,
    toGo: play.toGoYards,
    spot: play.spotYards,
    hash: play.hash,
    backs: play.personnel.backs,
    tightEnds: play.personnel.tightEnds,
    formation: play.formation,
    motion: play.motion,
    backAlignment: alignmentOf(first?.alignment),
    backDepth: first?.depthYards ?? null,
    concept: concept ?? 'other',
    scheme: concept !== undefined && isScheme(concept) ? schemes[concept] : null,
    direction: play.direction ?? null,
    designedGap: play.designedGap?.gap ?? null,
    giveIsChoice: play.option === undefined || play.option === 'none' ? null : play.option === 'give was read',
    pullers: play.pullers.length,
    leadBlockers: play.leadBlockers.length,
    front: play.front,
    box: play.boxCount,
    safetiesDeep: play.safetiesDeep,
    pressure: play.slantOrBlitz === 'none' ? 'none' : 'blitz',
    gain: play.gainYards,
    result: results[play.result] ?? 'down',
    penalty: play.penalty === undefined ? null : `${play.penalty.name}, on the ${play.penalty.against}`,
    penaltyYards:
      play.penalty === undefined ? null : play.penalty.against === 'offence' ? -play.penalty.yards : play.penalty.yards,
    note: null,
  };
}
