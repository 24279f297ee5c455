import { useEffect, useRef, type PointerEvent } from 'react';
import type { Film } from '../../../contract/rows.ts';
import { usePlace } from '../../link/place.ts';
import { useStage } from '../stage-store.ts';
import { chalkSizes, insideFilm, linePath, ringRadius, type ChalkPoint } from './chalk-geometry.ts';
import { ChalkShape } from './chalk-shape.tsx';
import { chalkNow, useChalk } from './chalk-store.ts';
import { endShape, keepMoved, keepWords, setPoint, trace } from './draw-chalk.ts';
import { chooseShape, holdMoved, leaveChalk } from './move-chalk.ts';

type Held =
  | { readonly kind: 'shape'; readonly from: readonly ChalkPoint[]; readonly at: ChalkPoint }
  | { readonly kind: 'drawn'; readonly at: ChalkPoint };

/** The picture while chalk is open: what is drawn, what is chosen with its points, the cross, and words being written. */
export function ChalkSurface({ film, frame }: { film: Film; frame: number }) {
  const { game, spanId } = useStage();
  const evaluatorId = usePlace((place) => place.evaluatorId);
  const { tool, cross, drawing, chosenId, pointIndex, moved, writing } = useChalk();
  const held = useRef<Held | null>(null);
  // Chalk is of one film and span: going elsewhere puts it away.
  useEffect(() => {
    const stop = useStage.subscribe((now, before) => {
      if (now.spanId !== before.spanId || now.filmId !== before.filmId) leaveChalk();
    });
    return () => {
      stop();
      if (useChalk.getState().open) leaveChalk();
    };
  }, []);
  const here = chalkNow(
    (game?.chalk ?? []).filter(
      (each) =>
        each.spanId === spanId &&
        each.evaluatorId === evaluatorId &&
        ((each.fromFrame <= frame && frame <= each.toFrame) || each.id === chosenId),
    ),
    moved,
  );
  const chosen = here.find(({ id }) => id === chosenId);
  const { stroke, letters } = chalkSizes(film.width);
  const at = (event: PointerEvent<SVGSVGElement>): ChalkPoint => {
    const matrix = event.currentTarget.getScreenCTM();
    if (matrix === null) return cross;
    const { x, y } = new DOMPoint(event.clientX, event.clientY).matrixTransform(matrix.inverse());
    return [x, y];
  };
  const down = (event: PointerEvent<SVGSVGElement>): void => {
    if (event.button !== 0 || !(event.target instanceof Element)) return;
    if (writing !== null) return;
    event.currentTarget.setPointerCapture(event.pointerId);
    const point = at(event);
    const id = event.target.closest('[data-chalk]')?.getAttribute('data-chalk');
    const corner = event.target.closest('[data-point]')?.getAttribute('data-point');
    if (corner !== null && corner !== undefined && chosen !== undefined) {
      useChalk.setState({ pointIndex: Number(corner) });
      held.current = { kind: 'shape', from: chosen.points, at: point };
    } else if (id !== null && id !== undefined && drawing === null) {
      chooseShape(id);
      const shape = here.find((each) => each.id === id);
      held.current = shape === undefined ? null : { kind: 'shape', from: shape.points, at: point };
    } else {
      // The second press of a double click ends a lane.
      if (event.detail > 1 && tool === 'lane') endShape();
      else setPoint(point);
      held.current = { kind: 'drawn', at: point };
    }
    event.preventDefault();
    event.currentTarget.focus();
  };
  const move = (event: PointerEvent<SVGSVGElement>): void => {
    const point = at(event);
    if (held.current?.kind === 'shape') {
      holdMoved(held.current.from, [point[0] - held.current.at[0], point[1] - held.current.at[1]]);
      return;
    }
    useChalk.setState({ cross: insideFilm(point, film) });
    if (held.current !== null) trace(point);
  };
  const up = (event: PointerEvent<SVGSVGElement>): void => {
    const was = held.current;
    held.current = null;
    if (was === null) return;
    if (was.kind === 'shape') keepMoved();
    else if (useChalk.getState().tracing) endShape();
    // A press that went a way is a drag: where it is let go is the second point. One that did not waits for it.
    else if (drawing !== null && tool !== 'lane') {
      const point = at(event);
      if (Math.hypot(point[0] - was.at[0], point[1] - was.at[1]) > stroke) setPoint(point);
    }
  };
  const points = drawing === null ? [] : tool === 'freehand' ? drawing : [...drawing, cross];
  return (
    // The drawing takes the keys while chalk is open.
    <svg
      className="chalk chalk-surface"
      // oxlint-disable-next-line jsx-a11y/no-noninteractive-tabindex
      tabIndex={0}
      viewBox={`0 0 ${film.width} ${film.height}`}
      preserveAspectRatio="xMidYMid meet"
      role="application"
      aria-label={`Chalk, ${tool}. Cross at ${cross[0]}, ${cross[1]} of ${film.width} by ${film.height}`}
      onPointerDown={down}
      onPointerMove={move}
      onPointerUp={up}
      onPointerCancel={() => {
        held.current = null;
        useChalk.setState({ moved: null });
      }}
    >
      <rect className="chalk-ground" width={film.width} height={film.height} />
      {here.map((each) => (
        <g
          key={each.id}
          data-chalk={each.id}
          className={each.id === chosenId ? 'chalk-piece chosen' : 'chalk-piece'}
          opacity={each.fromFrame <= frame && frame <= each.toFrame ? 1 : 0.35}
        >
          <ChalkShape chalk={each} filmWidth={film.width} />
          {each.kind === 'ring' ? (
            <circle
              className="chalk-hit"
              cx={each.points[0]?.[0]}
              cy={each.points[0]?.[1]}
              r={ringRadius(each.points)}
              strokeWidth={stroke * 5}
            />
          ) : each.kind === 'text' ? null : (
            <path className="chalk-hit" d={linePath(each.points)} strokeWidth={stroke * 5} />
          )}
        </g>
      ))}
      {points.length === 0 ? null : (
        <g className="chalk-drawn">
          <ChalkShape
            chalk={{ kind: tool, points: points.map(([x, y]): [number, number] => [x, y]), text: null }}
            filmWidth={film.width}
          />
        </g>
      )}
      {chosen === undefined || chosen.kind === 'freehand'
        ? null
        : chosen.points.map(([x, y], index) => (
            <circle
              // oxlint-disable-next-line react/no-array-index-key -- a point has no other name than its place
              key={index}
              className="chalk-point"
              data-point={index}
              data-chosen={index === pointIndex}
              cx={x}
              cy={y}
              r={stroke * 2}
              strokeWidth={stroke * 0.5}
            />
          ))}
      {chosen !== undefined || writing !== null ? null : (
        <path
          className="chalk-cross"
          strokeWidth={stroke * 0.4}
          d={`M${cross[0] - stroke * 5} ${cross[1]}h${stroke * 10}M${cross[0]} ${cross[1] - stroke * 5}v${stroke * 10}`}
        />
      )}
      {writing === null ? null : (
        <foreignObject
          x={Math.min(writing.at[0], film.width - letters * 12)}
          y={Math.max(0, writing.at[1] - letters * 1.3)}
          width={letters * 12}
          height={letters * 1.8}
        >
          <input
            className="chalk-words"
            aria-label="Words of the chalk"
            defaultValue={writing.words}
            maxLength={120}
            ref={(input) => {
              if (input === null) return;
              input.style.setProperty('font-size', `${letters}px`);
              if (document.activeElement !== input) input.focus();
            }}
            onKeyDown={(event) => {
              if (event.key === 'Enter') keepWords(event.currentTarget.value);
              else if (event.key === 'Escape') useChalk.setState({ writing: null });
              else return;
              event.preventDefault();
              event.stopPropagation();
              document.querySelector<SVGElement>('.chalk-surface')?.focus();
            }}
            onBlur={(event) => keepWords(event.currentTarget.value)}
          />
        </foreignObject>
      )}
    </svg>
  );
}
