import { readFileSync } from 'node:fs';
import { gunzipSync } from 'node:zlib';

export const DEMO = new URL('../../demo/', import.meta.url);

export type Span = {
  filmId: string;
  angle: string;
  kind: 'live' | 'replay';
  timeScale: number;
  inFrame: number;
  outFrame: number;
  moments: Record<string, number>;
  steps: { frame: number; foot: 'L' | 'R'; x: number; y: number }[];
};

export type Mark = {
  evaluatorId: string;
  look: 'first' | 'second';
  trait: string;
  state: 'shown' | 'not shown' | 'cannot be seen';
  value?: number;
  clearness?: string;
  filmId: string;
  frame: number;
  markedOn: string;
};

export type Lane = {
  taken: boolean;
  lowYards: number;
  likelyYards: number;
  highYards: number;
  paths: { filmId: string; frame: number; points: [number, number][] }[];
};

export type Part = {
  runnerId: string;
  kind: 'run' | 'protect' | 'fake' | 'route';
  countsInResults: boolean;
  gainYards?: number;
  yardsBeforeContact?: number;
  yardsAfterContact?: number;
  fumble?: string;
  ledger?: { lanes: Lane[] };
  marks: Mark[];
};

export type Play = {
  id: string;
  gameId: string;
  number: number;
  series: number;
  clockSeconds: number;
  down: number;
  toGoYards: number;
  spotYards: number;
  hash: string;
  concept: string;
  boxCount: number;
  result: string;
  gainYards: number;
  penalty?: { yards: number; against: string };
  spans: Span[];
  parts: Part[];
};

export type Film = {
  id: string;
  gameId: string;
  angle: string;
  file: string;
  truthFile: string;
  frameCount: number;
  scoreCards: { inFrame: number; outFrame: number }[];
  transitions: { kind: 'cut' | 'dissolve'; frame: number; lengthFrames: number }[];
};

export type Season = {
  traits: string[];
  runners: { id: string; teamId: string }[];
  evaluators: { id: string }[];
  games: {
    id: string;
    loggedInPart: boolean;
    officialLines: {
      runnerId: string;
      attempts: number;
      yards: number;
      touchdowns: number;
      fumblesLost: number;
      snaps: number;
    }[];
  }[];
  films: Film[];
  plays: Play[];
  verdicts: {
    runnerId: string;
    evaluatorId: string;
    sentences: { text: string; citesFor: string[]; citesAgainst: string[] }[];
  }[];
};

export type TruthSpan = {
  kind: 'play' | 'replay' | 'score card';
  playId?: string;
  inFrame: number;
  outFrame: number;
  timeScale: number;
  steps: Span['steps'];
  cameras: number[][];
  figures: { slot: string; side: 'offence' | 'defence'; places: number[] }[];
};

export type Truth = { film: string; frameCount: number; transitions: Film['transitions']; spans: TruthSpan[] };

/** The committed season. */
export function readSeason(): Season {
  return JSON.parse(readFileSync(new URL('season.json', DEMO), 'utf8')) as Season;
}

/** The committed truth of one film. */
export function readTruth(film: Film): Truth {
  return JSON.parse(gunzipSync(readFileSync(new URL(film.truthFile, DEMO))).toString('utf8')) as Truth;
}

/** Every run part with its play. */
export function carriesOf(season: Season): { play: Play; part: Part }[] {
  return season.plays.flatMap((play) =>
    play.parts.filter((part) => part.kind === 'run').map((part) => ({ play, part })),
  );
}
