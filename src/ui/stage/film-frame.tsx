import type { ReactNode, RefObject } from 'react';
import type { Film } from '../../contract/rows.ts';
import type { FrameTable } from '../../film/table/frame-table.ts';
import { formatTimecode } from './film-clock.ts';

type FilmFrameProps = {
  readonly film: Film;
  readonly frame: number;
  readonly table: FrameTable | undefined;
  readonly caption: string;
  readonly onTop: 'exact' | 'video';
  readonly trouble: string | null;
  readonly canvas: RefObject<HTMLCanvasElement | null>;
  readonly children?: ReactNode;
};

/** A film's picture with what stands over it: which view, and the frame by number, timecode and seconds. */
export function FilmFrame({ film, frame, table, caption, onTop, trouble, canvas, children }: FilmFrameProps) {
  const number = String(frame).replace(/\B(?=(\d{3})+$)/g, ' ');
  return (
    <div className="film" data-on-top={onTop}>
      {children}
      <canvas className="film-exact" ref={canvas} role="img" aria-label={`Frame ${frame} of ${film.name}`} />
      <p className="film-caption">
        {caption}
        {onTop === 'exact' ? ' · exact frame' : ''}
      </p>
      <p className="film-clock">
        frame {number}
        {table === undefined ? '' : ` · ${formatTimecode(table, frame)} · ${(table.times[frame] ?? 0).toFixed(3)} s`}
      </p>
      {trouble === null ? null : (
        <p className="film-trouble" role="alert">
          {trouble}
        </p>
      )}
    </div>
  );
}
