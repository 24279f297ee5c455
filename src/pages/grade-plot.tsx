import type { GradeView, SheetView, TraitView } from '../contract/views.ts';
import { barInWords, type Bar } from './bar-in-words.ts';
import { gradeInFigures } from './in-figures.ts';
import { percentScale } from './percent.ts';
import { Reason } from './reason.tsx';

export type GradePlotProps = {
  readonly families: SheetView['families'];
  readonly bars: readonly Bar[];
  /** Drawn as the first row when given. */
  readonly overall?: SheetView['overall'];
  /** What the whole plot is called; a runner's name makes it plain. */
  readonly name?: string;
  /** On screen a trait's name is a button that plays its carries; on paper it is plain text. */
  readonly onTrait?: (traitKey: string) => void;
};

// The 1-5 line stands in from the edges by a dot's width, so that a dot at either end is whole.
const along = percentScale(1, 5, 4, 96);
const steps = [1, 2, 3, 4, 5] as const;

function BarLine({
  bar,
  at,
  from,
  to,
}: {
  readonly bar: Bar;
  readonly at: number;
  readonly from: string;
  readonly to: string;
}) {
  return <line className={`bar-line bar-${at + 1}`} x1={along(bar.value)} x2={along(bar.value)} y1={from} y2={to} />;
}

const gradeInWords = ({ grade, low, high, thin }: GradeView): string =>
  `${gradeInFigures(grade)}, 95 % interval ${gradeInFigures(low)} to ${gradeInFigures(high)}${thin ? ', thin' : ''}`;

function Row(props: {
  readonly name: string;
  readonly grade: TraitView['grade'];
  readonly bars: readonly Bar[];
  readonly rank: 'overall' | 'family' | 'trait';
  /** The first row's lines begin under the axis figures. */
  readonly first?: boolean;
  readonly press?: (() => void) | undefined;
}) {
  const { name, grade, bars, rank, first = false, press } = props;
  const value = grade.known ? grade.value : null;
  // Lines reach above their own row, so that rows of any height join without a seam.
  const from = first ? '0' : rank === 'family' ? '-6' : '-1';
  return (
    <tr className={`plot-${rank}`}>
      <th scope="row">
        {press === undefined ? (
          name
        ) : (
          <button type="button" onClick={press}>
            {name}
          </button>
        )}
      </th>
      <td className="plot-cell">
        {!grade.known && <Reason detail={grade.detail} />}
        {value !== null && (
          <svg className="plot-strip" width="100%" height="100%" role="img" aria-label={gradeInWords(value)}>
            {steps.map((step) => (
              <line key={step} className="step-line" x1={along(step)} x2={along(step)} y1={from} y2="100%" />
            ))}
            {bars.map((bar, at) => (
              <BarLine key={bar.key} bar={bar} at={at} from={from} to="100%" />
            ))}
            <line className="interval" x1={along(value.low)} x2={along(value.high)} y1="50%" y2="50%" />
            <circle
              className={value.thin ? 'dot dot-thin' : 'dot'}
              cx={along(value.grade)}
              cy="50%"
              r={rank === 'trait' ? '0.3rem' : '0.34rem'}
            />
          </svg>
        )}
      </td>
      <td className="count">{value?.carries}</td>
      <td className="count">{value?.games}</td>
    </tr>
  );
}

/** The bars' names under the plot, lowest first, each to the left of its own line: no line runs through a name. */
function BarNames({ bars }: { readonly bars: readonly Bar[] }) {
  const rising = bars.map((bar, at) => ({ bar, at })).toSorted((one, other) => one.bar.value - other.bar.value);
  return rising.map(({ bar, at }, place) => (
    <tr key={bar.key} className="bar-name">
      <th scope="row">
        <span className="read-aloud">Bar</span>
      </th>
      <td className="plot-cell">
        <svg className="plot-strip" width="100%" height="100%" role="img" aria-label={`Bar: ${barInWords(bar)}`}>
          <BarLine bar={bar} at={at} from="-1" to="85%" />
          {rising.slice(place + 1).map((later) => (
            <BarLine key={later.bar.key} bar={later.bar} at={later.at} from="-1" to="100%" />
          ))}
          <text className="bar-figure" x={along(bar.value)} y="78%" dx="-0.35rem" textAnchor="end">
            {barInWords(bar)}
          </text>
        </svg>
      </td>
    </tr>
  ));
}

/**
 * Grades as dots with 95 % intervals on the 1-5 line, both standards' bars behind them, the carries and games behind
 * each; an open dot is thin, and a grade that can't be given prints its reason. It is a table, so that it is read out
 * row by row; `GradeTable` has all its numbers as figures.
 */
export function GradePlot({ families, bars, overall, name = 'Grades', onTrait }: GradePlotProps) {
  const press = (key: string) => (onTrait === undefined ? undefined : () => onTrait(key));
  return (
    <table className="grade-plot" aria-label={`${name}: dots with 95 % intervals on the line from 1 to 5`}>
      <thead>
        <tr>
          <th scope="col">
            <span className="read-aloud">Trait</span>
          </th>
          <th scope="col" className="plot-cell">
            <span className="read-aloud">Grade, from 1 to 5</span>
            <svg className="plot-strip" width="100%" height="100%" aria-hidden="true">
              {steps.map((step) => (
                <text key={step} className="axis-figure" x={along(step)} y="58%" textAnchor="middle">
                  {step}
                </text>
              ))}
            </svg>
          </th>
          <th scope="col" className="count">
            Carries
          </th>
          <th scope="col" className="count">
            Games
          </th>
        </tr>
      </thead>
      {overall !== undefined && (
        <tbody>
          <Row first name="Overall" grade={overall} bars={bars} rank="overall" />
        </tbody>
      )}
      {families.map((family, at) => (
        <tbody key={family.key}>
          <Row
            first={overall === undefined && at === 0}
            name={family.name}
            grade={family.grade}
            bars={bars}
            rank="family"
          />
          {family.traits.map((trait) => (
            <Row
              key={trait.key}
              name={trait.name}
              grade={trait.grade}
              bars={bars}
              rank="trait"
              press={press(trait.key)}
            />
          ))}
        </tbody>
      ))}
      <tfoot>
        <BarNames bars={bars} />
      </tfoot>
    </table>
  );
}
