import type { ReactNode } from 'react';
import type { EvidenceView } from '../contract/views.ts';

type Picture = NonNullable<EvidenceView['picture']>;
type Stroke = Picture['chalk'][number];
type Point = Stroke['points'][number];

const pathOf = (points: readonly Point[]): string => points.map(([x, y]) => `${x},${y}`).join(' ');

/** The head of an arrow: two strokes back from its end, 25 degrees to either side. */
function ArrowHead({ points, size }: { readonly points: readonly Point[]; readonly size: number }) {
  const tip = points.at(-1);
  const before = points.findLast(
    (point) => tip !== undefined && Math.hypot(tip[0] - point[0], tip[1] - point[1]) > size / 4,
  );
  if (tip === undefined || before === undefined) return null;
  const back = Math.atan2(before[1] - tip[1], before[0] - tip[0]);
  const wing = (turn: number): Point => [tip[0] + size * Math.cos(back + turn), tip[1] + size * Math.sin(back + turn)];
  return <polyline points={pathOf([wing(0.44), tip, wing(-0.44)])} />;
}

type Drawn = { readonly points: readonly Point[]; readonly size: number };

const Open = ({ points }: Drawn) => <polyline points={pathOf(points)} />;

const Arrow = ({ points, size }: Drawn) => (
  <>
    <polyline points={pathOf(points)} />
    <ArrowHead points={points} size={size} />
  </>
);

/** A ring's first point is its centre, its second lies on it. */
function Ring({ points: [centre = [0, 0], rim = centre] }: Drawn) {
  return <circle cx={centre[0]} cy={centre[1]} r={Math.hypot(rim[0] - centre[0], rim[1] - centre[1])} />;
}

const shapes: Readonly<Record<Stroke['kind'], (drawn: Drawn) => ReactNode>> = {
  arrow: Arrow,
  line: Open,
  lane: Open,
  ring: Ring,
  freehand: Open,
  text: () => null,
  distance: Open,
};

function StrokeShape({ stroke: { kind, points, text }, size }: { readonly stroke: Stroke; readonly size: number }) {
  const Shape = shapes[kind];
  const end = points.at(-1) ?? [0, 0];
  return (
    <g className={`chalk-${kind}`}>
      <Shape points={points} size={size} />
      {text !== null && (
        <text className="chalk-words" x={end[0]} y={end[1] - size / 3} fontSize={size}>
          {text}
        </text>
      )}
    </g>
  );
}

/** The chalk of one frame over its still, in the film's own pixels: dark under light, so that it shows on any grass and in grey. */
export function ChalkOverStill({ picture: { width, height, chalk } }: { readonly picture: Picture }) {
  if (chalk.length === 0) return null;
  const size = width / 22;
  return (
    <svg
      className="chalk"
      viewBox={`0 0 ${width} ${height}`}
      role="img"
      aria-label={`Chalk: ${chalk.map(({ kind, text }) => text ?? kind).join(', ')}`}
    >
      {(['chalk-under', 'chalk-over'] as const).map((layer) => (
        <g key={layer} className={layer} strokeWidth={layer === 'chalk-under' ? width / 90 : width / 180}>
          {chalk.map((stroke, at) => (
            <StrokeShape key={`${at} ${stroke.kind}`} stroke={stroke} size={size} />
          ))}
        </g>
      ))}
    </svg>
  );
}
