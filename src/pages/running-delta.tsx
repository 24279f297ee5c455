import { ticks } from 'd3-array';
import { scaleLinear } from 'd3-scale';
import { area, line } from 'd3-shape';
import type { CarryView, SheetView } from '../contract/views.ts';
import { countOf, signedYards } from './in-figures.ts';
import { percent } from './percent.ts';
import { Reason } from './reason.tsx';
import { runningMean, type RunningPoint } from './running-mean.ts';

export type RunningDeltaProps = { readonly carries: readonly CarryView[]; readonly delta: SheetView['delta'] };

// The first carries swing wider than all the rest together: the picture holds what comes after them and is cut beyond.
const settling = 8;
/** Half the picture's height in whole even yards: room for every later mean, four at least. */
const halfHeight = (points: readonly RunningPoint[]): number =>
  Math.max(4, 2 * Math.ceil(Math.max(0, ...points.slice(settling).map(({ mean }) => Math.abs(mean))) / 2 + 0.1));

const top = 3;
const bottom = 84;

/** The mean of gain less expected yards after each carry, with its 95 % band: how fast the figure settles. */
export function RunningDelta({ carries, delta }: RunningDeltaProps) {
  if (!delta.known) return <Reason detail={delta.detail} />;
  const points = runningMean(carries, delta.value);
  const last = points.at(-1);
  if (last === undefined || points.length < 2)
    return <Reason detail="A running mean needs two counted carries with an expected gain." />;
  const across = scaleLinear([1, last.n], [0, 100]);
  const most = halfHeight(points);
  const down = scaleLinear([most, -most], [0, 100]);
  const upright = scaleLinear([most, -most], [top, bottom]).clamp(true);
  const band = area<RunningPoint>()
    .x(({ n }) => across(n))
    .y0((point) => down(point.mean - point.margin))
    .y1((point) => down(point.mean + point.margin));
  const mean = line<RunningPoint>()
    .x(({ n }) => across(n))
    .y((point) => down(point.mean));
  const says = `Running mean of gain less expected: ${signedYards(last.mean)} yards after ${countOf(last.n, 'carry', 'carries')}, give or take ${last.margin.toFixed(1)}`;
  return (
    <svg className="chart running" width="100%" role="img" aria-label={says}>
      {/* Paths know no percents: they are drawn in a square of 100 and stretched, their strokes are not. */}
      <svg
        x="8%"
        width="80%"
        y={percent(top)}
        height={percent(bottom - top)}
        viewBox="0 0 100 100"
        preserveAspectRatio="none"
      >
        <path className="band" d={band(points) ?? ''} />
        <line className="zero-line" x1="0" x2="100" y1={down(0)} y2={down(0)} vectorEffect="non-scaling-stroke" />
        <path className="mean-line" d={mean(points) ?? ''} vectorEffect="non-scaling-stroke" />
      </svg>
      {ticks(-most, most, 4).map((yards) => (
        <text key={yards} className="axis-figure" x="6.5%" y={percent(upright(yards))} dy="0.25rem" textAnchor="end">
          {signedYards(yards).replace('.0', '')}
        </text>
      ))}
      <text className="chart-word" x="89%" y={percent(upright(last.mean))} dy="0.25rem">
        {signedYards(last.mean)}
      </text>
      <text className="axis-figure" x="8%" y="99%">
        1
      </text>
      <text className="axis-figure" x="88%" y="99%" textAnchor="end">
        {countOf(last.n, 'carry', 'carries')}
      </text>
    </svg>
  );
}

/** The running mean's numbers, after every fifth carry and the last. */
export function RunningDeltaTable({ carries, delta }: RunningDeltaProps) {
  if (!delta.known) return <Reason detail={delta.detail} />;
  const points = runningMean(carries, delta.value);
  return (
    <table className="figures">
      <caption>Running mean of gain less expected, in yards a carry</caption>
      <thead>
        <tr>
          <th scope="col">After carries</th>
          <th scope="col">Mean</th>
          <th scope="col">Give or take, 95 %</th>
        </tr>
      </thead>
      <tbody>
        {points
          .filter(({ n }) => n % 5 === 0 || n === points.length)
          .map(({ n, mean, margin }) => (
            <tr key={n}>
              <th scope="row">{n}</th>
              <td>{signedYards(mean)}</td>
              <td>{margin.toFixed(1)}</td>
            </tr>
          ))}
      </tbody>
    </table>
  );
}
