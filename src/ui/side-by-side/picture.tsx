import { useRef } from 'react';
import { timecodeOf } from '../../core/time/timecode.ts';
import type { FilmedSide } from './use-lock.ts';
import type { Which } from './side-store.ts';
import { usePicture } from './use-picture.ts';

function clockOf({ table }: FilmedSide, frame: number): string {
  const code = table.variableRate ? null : timecodeOf(frame, table.rate);
  const words = code?.known === true ? ` · ${code.value}` : '';
  return `frame ${frame}${words} · ${(table.times[frame] ?? 0).toFixed(3)} s`;
}

function paceOf({ locked }: FilmedSide): string {
  const { angle, timeScale } = locked.span;
  if (timeScale === null) return `${angle} · time scale unknown, taken as real time`;
  return timeScale === 1 ? angle : `${angle} · ${timeScale}× slow`;
}

/** One side's exact frame, with its own frame number, timecode and time. */
export function Picture({
  which,
  side,
  frame,
  mirrored,
  missing,
  name,
}: {
  readonly which: Which;
  readonly side: FilmedSide | null;
  readonly frame: number;
  readonly mirrored: boolean;
  readonly missing: string | null;
  readonly name: string;
}) {
  const canvas = useRef<HTMLCanvasElement>(null);
  const trouble = usePicture(side?.film.id ?? null, frame, which, canvas);
  return (
    <div className="side-picture" data-side={which}>
      {side === null ? (
        <p className="side-missing">{missing ?? 'Reading the film…'}</p>
      ) : (
        <>
          <canvas
            ref={canvas}
            className={mirrored ? 'side-canvas mirrored' : 'side-canvas'}
            role="img"
            aria-label={`${name}: frame ${frame} of ${side.film.name}${mirrored ? ', as in a mirror' : ''}`}
          />
          <p className="side-note side-note-top">
            {paceOf(side)}
            {mirrored ? ' · as in a mirror' : ''}
          </p>
          <p className="side-note side-note-foot">{clockOf(side, frame)}</p>
          {trouble === null ? null : (
            <p className="side-note side-trouble" role="alert">
              {trouble}
            </p>
          )}
        </>
      )}
    </div>
  );
}
