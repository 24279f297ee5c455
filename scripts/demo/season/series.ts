import { FIELD } from '../field-measure.ts';
import type { PlayScript } from '../play-script.ts';
import { stage, type Staged } from '../scene.ts';
import { seeded, seedFrom } from '../seed.ts';
import { scriptOf } from './carry.ts';
import type { GameRow, Row, SeriesRow } from './rows.ts';

/** One play with its situation worked out and its figures moved. */
export type LivePlay = {
  readonly id: string;
  readonly number: number;
  readonly seriesNumber: number;
  readonly seriesPlay: number;
  readonly series: SeriesRow;
  readonly row: Row;
  readonly script: PlayScript;
  readonly clockSeconds: number;
  readonly down: number;
  readonly toGoYards: number;
  readonly spotYards: number;
  readonly ballY: number;
  readonly hash: 'left' | 'middle' | 'right';
  readonly staged: Staged;
};

function hashOf(y: number): 'left' | 'middle' | 'right' {
  if (y < FIELD.leftHash + 0.4) return 'left';
  return y > FIELD.rightHash - 0.4 ? 'right' : 'middle';
}

/** Runs a game's rows: each spot, down, distance and hash follows from the play before, as the rules have it. */
export function playGame(game: GameRow): LivePlay[] {
  const plays: LivePlay[] = [];
  game.series.forEach((series, seriesIndex) => {
    let spot = series.spotYards;
    let down = 1;
    let toGo = Math.min(10, FIELD.length - spot);
    let y = series.startY;
    let clock = series.clockSeconds;
    series.rows.forEach((row, index) => {
      const number = plays.length + 1;
      const id = `${game.id}-${String(number).padStart(2, '0')}`;
      const script = scriptOf(row, id);
      const next = seeded(seedFrom(`${id} lead`));
      const snap = 20 + Math.floor(next() * 7);
      const ballY = Math.min(FIELD.rightHash, Math.max(FIELD.leftHash, y));
      const staged = stage(script, { spotYards: spot, ballY, drive: series.drive }, snap);
      plays.push({
        id,
        number,
        seriesNumber: seriesIndex + 1,
        seriesPlay: index + 1,
        series,
        row,
        script,
        clockSeconds: clock,
        down,
        toGoYards: toGo,
        spotYards: spot,
        ballY,
        hash: hashOf(ballY),
        staged,
      });
      const penalty = row.kind === 'carry' ? row.penalty : undefined;
      clock -= penalty ? 9 : 24 + Math.floor(next() * 16);
      if (penalty) {
        const back = penalty.against === 'offence' ? -penalty.yards : penalty.yards;
        spot += back;
        toGo -= back;
        return;
      }
      const path = staged.places[row.kind === 'carry' ? 'RB' : row.to];
      if (row.kind === 'carry' || row.complete) y = path[staged.moves.moments.down]?.[1] ?? y;
      spot += row.gain;
      toGo -= row.gain;
      down += 1;
      if (toGo <= 0) {
        down = 1;
        toGo = Math.min(10, FIELD.length - spot);
      }
    });
  });
  return plays;
}
