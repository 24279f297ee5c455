import type { Chalk } from '../../../contract/rows.ts';
import { chalkSizes, freehandOutline, headPath, linePath, ringRadius } from './chalk-geometry.ts';

/** One piece of chalk: dark under light, so that it shows on any grass; in film pixels. */
export function ChalkShape({
  chalk,
  filmWidth,
}: {
  chalk: Pick<Chalk, 'kind' | 'points' | 'text'>;
  filmWidth: number;
}) {
  const { stroke, edge, head, letters } = chalkSizes(filmWidth);
  const [first] = chalk.points;
  const end = chalk.points.at(-1);
  if (first === undefined || end === undefined) return null;
  const words =
    chalk.text === null ? null : (
      <text
        x={chalk.kind === 'text' ? first[0] : end[0] + head / 2}
        y={chalk.kind === 'text' ? first[1] : end[1] - head / 2}
        fontSize={letters}
        strokeWidth={stroke * 1.2}
      >
        {chalk.text}
      </text>
    );
  if (chalk.kind === 'text') return words;
  return (
    <>
      <g className="chalk-under" strokeWidth={edge}>
        <Strokes chalk={chalk} head={head} size={edge} />
      </g>
      <g className="chalk-over" strokeWidth={stroke}>
        <Strokes chalk={chalk} head={head} size={stroke * 1.5} />
      </g>
      {words}
    </>
  );
}

function Strokes({ chalk, head, size }: { chalk: Pick<Chalk, 'kind' | 'points'>; head: number; size: number }) {
  const { kind, points } = chalk;
  switch (kind) {
    case 'ring':
      return <circle cx={points[0]?.[0]} cy={points[0]?.[1]} r={ringRadius(points)} />;
    case 'arrow':
    case 'lane':
      return (
        <>
          <path d={linePath(points)} strokeDasharray={kind === 'lane' ? `${head} ${head * 0.8}` : undefined} />
          <path d={headPath(points, head)} />
        </>
      );
    case 'freehand':
      return <path className="chalk-filled" d={freehandOutline(points, size)} />;
    case 'line':
    case 'distance':
      return <path d={linePath(points)} />;
    case 'text':
      return null;
  }
}
