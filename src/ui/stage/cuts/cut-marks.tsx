import { useStage } from '../stage-store.ts';
import { stateOf } from './cut-list.ts';
import { useCuts } from './cuts-store.ts';

/** Proposed cuts on the rail: the chosen one's stretch, and where each other begins. */
export function CutMarks({ filmId, x }: { filmId: string; x: (frame: number) => number }) {
  const { filmId: own, cuts, chosenId, end } = useCuts();
  const spans = useStage((stage) => stage.game?.spans) ?? [];
  if (cuts === null || own !== filmId) return null;
  const here = spans.filter((span) => span.filmId === filmId);
  return (
    <g className="cut-marks">
      {cuts.map((cut) => {
        const chosen = cut.id === chosenId;
        const [left, right] = [x(cut.first), x(cut.last)];
        return (
          <g key={cut.id} className={chosen ? 'cut-mark chosen' : 'cut-mark'} data-state={stateOf(cut, here)}>
            <rect x={left} y={chosen ? 8 : 12} width={Math.max(2, right - left)} height={chosen ? 44 : 6} />
            {chosen ? <line x1={end === 'in' ? left : right} x2={end === 'in' ? left : right} y1={4} y2={72} /> : null}
          </g>
        );
      })}
    </g>
  );
}
