/** Results of every runner of the study at once: what the sheet says of one, in a few questions to the file for all. */
import type { DeltaView, ShareView } from '../../contract/views.ts';
import { deltaSummary, type Residual } from '../../core/expectation/delta.ts';
import { carryJudge, type ChartedCarry } from '../../core/expectation/carry-figures.ts';
import { yardstickOf } from '../../core/expectation/yardstick.ts';
import { mapKnown, type Known } from '../../core/known.ts';
import type { GameLine } from '../../core/plays/completeness.ts';
import { rateOf } from '../../core/plays/success-rate.ts';
import type { Study } from '../study/study.ts';
import { settingsOf } from './carries.ts';

/** One runner's results; `carries` count, `games` hold a logged carry, `lines` are games with a log or a book line. */
export type RunnerResults = {
  readonly runnerId: string;
  readonly carries: number;
  readonly games: number;
  readonly success: Known<ShareView, 'no carries'>;
  readonly delta: Known<DeltaView, 'no carries'>;
  readonly lines: readonly GameLine[];
};

type Stored = ChartedCarry & { readonly runnerId: string; readonly gameId: string; readonly counts: 0 | 1 };
type Line = {
  readonly runnerId: string;
  readonly gameId: string;
  readonly attempts: number;
  readonly yards: number | null;
};
type Sums = {
  carries: number;
  hits: number;
  told: number;
  readonly residuals: Residual[];
  readonly games: Map<string, { logged: number; loggedYards: number }>;
};

const kept = new WeakMap<Study, { readonly position: number; readonly results: readonly RunnerResults[] }>();

/** Results of all runners in order of id, worked out once for each state of the journal. */
export function resultsOfRunners(study: Study): readonly RunnerResults[] {
  const position = study.position();
  const held = kept.get(study);
  if (held !== undefined && held.position === position) return held.results;
  const results = readResults(study);
  kept.set(study, { position, results });
  return results;
}

function readResults(study: Study): RunnerResults[] {
  const yardstick = yardstickOf(settingsOf(study));
  const judge = carryJudge(yardstick);
  const byRunner = new Map<string, Sums>();
  const sumsOf = (runnerId: string): Sums => {
    let sums = byRunner.get(runnerId);
    if (sums === undefined) {
      sums = { carries: 0, hits: 0, told: 0, residuals: [], games: new Map() };
      byRunner.set(runnerId, sums);
    }
    return sums;
  };
  // In the order the sheet reads a runner's carries, so that sums come out bit for bit the same.
  const carries = study.database
    .prepare(
      `SELECT p.runner_id AS runnerId, y.game_id AS gameId, p.gain AS gain, p.counts AS counts, y.down AS down,
       y.to_go AS toGo, y.spot AS spot, y.box AS box
       FROM part p JOIN play y ON y.id = p.play_id JOIN game g ON g.id = y.game_id WHERE p.kind = 'run'
       ORDER BY p.runner_id, ifnull(g.season, 0), ifnull(g.week, 0), ifnull(g.date, ''), g.id, y.position`,
    )
    .iterate() as IterableIterator<Stored>;
  for (const carry of carries) {
    const sums = sumsOf(carry.runnerId);
    const game = sums.games.get(carry.gameId) ?? { logged: 0, loggedYards: 0 };
    sums.games.set(carry.gameId, {
      logged: game.logged + 1,
      loggedYards: game.loggedYards + (carry.gain ?? 0),
    });
    if (carry.counts !== 1) continue;
    sums.carries += 1;
    const figures = judge(carry);
    if (!figures.known) continue;
    const { residual, success } = figures.value;
    if (residual !== null) sums.residuals.push(residual);
    if (success === null) continue;
    sums.told += 1;
    if (success) sums.hits += 1;
  }
  const books = new Map<string, Map<string, Line>>();
  const lines = study.database
    .prepare('SELECT runner_id AS runnerId, game_id AS gameId, attempts, yards FROM official_line')
    .all() as Line[];
  for (const line of lines) {
    const own = books.get(line.runnerId) ?? new Map<string, Line>();
    books.set(line.runnerId, own.set(line.gameId, line));
  }
  return study.rows.all('runner').map(({ id }) => {
    const sums = sumsOf(id);
    const book = books.get(id) ?? new Map<string, Line>();
    const games = new Set([...sums.games.keys(), ...book.keys()]);
    return {
      runnerId: id,
      carries: sums.carries,
      games: sums.games.size,
      success: rateOf({ hits: sums.hits, n: sums.told }),
      delta: mapKnown(
        deltaSummary(sums.residuals, yardstick.model.spread.delta),
        ({ mean, standardError, shrunk, n, small }) => ({ mean, standardError, shrunk, n, small }),
      ),
      lines: [...games].map((game) => ({
        ...(sums.games.get(game) ?? { logged: 0, loggedYards: 0 }),
        official: book.get(game)?.attempts ?? null,
        officialYards: book.get(game)?.yards ?? null,
      })),
    };
  });
}
