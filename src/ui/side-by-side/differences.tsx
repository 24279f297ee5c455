import type { ComparedTrait, DifferenceView, SideBySideView } from '../../contract/comparison-views.ts';
import { gradeInFigures } from '../../pages/in-figures.ts';
import { percentScale } from '../../pages/percent.ts';
import { Reason } from '../../pages/reason.tsx';
import { WithTable } from '../kit/with-table.tsx';

type Known<Value> =
  | { readonly known: true; readonly value: Value }
  | { readonly known: false; readonly detail: string };
type Graded = ComparedTrait['first'];

/** A difference with its sign and two places: "+0.34", "−0.08". */
export function signed(value: number, digits = 2): string {
  const words = Math.abs(value).toFixed(digits);
  if (Number(words) === 0) return words;
  return `${value < 0 ? '−' : '+'}${words}`;
}

/** A chance in 100, never quite sure. */
export function inHundred(chance: number): string {
  const whole = Math.round(100 * chance);
  if (whole >= 100) return '>99';
  return whole <= 0 ? '<1' : String(whole);
}

const gradeWords = (grade: Graded): string => (grade.known ? gradeInFigures(grade.value.grade) : '–');

function Strip({
  difference,
  reach,
  name,
}: {
  readonly difference: DifferenceView;
  readonly reach: number;
  readonly name: string;
}) {
  const along = percentScale(-reach, reach, 3, 97);
  const { low, high, thin, chance } = difference;
  return (
    <svg
      className="plot-strip"
      width="100%"
      height="100%"
      role="img"
      aria-label={`${name}: difference ${signed(difference.difference)}, 95 % interval ${signed(low)} to ${signed(high)}, ${inHundred(chance)} in 100 that the first is better${thin ? ', thin' : ''}`}
    >
      {[-reach, -reach / 2, reach / 2, reach].map((step) => (
        <line key={step} className="step-line" x1={along(step)} x2={along(step)} y1="-1" y2="102%" />
      ))}
      <line className="bar-line" x1="50%" x2="50%" y1="-1" y2="102%" />
      <line className="interval" x1={along(low)} x2={along(high)} y1="50%" y2="50%" />
      <circle className={thin ? 'dot dot-thin' : 'dot'} cx={along(difference.difference)} cy="50%" r="0.24rem" />
    </svg>
  );
}

function Row(props: {
  readonly name: string;
  readonly rank: 'overall' | 'family' | 'trait';
  readonly first: Graded;
  readonly second: Graded;
  readonly difference: Known<DifferenceView>;
  readonly reach: number;
}) {
  const { name, rank, first, second, difference, reach } = props;
  return (
    <tr className={`plot-${rank}`}>
      <th scope="row">{name}</th>
      <td className="count">{gradeWords(first)}</td>
      <td className="plot-cell">
        {difference.known ? (
          <Strip difference={difference.value} reach={reach} name={name} />
        ) : (
          <Reason detail={difference.detail} />
        )}
      </td>
      <td className="count">{gradeWords(second)}</td>
      <td className={difference.known && difference.value.thin ? 'side-chance small-sample' : 'side-chance'}>
        {difference.known ? inHundred(difference.value.chance) : ''}
      </td>
    </tr>
  );
}

/** Half the width of the axis: the widest interval, in half points, 1 to 3. */
function reachFor({ families, overall }: SideBySideView): number {
  const all = [
    overall.difference,
    ...families.flatMap((family) => [family.difference, ...family.traits.map((trait) => trait.difference)]),
  ];
  const widest = Math.max(
    0,
    ...all.flatMap((answer) => (answer.known ? [Math.abs(answer.value.low), Math.abs(answer.value.high)] : [])),
  );
  return Math.min(3, Math.max(1, Math.ceil(widest * 2) / 2));
}

function Plot({ view, names }: { readonly view: SideBySideView; readonly names: readonly [string, string] }) {
  const reach = reachFor(view);
  const along = percentScale(-reach, reach, 3, 97);
  return (
    <table className="grade-plot side-plot" aria-label={`Differences, ${names[0]} less ${names[1]}`}>
      <thead>
        <tr>
          <th scope="col">
            <span className="read-aloud">Trait</span>
          </th>
          <th scope="col" className="count">
            {names[0]}
          </th>
          <th scope="col" className="plot-cell">
            <span className="read-aloud">Difference in points</span>
            <svg className="plot-strip" width="100%" height="100%" aria-hidden="true">
              {[-reach, 0, reach].map((step) => (
                <text key={step} className="axis-figure" x={along(step)} y="96%" textAnchor="middle">
                  {step === 0 ? '0' : signed(step, 1)}
                </text>
              ))}
            </svg>
          </th>
          <th scope="col" className="count">
            {names[1]}
          </th>
          <th scope="col" className="side-chance">
            Chance that {names[0]} is truly better, in 100
          </th>
        </tr>
      </thead>
      <tbody>
        <Row
          name="Overall"
          rank="overall"
          first={view.first.overall}
          second={view.second.overall}
          difference={view.overall.difference}
          reach={reach}
        />
      </tbody>
      {view.families.map((family) => (
        <tbody key={family.key}>
          <Row
            name={family.name}
            first={family.first}
            second={family.second}
            difference={family.difference}
            rank="family"
            reach={reach}
          />
          {family.traits.map((trait) => (
            <Row
              key={trait.key}
              name={trait.name}
              first={trait.first}
              second={trait.second}
              difference={trait.difference}
              rank="trait"
              reach={reach}
            />
          ))}
        </tbody>
      ))}
    </table>
  );
}

function FigureRow(props: {
  readonly name: string;
  readonly rank: 'overall' | 'family' | 'trait';
  readonly first: Graded;
  readonly second: Graded;
  readonly difference: Known<DifferenceView>;
  readonly raw?: ComparedTrait['raw'];
}) {
  const { name, rank, first, second, difference, raw } = props;
  const grade = (one: Graded) =>
    one.known ? `${one.value.grade.toFixed(2)} (${one.value.low.toFixed(2)}–${one.value.high.toFixed(2)})` : 'no grade';
  const behind = (one: Graded) => (one.known ? `${one.value.marks} on ${one.value.carries}` : '0');
  return (
    <tr className={`plot-${rank}`}>
      <th scope="row">{name}</th>
      <td>{grade(first)}</td>
      <td>{behind(first)}</td>
      <td>{grade(second)}</td>
      <td>{behind(second)}</td>
      {difference.known ? (
        <>
          <td>{signed(difference.value.difference)}</td>
          <td>
            {signed(difference.value.low)} to {signed(difference.value.high)}
          </td>
          <td>{(100 * difference.value.chance).toFixed(1)}</td>
        </>
      ) : (
        <td colSpan={3} className="words">
          <Reason detail={difference.detail} />
        </td>
      )}
      <td>
        {raw === undefined ? (
          <span className="read-aloud">by trait</span>
        ) : raw.known ? (
          `${signed(raw.value.delta)} (${signed(raw.value.low)} to ${signed(raw.value.high)}), ${raw.value.size}`
        ) : (
          <Reason detail={raw.detail} />
        )}
      </td>
    </tr>
  );
}

function Figures({ view, names }: { readonly view: SideBySideView; readonly names: readonly [string, string] }) {
  return (
    // oxlint-disable-next-line jsx-a11y/no-noninteractive-tabindex -- a scroller that keys cannot reach hides its far side
    <div className="scroll-x" tabIndex={0} role="region" aria-label="Differences in figures, scrolls sideways">
      <table className="figures" aria-label="Differences in figures">
        <thead>
          <tr>
            <th scope="col">Trait</th>
            <th scope="col">{names[0]}</th>
            <th scope="col">Marks, carries</th>
            <th scope="col">{names[1]}</th>
            <th scope="col">Marks, carries</th>
            <th scope="col">Difference</th>
            <th scope="col">95 % interval</th>
            <th scope="col">Chance in 100 that the first is better</th>
            <th scope="col">Raw marks: Cliff’s delta</th>
          </tr>
        </thead>
        <tbody>
          <FigureRow
            name="Overall"
            rank="overall"
            first={view.first.overall}
            second={view.second.overall}
            difference={view.overall.difference}
          />
        </tbody>
        {view.families.map((family) => (
          <tbody key={family.key}>
            <FigureRow
              name={family.name}
              first={family.first}
              second={family.second}
              difference={family.difference}
              rank="family"
            />
            {family.traits.map((trait) => (
              <FigureRow
                key={trait.key}
                name={trait.name}
                first={trait.first}
                second={trait.second}
                difference={trait.difference}
                raw={trait.raw}
                rank="trait"
              />
            ))}
          </tbody>
        ))}
      </table>
    </div>
  );
}

/** Differences of everything two runners are graded on, with intervals and the chance that the first is truly better. */
export function Differences({
  view,
  names,
}: {
  readonly view: SideBySideView;
  readonly names: readonly [string, string];
}) {
  return (
    <WithTable
      title={`Grades: ${names[0]} less ${names[1]}, points with 95 % intervals`}
      note={`Right of the line ${names[0]} is better. Open dot: thin on either side. The table adds marks behind each and Cliff’s delta of the raw marks.`}
      chart={<Plot view={view} names={names} />}
      table={<Figures view={view} names={names} />}
    />
  );
}
