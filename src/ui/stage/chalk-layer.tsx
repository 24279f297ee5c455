import type { Chalk, Film } from '../../contract/rows.ts';
import { useStage } from './stage-store.ts';

/** Chalk that lies over the frame shown, in the film's own pixels. */
export function ChalkLayer({ film, frame }: { film: Film; frame: number }) {
  const game = useStage((stage) => stage.game);
  const spanId = useStage((stage) => stage.spanId);
  const chalk =
    game?.chalk.filter((each) => each.spanId === spanId && each.fromFrame <= frame && frame <= each.toFrame) ?? [];
  if (chalk.length === 0) return null;
  return (
    <svg
      className="chalk"
      viewBox={`0 0 ${film.width} ${film.height}`}
      preserveAspectRatio="xMidYMid meet"
      aria-label="Chalk on this frame"
      role="img"
    >
      <defs>
        <marker
          id="chalk-head"
          viewBox="0 0 10 10"
          refX="7"
          refY="5"
          markerWidth="5"
          markerHeight="5"
          orient="auto-start-reverse"
        >
          <path d="M0 1 L9 5 L0 9" />
        </marker>
      </defs>
      {chalk.map((each) => (
        <ChalkShape key={each.id} chalk={each} />
      ))}
    </svg>
  );
}

function ChalkShape({ chalk }: { chalk: Chalk }) {
  const [first, second] = chalk.points;
  if (first === undefined) return null;
  const path = chalk.points.map(([x, y], index) => `${index === 0 ? 'M' : 'L'}${x} ${y}`).join(' ');
  switch (chalk.kind) {
    case 'ring': {
      const radius = second === undefined ? 30 : Math.hypot(second[0] - first[0], second[1] - first[1]);
      return <circle cx={first[0]} cy={first[1]} r={radius} />;
    }
    case 'text':
      return (
        <text x={first[0]} y={first[1]}>
          {chalk.text}
        </text>
      );
    case 'arrow':
      return <path d={path} markerEnd="url(#chalk-head)" />;
    case 'lane':
      return <path d={path} className="dashed" markerEnd="url(#chalk-head)" />;
    case 'line':
    case 'freehand':
    case 'distance':
      return <path d={path} />;
  }
}
