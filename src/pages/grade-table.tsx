import type { SheetView, TraitView } from '../contract/views.ts';
import type { GradePlotProps } from './grade-plot.tsx';
import { gradeInFigures, shareInFigures } from './in-figures.ts';
import { Reason } from './reason.tsx';

type Shares = Pick<TraitView, 'shown' | 'notShown' | 'unseen' | 'unlooked'>;

function Row(props: {
  readonly name: string;
  readonly grade: SheetView['overall'] | TraitView['grade'];
  readonly shares: Shares | null;
  readonly bars: GradePlotProps['bars'];
  readonly rank: 'overall' | 'family' | 'trait';
}) {
  const { grade, shares, bars } = props;
  return (
    <tr className={`plot-${props.rank}`}>
      <th scope="row">{props.name}</th>
      {grade.known ? (
        <>
          <td>
            {gradeInFigures(grade.value.grade)}
            {grade.value.thin && <span className="few">, thin</span>}
          </td>
          <td>
            {gradeInFigures(grade.value.low)}–{gradeInFigures(grade.value.high)}
          </td>
          <td>{grade.value.marks}</td>
          <td>{gradeInFigures(grade.value.information)}</td>
          <td>{grade.value.carries}</td>
          <td>{grade.value.games}</td>
          {bars.map((bar) => {
            const chance = grade.value.chance[bar.key];
            return <td key={bar.key}>{chance === undefined ? 'not worked out' : shareInFigures(chance, 2)}</td>;
          })}
        </>
      ) : (
        <td colSpan={6 + bars.length} className="words">
          <Reason detail={grade.detail} />
        </td>
      )}
      {shares === null ? (
        <td colSpan={4} className="reason">
          <span className="read-aloud">counted by trait</span>
        </td>
      ) : (
        <>
          <td>{shares.shown}</td>
          <td>{shares.notShown}</td>
          <td>{shares.unseen}</td>
          <td>{shares.unlooked}</td>
        </>
      )}
    </tr>
  );
}

/** The grade plot's numbers: grade, interval, what stands behind it, chance of clearing each bar, and how often each trait was to be seen. */
export function GradeTable({ families, bars, overall }: Pick<GradePlotProps, 'families' | 'bars' | 'overall'>) {
  return (
    <table className="figures grade-table" aria-label="Grades in figures">
      <thead>
        <tr>
          <th scope="col">Trait</th>
          <th scope="col">Grade</th>
          <th scope="col">95 % interval</th>
          <th scope="col">Marks</th>
          <th scope="col">In clear marks</th>
          <th scope="col">Carries</th>
          <th scope="col">Games</th>
          {bars.map((bar) => (
            <th key={bar.key} scope="col">
              Chance of clearing {gradeInFigures(bar.value)}
            </th>
          ))}
          <th scope="col">Shown</th>
          <th scope="col">Not shown</th>
          <th scope="col">Can’t be seen</th>
          <th scope="col">Not yet looked</th>
        </tr>
      </thead>
      {overall !== undefined && (
        <tbody>
          <Row name="Overall" grade={overall} shares={null} bars={bars} rank="overall" />
        </tbody>
      )}
      {families.map((family) => (
        <tbody key={family.key}>
          <Row name={family.name} grade={family.grade} shares={null} bars={bars} rank="family" />
          {family.traits.map((trait) => (
            <Row key={trait.key} name={trait.name} grade={trait.grade} shares={trait} bars={bars} rank="trait" />
          ))}
        </tbody>
      ))}
    </table>
  );
}
