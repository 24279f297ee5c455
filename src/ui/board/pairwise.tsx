import { memo, useState } from 'react';
import type { BoardAnswer } from '../../contract/comparison-views.ts';
import { percentScale } from '../../pages/percent.ts';
import { Button } from '../kit/button.tsx';
import { WithTable } from '../kit/with-table.tsx';
import { chanceInFigures } from './in-words.ts';
import { ScrollX } from './scroll-x.tsx';

/** Shown at first; a larger square is too fine to read. */
const mostShown = 12;

/** Of one chance, in rem; narrower where there are many. */
const cellOf = (size: number) => ({ width: Math.min(4.5, 42 / size), height: 1.75 });

type Square = { readonly names: readonly string[]; readonly chances: readonly (readonly number[])[] };

/** Chances as a square of shades: the row's runner above the column's. */
function Shades({ names, chances }: Square) {
  const size = names.length;
  const cell = cellOf(size);
  const along = percentScale(0, size);
  const each = along(1);
  const figures = size <= 16;
  return (
    <div className="pair-square">
      <ol className="pair-names">
        {names.map((name, at) => (
          <li key={`${name} ${at}`}>
            <span>{name}</span>
            <span className="number muted">{at + 1}</span>
          </li>
        ))}
      </ol>
      <svg
        className="pair-shades"
        width={`${size * cell.width}rem`}
        height={`${size * cell.height}rem`}
        role="img"
        aria-label={`Chance that each of ${size} runners is truly above each other; the table has the figures`}
      >
        {chances.flatMap((row, y) =>
          row.map((chance, x) =>
            x === y ? null : (
              <g key={`${x} ${y}`}>
                <rect
                  className={chance >= 0.5 ? 'pair-above' : 'pair-below'}
                  x={along(x)}
                  y={along(y)}
                  width={each}
                  height={each}
                  fillOpacity={Math.abs(chance - 0.5) * 1.1}
                />
                {figures ? (
                  <text className="pair-figure" x={along(x + 0.5)} y={along(y + 0.5)} dy="0.34em" textAnchor="middle">
                    {chanceInFigures(chance)}
                  </text>
                ) : null}
              </g>
            ),
          ),
        )}
      </svg>
      <ol className="pair-columns" aria-hidden="true">
        {names.map((name, at) => (
          <li key={`${name} ${at}`} className="number muted">
            {at + 1}
          </li>
        ))}
      </ol>
    </div>
  );
}

function Figures({ names, chances }: Square) {
  return (
    <ScrollX label="Pairwise chances in figures">
      <table className="figures" aria-label="Pairwise chances in figures">
        <thead>
          <tr>
            <th scope="col">Above, in 100</th>
            {names.map((name, at) => (
              <th key={`${name} ${at}`} scope="col">
                {name}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {chances.map((row, y) => (
            <tr key={`${names[y] ?? ''} ${y}`}>
              <th scope="row">{names[y]}</th>
              {row.map((chance, x) => (
                <td key={`${names[x] ?? ''} ${x}`}>{x === y ? '·' : (100 * chance).toFixed(1)}</td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </ScrollX>
  );
}

/** The chance that each runner is truly above each other, best first. */
export const Pairwise = memo(function Pairwise({
  rest,
  nameOf,
}: {
  rest: BoardAnswer;
  nameOf: (runnerId: string) => string;
}) {
  const [whole, setWhole] = useState(false);
  const count = whole ? rest.rows.length : Math.min(mostShown, rest.rows.length);
  const names = rest.rows.slice(0, count).map(({ runner }) => nameOf(runner));
  const chances = rest.pairwise.slice(0, count).map((row) => row.slice(0, count));
  return (
    <div className="pairwise">
      <WithTable
        title="Who is truly above whom, chances in 100"
        note="Read along a row: the chance that he is above the runner of the column. 50 is a coin."
        chart={<Shades names={names} chances={chances} />}
        table={<Figures names={names} chances={chances} />}
      />
      {rest.rows.length <= mostShown ? null : (
        <Button kind="quiet" onClick={() => setWhole(!whole)}>
          {whole ? `Only the first ${mostShown}` : `All ${rest.rows.length}`}
        </Button>
      )}
    </div>
  );
});
