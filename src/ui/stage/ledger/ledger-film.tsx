import { useRef, type PointerEvent } from 'react';
import type { Film, Lane } from '../../../contract/rows.ts';
import { studySettings } from '../../../contract/study-settings.ts';
import { useSize } from '../../kit/use-size.ts';
import { usePlace } from '../../link/place.ts';
import { decisionOf, laneValues } from '../lanes-of.ts';
import { chosenOf, useStage } from '../stage-store.ts';
import { endDrawing, setCorner } from './drawing.ts';
import { plain, signed } from './lane-words.ts';
import { type Corner, lanesNow, useLedger } from './ledger-store.ts';
import { apart, stripRange } from './yard-strip.ts';
import { YardHandles } from './yard-handles.tsx';

const drawn = (corners: readonly Corner[]): string =>
  corners.map(([x, y], index) => `${index === 0 ? 'M' : 'L'}${x} ${y}`).join(' ');

/** The lanes over the decision frame as they are worked on: paths, names, worth, and yards to drag; and a path being drawn. */
export function LedgerFilm({ film, frame }: { film: Film; frame: number }) {
  const place = useRef<HTMLDivElement>(null);
  const shown = useSize(place);
  const { game, spanId } = useStage();
  const { playId, evaluatorId, directory } = usePlace();
  const { laneId, drawing, dragged } = useLedger();
  const { play, part } = chosenOf(game, playId, spanId);
  // Measured from the start: the lanes may come to stand on this frame later.
  const bare = <div className="ledger-over" ref={place} />;
  if (game === null || play === null || part === null) return bare;
  const found = decisionOf(game, part.id, evaluatorId);
  if (found === null || found.decision.spanId !== spanId || found.decision.frame !== frame) return bare;
  const lanes = lanesNow(found.lanes, dragged);
  const values = laneValues(play, lanes, studySettings(directory?.settings ?? []));
  // Half a pixel of the screen in film pixels: labels are as large on a small picture of any film as on a large one.
  const scale = 0.5 / Math.max(0.1, Math.min(shown.width / film.width, shown.height / film.height));
  const size = { width: 380 * scale, height: 126 * scale };
  const range = stripRange(found.lanes);
  const boxes = apart(
    lanes.map((lane, index) => {
      const [x, y] = lane.path.at(-1) ?? [30 * scale, (90 + index * 130) * scale];
      return { x: x + 16 * scale, y: y - size.height / 2, ...size };
    }),
    film,
  );
  const corner = (event: PointerEvent<SVGRectElement>): Corner | null => {
    const matrix = event.currentTarget.getScreenCTM();
    if (matrix === null) return null;
    const { x, y } = new DOMPoint(event.clientX, event.clientY).matrixTransform(matrix.inverse());
    return [x, y];
  };
  return (
    <div className="ledger-over" ref={place}>
      <svg
        className="chalk lanes ledger-film"
        data-drawing={drawing !== null}
        viewBox={`0 0 ${film.width} ${film.height}`}
        preserveAspectRatio="xMidYMid meet"
        role="group"
        aria-label="Lanes at the decision frame"
        style={{ fontSize: 25 * scale }}
      >
        <defs>
          <marker id="ledger-head" viewBox="0 0 10 10" refX="7" refY="5" markerWidth="4" markerHeight="4" orient="auto">
            <path d="M0 1 L9 5 L0 9" />
          </marker>
        </defs>
        {lanes.map((lane, index) => {
          const stored = found.lanes[index];
          const box = boxes[index];
          if (stored === undefined || box === undefined) return null;
          const line = values.known ? values.value.lines[index] : undefined;
          const yards = `${plain(lane.low)} · ${plain(lane.likely)} · ${plain(lane.high)}`;
          return (
            <g key={lane.id} className={laneClass(lane, laneId)} data-lane={lane.id}>
              {drawing?.laneId === lane.id ? null : <path d={drawn(lane.path)} markerEnd="url(#ledger-head)" />}
              <g opacity={drawing === null ? 1 : 0.25}>
                <rect x={box.x} y={box.y} width={box.width} height={box.height} rx={6 * scale} />
                <text x={box.x + 12 * scale} y={box.y + 25 * scale}>
                  {shortened(lane.name, 26 - lane.state.length)}, {lane.state}
                </text>
                <text className="lane-yards" x={box.x + 12 * scale} y={box.y + 50 * scale}>
                  {yards}
                  {line === undefined ? '' : `   worth ${signed(line.added)}`}
                </text>
                <YardHandles
                  lane={lane}
                  stored={stored}
                  range={range}
                  x={box.x + 22 * scale}
                  y={box.y + 86 * scale}
                  width={box.width - 44 * scale}
                  scale={scale}
                />
              </g>
            </g>
          );
        })}
        {drawing === null ? null : (
          <g className="lane drawing">
            <path d={drawn([...drawing.corners, drawing.at])} />
            {drawing.corners.map(([x, y]) => (
              <circle key={`${x} ${y}`} cx={x} cy={y} r={5 * scale} />
            ))}
            <path
              className="cross"
              d={`M${drawing.at[0] - 30 * scale} ${drawing.at[1]} h${60 * scale} M${drawing.at[0]} ${drawing.at[1] - 30 * scale} v${60 * scale}`}
            />
            <rect
              className="draw-ground"
              width={film.width}
              height={film.height}
              onPointerDown={(event) => {
                const at = corner(event);
                if (at !== null) setCorner(at);
              }}
              onPointerMove={(event) => {
                const at = corner(event);
                if (at !== null) useLedger.setState({ drawing: { ...drawing, at } });
              }}
              onDoubleClick={endDrawing}
            />
          </g>
        )}
      </svg>
    </div>
  );
}

const shortened = (name: string, most: number): string => (name.length > most ? `${name.slice(0, most - 1)}…` : name);

const laneClass = (lane: Lane, chosen: string | null): string =>
  ['lane', lane.taken ? 'taken' : '', lane.id === chosen ? 'chosen' : ''].filter((word) => word !== '').join(' ');
