import type { Film } from '../../contract/rows.ts';
import { usePlace } from '../link/place.ts';
import { ChalkShape } from './chalk/chalk-shape.tsx';
import { useChalk } from './chalk/chalk-store.ts';
import { useStage } from './stage-store.ts';

/** Chalk that lies over the frame shown, in the film's own pixels. One's own is drawn by the surface while chalk is open. */
export function ChalkLayer({ film, frame }: { film: Film; frame: number }) {
  const game = useStage((stage) => stage.game);
  const spanId = useStage((stage) => stage.spanId);
  const evaluatorId = usePlace((place) => place.evaluatorId);
  const open = useChalk((chalk) => chalk.open);
  const chalk =
    game?.chalk.filter(
      (each) =>
        each.spanId === spanId &&
        each.fromFrame <= frame &&
        frame <= each.toFrame &&
        !(open && each.evaluatorId === evaluatorId),
    ) ?? [];
  if (chalk.length === 0) return null;
  return (
    <svg
      className="chalk"
      viewBox={`0 0 ${film.width} ${film.height}`}
      preserveAspectRatio="xMidYMid meet"
      aria-label={`Chalk on this frame: ${chalk.map(({ kind, text }) => text ?? kind).join(', ')}`}
      role="img"
    >
      {chalk.map((each) => (
        <ChalkShape key={each.id} chalk={each} filmWidth={film.width} />
      ))}
    </svg>
  );
}
