import type { KeyboardEvent, PointerEvent } from 'react';
import type { Lane } from '../../../contract/rows.ts';
import { keepYards, moveHandle } from './ledger-actions.ts';
import { useLedger } from './ledger-store.ts';
import { placeOnStrip, type StripRange, withHandle, yardAt, type YardHandle, yardHandles } from './yard-strip.ts';

type StripProps = {
  readonly lane: Lane;
  /** The lane as the study has it; `lane` may have a handle held elsewhere. */
  readonly stored: Lane;
  /** Of the stored lanes: it stands still while a handle is held. */
  readonly range: StripRange;
  /** All in the units of the svg it stands in. */
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly scale: number;
};

/** A short strip of yards with three handles: drag, or arrow keys where one has the focus. A drag is one change. */
export function YardHandles({ lane, stored, range, x, y, width, scale }: StripProps) {
  const at = (yards: number): number => x + placeOnStrip(yards, range, width);
  const yardUnder = (event: PointerEvent<SVGGElement>): number => {
    const matrix = event.currentTarget.ownerSVGElement?.getScreenCTM();
    if (matrix === null || matrix === undefined) return lane.likely;
    return yardAt(new DOMPoint(event.clientX, event.clientY).matrixTransform(matrix.inverse()).x - x, range, width);
  };
  const onKeyDown = (event: KeyboardEvent<SVGGElement>, handle: YardHandle): void => {
    const by = { ArrowRight: 1, ArrowUp: 1, ArrowLeft: -1, ArrowDown: -1 }[event.key];
    if (by === undefined) return;
    event.preventDefault();
    event.nativeEvent.stopImmediatePropagation();
    moveHandle(stored, handle, stored[handle] + by * (event.shiftKey ? 5 : 1));
  };
  return (
    <g className="yard-strip">
      <line className="strip-line" x1={x} x2={x + width} y1={y} y2={y} />
      {[0, 10].map((yards) =>
        yards < range[0] || yards > range[1] ? null : (
          <g key={yards}>
            <line className="strip-tick" x1={at(yards)} x2={at(yards)} y1={y - 7 * scale} y2={y + 7 * scale} />
            <text className="strip-yards" x={at(yards)} y={y + 26 * scale} textAnchor="middle">
              {yards}
            </text>
          </g>
        ),
      )}
      <line className="strip-body" x1={at(lane.low)} x2={at(lane.high)} y1={y} y2={y} />
      {yardHandles.map((handle) => (
        <g
          key={handle}
          className="yard-handle"
          data-handle={handle}
          role="slider"
          tabIndex={0}
          aria-label={`${lane.name}, ${handle}`}
          aria-valuemin={-20}
          aria-valuemax={99}
          aria-valuenow={lane[handle]}
          aria-valuetext={`${lane[handle]} yards`}
          onKeyDown={(event) => onKeyDown(event, handle)}
          onPointerDown={(event) => {
            event.stopPropagation();
            event.currentTarget.setPointerCapture(event.pointerId);
            useLedger.setState({ laneId: lane.id, dragged: { laneId: lane.id, yards: stored } });
          }}
          onPointerMove={(event) => {
            if (!event.currentTarget.hasPointerCapture(event.pointerId)) return;
            useLedger.setState({ dragged: { laneId: lane.id, yards: withHandle(stored, handle, yardUnder(event)) } });
          }}
          onPointerUp={(event) => {
            const { dragged } = useLedger.getState();
            event.currentTarget.releasePointerCapture(event.pointerId);
            useLedger.setState({ dragged: null });
            if (dragged?.laneId === lane.id) keepYards(stored, dragged.yards);
          }}
          onPointerCancel={() => {
            useLedger.setState({ dragged: null });
          }}
        >
          <rect
            className="handle-reach"
            x={at(lane[handle]) - 24 * scale}
            y={handle === 'likely' ? y - 34 * scale : y - 12 * scale}
            width={48 * scale}
            height={48 * scale}
          />
          {handle === 'likely' ? (
            <path
              d={`M${at(lane.likely)} ${y - 4 * scale} l${-10 * scale} ${-17 * scale} h${20 * scale} z`}
              className="handle-mark"
            />
          ) : (
            <rect
              className="handle-mark"
              x={at(lane[handle]) - 5 * scale}
              y={y - 4 * scale}
              width={10 * scale}
              height={22 * scale}
              rx={3 * scale}
            />
          )}
        </g>
      ))}
    </g>
  );
}
