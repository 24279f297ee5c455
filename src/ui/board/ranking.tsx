import { memo, useRef } from 'react';
import type { BoardColumn, BoardResults, BoardRow, BoardRunner } from '../../contract/comparison-views.ts';
import type { Standing } from '../../core/board/standings.ts';
import type { Bar } from '../../pages/bar-in-words.ts';
import { gradeInFigures } from '../../pages/in-figures.ts';
import { go } from '../link/place.ts';
import { turnCompare } from './board-store.ts';
import { chanceInFigures, placesInWords } from './in-words.ts';
import { PlacesAxis, PlacesStrip } from './places-strip.tsx';
import { columnName, ResultCell } from './result-cell.tsx';
import { ScoreAxis, ScoreStrip } from './score-strip.tsx';
import { ScrollX } from './scroll-x.tsx';
import { useRowsInSight } from './use-rows-in-sight.ts';

export type RankingProps = {
  readonly standings: readonly Standing[];
  /** The ends of each score's interval; those of the weights before while `settled` is false. */
  readonly ends: ReadonlyMap<string, BoardRow>;
  readonly settled: boolean;
  readonly runners: ReadonlyMap<string, BoardRunner>;
  readonly results: ReadonlyMap<string, BoardResults> | null;
  readonly columns: readonly BoardColumn[];
  readonly compare: readonly string[];
  readonly bars: readonly Bar[];
};

/** Who he is: nothing of it depends on weights. */
const RankName = memo(function RankName({
  id,
  runner,
}: {
  readonly id: string;
  readonly runner: BoardRunner | undefined;
}) {
  const name = runner?.name ?? 'unknown runner';
  const about = [runner?.team, runner?.position, runner?.classYear].filter((word) => word !== null).join(' · ');
  return (
    <th scope="row">
      <button
        type="button"
        className="rank-name"
        title={`Open the Sheet of ${name}`}
        onClick={() => go({ room: 'sheet', runnerId: id })}
      >
        {name}
      </button>
      <span className="rank-about">{about}</span>
    </th>
  );
});

/** His results and the box to pick him: the same for every weight. */
const RankEnd = memo(function RankEnd(props: {
  readonly id: string;
  readonly name: string;
  readonly result: BoardResults | undefined;
  readonly columns: readonly BoardColumn[];
  readonly picked: boolean;
}) {
  const { id, name, result, columns, picked } = props;
  return (
    <>
      {columns.map((column) => (
        <ResultCell key={column} column={column} result={result} />
      ))}
      <td className="rank-pick">
        <input type="checkbox" checked={picked} aria-label={`Compare ${name}`} onChange={() => turnCompare(id)} />
      </td>
    </>
  );
});

const RankRow = memo(function RankRow(props: {
  readonly standing: Standing;
  readonly end: BoardRow | undefined;
  readonly settled: boolean;
  readonly top: number;
  readonly runner: BoardRunner | undefined;
  readonly result: BoardResults | undefined;
  readonly columns: readonly BoardColumn[];
  readonly picked: boolean;
  readonly bars: readonly Bar[];
}) {
  const { standing, end, settled, top, runner, result, columns, picked, bars } = props;
  const name = runner?.name ?? 'unknown runner';
  const thin = runner?.overall.known === true && runner.overall.value.thin;
  return (
    <tr className={picked ? 'rank-row picked' : 'rank-row'}>
      <td className="number rank-place">{standing.place}</td>
      <RankName id={standing.runner} runner={runner} />
      <td className="rank-places">
        <PlacesStrip places={standing.places} top={top} from={standing.likelyFrom} to={standing.likelyTo} />
      </td>
      <td className="number rank-best">
        <span className="rank-box">{chanceInFigures(standing.best)}</span>
      </td>
      <td className="rank-likely">
        <span className="rank-box">{placesInWords(standing.likelyFrom, standing.likelyTo)}</span>
      </td>
      <td className="plot-cell">
        <ScoreStrip
          score={standing.score}
          low={end?.low ?? null}
          high={end?.high ?? null}
          thin={thin}
          settled={settled}
          bars={bars}
        />
      </td>
      <td className="number rank-score">
        <span className="rank-box">
          {gradeInFigures(standing.score)}
          {thin ? <span className="few"> thin</span> : null}
        </span>
      </td>
      <RankEnd id={standing.runner} name={name} result={result} columns={columns} picked={picked} />
    </tr>
  );
});

/** The class in order: each runner's chances of each place, of being first, and his score on the 1-5 line. */
export function Ranking(props: RankingProps) {
  const { standings, ends, settled, runners, results, columns, compare, bars } = props;
  const table = useRef<HTMLTableElement>(null);
  const rows = useRowsInSight(table, standings, settled);
  // Bars share one height scale, so that a sure place stands taller than a doubtful one.
  const highest = standings.reduce((most, { places }) => places.reduce((all, one) => Math.max(all, one), most), 0.2);
  const top = Math.ceil(highest * 10) / 10;
  return (
    <table className="ranking" aria-label="The class in order" ref={table}>
      <thead>
        <tr>
          <th scope="col" className="rank-place">
            <span className="read-aloud">Place</span>
          </th>
          <th scope="col" className="rank-who">
            Runner
          </th>
          <th scope="col" className="rank-places">
            Chance of each place
            <PlacesAxis count={standings.length} />
          </th>
          <th scope="col" className="number rank-best">
            First, in 100
          </th>
          <th scope="col" className="rank-likely">
            Place, 9 times in 10
          </th>
          <th scope="col" className="plot-cell rank-line">
            Grade and 95 % interval
            <ScoreAxis />
          </th>
          <th scope="col" className="number rank-score">
            <span className="read-aloud">Grade in figures</span>
          </th>
          {columns.map((column) => (
            <th key={column} scope="col" className={`number col-${column}`}>
              {columnName[column]}
            </th>
          ))}
          <th scope="col" className="rank-pick">
            <span className="read-aloud">Compare</span>
          </th>
        </tr>
      </thead>
      <tbody>
        {rows.map(({ standing, now }) => (
          <RankRow
            key={standing.runner}
            standing={standing}
            end={ends.get(standing.runner)}
            settled={settled || !now}
            top={top}
            runner={runners.get(standing.runner)}
            result={results?.get(standing.runner)}
            columns={columns}
            picked={compare.includes(standing.runner)}
            bars={bars}
          />
        ))}
      </tbody>
    </table>
  );
}

/** The same in figures: the chance of every place. */
export function RankingTable({ standings, ends, runners }: Pick<RankingProps, 'standings' | 'ends' | 'runners'>) {
  return (
    <ScrollX label="Chance of each place in figures">
      <table className="figures" aria-label="Chance of each place in figures">
        <thead>
          <tr>
            <th scope="col">Runner</th>
            <th scope="col">Grade</th>
            <th scope="col">95 % interval</th>
            <th scope="col">Mean place</th>
            {standings.map(({ place }) => (
              <th key={place} scope="col">
                {place}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {standings.map(({ runner, score, expectedPlace, places }) => {
            const end = ends.get(runner);
            return (
              <tr key={runner}>
                <th scope="row">{runners.get(runner)?.name ?? 'unknown runner'}</th>
                <td>{score.toFixed(2)}</td>
                <td>{end === undefined ? '' : `${end.low.toFixed(2)}–${end.high.toFixed(2)}`}</td>
                <td>{expectedPlace.toFixed(1)}</td>
                {places.map((chance, at) => (
                  <td key={standings[at]?.place ?? at}>{(100 * chance).toFixed(1)}</td>
                ))}
              </tr>
            );
          })}
        </tbody>
      </table>
    </ScrollX>
  );
}
