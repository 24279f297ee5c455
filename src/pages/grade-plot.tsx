import type { RubricBody } from '../contract/rows.ts';
import type { GradeView, SheetView, TraitView } from '../contract/views.ts';
import { gradeInFigures } from './in-figures.ts';
import { percentScale } from './percent.ts';
import { Reason } from './reason.tsx';

type Bar = RubricBody['bars'][number];
type MaybeGrade = TraitView['grade'];

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

const barWords = (bar: Bar): string =>
  `${bar.name} ${gradeInFigures(bar.value)}${bar.calibrated ? '' : ', provisional'}`;

/** Steps and bars behind each row; a hair beyond the row at both ends, so that rows join without a seam. */
function Lines({ bars, steps: drawn = true }: { readonly bars: readonly Bar[]; readonly steps?: boolean }) {
  return (
    <>
      {drawn &&
        steps.map((step) => (
          <line key={step} className="step-line" x1={along(step)} x2={along(step)} y1="-1" y2="101%" />
        ))}
      {bars.map((bar, at) => (
        <line
          key={bar.key}
          className={`bar-line bar-${at + 1}`}
          x1={along(bar.value)}
          x2={along(bar.value)}
          y1="-1"
          y2="101%"
        />
      ))}
    </>
  );
}

const gradeWords = ({ grade, low, high, thin }: GradeView): string =>
  `${gradeInFigures(grade)}, 95 % interval ${gradeInFigures(low)} to ${gradeInFigures(high)}${thin ? ', thin' : ''}`;

function Row(props: {
  readonly name: string;
  readonly grade: MaybeGrade;
  readonly bars: readonly Bar[];
  readonly rank: 'overall' | 'family' | 'trait';
  readonly press?: (() => void) | undefined;
}) {
  const { grade, bars, rank, press } = props;
  const value = grade.known ? grade.value : null;
  return (
    <tr className={`plot-row plot-${rank}`}>
      <th scope="row">
        {press === undefined ? (
          props.name
        ) : (
          <button type="button" onClick={press}>
            {props.name}
          </button>
        )}
      </th>
      <td className="plot-cell">
        <svg
          className="plot-strip"
          width="100%"
          height="100%"
          {...(value === null ? { 'aria-hidden': true } : { role: 'img', 'aria-label': gradeWords(value) })}
        >
          <Lines bars={bars} />
          {value !== null && (
            <>
              <line className="interval" x1={along(value.low)} x2={along(value.high)} y1="50%" y2="50%" />
              <circle
                className={value.thin ? 'dot dot-thin' : 'dot'}
                cx={along(value.grade)}
                cy="50%"
                r={rank === 'trait' ? '0.3rem' : '0.34rem'}
              />
            </>
          )}
        </svg>
        {!grade.known && <Reason detail={grade.detail} />}
      </td>
      <td className="count">{value === null ? '' : value.carries}</td>
      <td className="count">{value === null ? '' : value.games}</td>
    </tr>
  );
}

/**
 * Grades as dots with 95 % intervals on the 1-5 line, both standards' bars behind them, the carries and games behind
 * each; an open dot is thin, and a grade that can't be given prints its reason. It is a table, so its numbers are read
 * out and found in the print as they stand; `GradeTable` has them all as figures.
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
                <text key={step} className="axis-figure" x={along(step)} y="70%" textAnchor="middle">
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
          <Row name="Overall" grade={overall} bars={bars} rank="overall" />
        </tbody>
      )}
      {families.map((family) => (
        <tbody key={family.key}>
          <Row name={family.name} grade={family.grade} bars={bars} rank="family" />
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
        {bars.map((bar, at) => (
          <tr key={bar.key} className="bar-name">
            <td />
            <td className="plot-cell">
              <svg className="plot-strip" width="100%" height="100%" role="img" aria-label={`Bar: ${barWords(bar)}`}>
                <line
                  className={`bar-line bar-${at + 1}`}
                  x1={along(bar.value)}
                  x2={along(bar.value)}
                  y1="-1"
                  y2="20%"
                />
                {bars.slice(at + 1).map((later, next) => (
                  <line
                    key={later.key}
                    className={`bar-line bar-${at + next + 2}`}
                    x1={along(later.value)}
                    x2={along(later.value)}
                    y1="-1"
                    y2="101%"
                  />
                ))}
                <text className="bar-figure" x={along(bar.value)} y="80%" textAnchor={anchorOf(bar.value)}>
                  {barWords(bar)}
                </text>
              </svg>
            </td>
            <td />
            <td />
          </tr>
        ))}
      </tfoot>
    </table>
  );
}

// Words that would run out of the plot start or end at their line instead of straddling it.
function anchorOf(value: number): 'start' | 'middle' | 'end' {
  if (value < 2.2) return 'start';
  return value > 3.8 ? 'end' : 'middle';
}
