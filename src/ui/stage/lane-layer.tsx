import type { Film } from '../../contract/rows.ts';
import { studySettings } from '../../contract/study-settings.ts';
import { usePlace } from '../link/place.ts';
import { decisionOf, laneValues } from './lanes-of.ts';
import { chosenOf, useStage } from './stage-store.ts';

const signed = (value: number): string => `${value < 0 ? '−' : '+'}${Math.abs(value).toFixed(2)}`;
const yards = (value: number): string => String(value).replace('-', '−');

/** The lanes that were there, drawn on the decision frame they belong to: path, yards low · likely · high, and worth in points. */
export function LaneLayer({ film, frame }: { film: Film; frame: number }) {
  const { game, spanId } = useStage();
  const { playId, evaluatorId, directory } = usePlace();
  const { play, part } = chosenOf(game, playId, spanId);
  if (game === null || play === null || part === null) return null;
  const found = decisionOf(game, part.id, evaluatorId);
  if (found === null || found.decision.spanId !== spanId || found.decision.frame !== frame) return null;
  const values = laneValues(play, found.lanes, studySettings(directory?.settings ?? []));
  return (
    <svg
      className="chalk lanes"
      viewBox={`0 0 ${film.width} ${film.height}`}
      preserveAspectRatio="xMidYMid meet"
      role="img"
      aria-label="Lanes at the decision frame"
    >
      <defs>
        <marker id="lane-head" viewBox="0 0 10 10" refX="7" refY="5" markerWidth="4" markerHeight="4" orient="auto">
          <path d="M0 1 L9 5 L0 9" />
        </marker>
      </defs>
      {found.lanes.map((lane, index) => {
        const end = lane.path.at(-1);
        if (end === undefined) return null;
        const line = values.known ? values.value.lines[index] : undefined;
        const words = `${yards(lane.low)} · ${yards(lane.likely)} · ${yards(lane.high)}${line === undefined ? '' : `  worth ${signed(line.added)}`}`;
        const width = Math.max(lane.name.length + lane.state.length + 2, words.length) * 10.5 + 24;
        const x = Math.min(film.width - width - 8, Math.max(8, end[0] + 14));
        const y = Math.min(film.height - 60, Math.max(8, end[1] - 26 + (index % 2) * 4));
        return (
          <g key={lane.id} className={lane.taken ? 'lane taken' : 'lane'}>
            <path
              d={lane.path.map(([px, py], at) => `${at === 0 ? 'M' : 'L'}${px} ${py}`).join(' ')}
              markerEnd="url(#lane-head)"
            />
            <rect x={x} y={y} width={width} height={58} rx={6} />
            <text x={x + 12} y={y + 24}>
              {lane.name}, {lane.state}
            </text>
            <text className="lane-yards" x={x + 12} y={y + 47}>
              {words}
            </text>
          </g>
        );
      })}
    </svg>
  );
}
