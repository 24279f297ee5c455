import { useCallback, useEffect, useRef, useState, type RefObject } from 'react';
import { FaultError, faultOf } from '../../contract/faults.ts';
import type { Film } from '../../contract/rows.ts';
import { paintFrame } from '../../film/frame-server/paint-frame.ts';
import type { ServedFilm } from '../../film/frame-server/frame-server.ts';
import { showFault, usePlace } from '../link/place.ts';
import { frameServer } from './film-server.ts';
import { tableOf } from './stage-store.ts';

/** An open film and how to paint its exact frames on a canvas. */
export type ExactFilm = {
  /** True once frames can be asked for. */
  readonly open: boolean;
  /** Why no picture can be shown, in words; null when all is well. */
  readonly trouble: string | null;
  readonly setTrouble: (words: string | null) => void;
  /** Paints a frame; resolves to false when a later question overtook it or it could not be decoded. */
  readonly paint: (frame: number, direction?: 1 | -1) => Promise<boolean>;
};

/** Opens a film in the frame server while its component is on screen; `viewer` names the picture that asks. */
export function useExactFilm(film: Film, viewer: string, canvas: RefObject<HTMLCanvasElement | null>): ExactFilm {
  const served = useRef<ServedFilm | null>(null);
  const last = useRef(0);
  const [openId, setOpenId] = useState<string | null>(null);
  const [trouble, setTrouble] = useState<string | null>(null);
  const paint = useCallback(
    async (frame: number, direction?: 1 | -1): Promise<boolean> => {
      const open = served.current;
      if (open === null) return false;
      const way = direction ?? (frame >= last.current ? 1 : -1);
      last.current = frame;
      const got = await frameServer().frame(open, frame, { direction: way, viewer });
      if (!got.known) {
        if (got.because === 'not-decoded') setTrouble(got.detail);
        return false;
      }
      if (canvas.current === null || served.current !== open) return false;
      paintFrame(canvas.current, got.value, open.table.rotation);
      canvas.current.dataset['frame'] = String(got.value.frame);
      setTrouble(null);
      return true;
    },
    [viewer, canvas],
  );
  const missing = usePlace((place) => place.directory?.films.find(({ id }) => id === film.id)?.missing === true);
  // The directory is read again after many changes and brings a new object for the same film: that must not reopen it.
  const { id: filmId, name, path } = film;
  useEffect(() => {
    let gone = false;
    setTrouble(null);
    setOpenId(null);
    void (async () => {
      const table = await tableOf(filmId);
      if (table === undefined || gone) return;
      if (missing) {
        const says = `The film ${name} is not where the study last saw it (${path}).`;
        setTrouble(says);
        showFault(
          new FaultError(
            faultOf('film-missing', says, 'Charting and marking go on. To see it, find it under Films in Settings.'),
          ),
        );
        return;
      }
      try {
        // Each viewer opens the film under its own name, so that one closing does not take it from the other.
        const open = await frameServer().openFilm({ id: `${filmId} ${viewer}`, url: `/film/${filmId}`, table });
        if (gone) {
          frameServer().closeFilm(open);
          return;
        }
        served.current = open;
        setOpenId(filmId);
      } catch (cause) {
        setTrouble(cause instanceof Error ? cause.message : String(cause));
        showFault(cause);
      }
    })();
    return () => {
      gone = true;
      if (served.current !== null) frameServer().closeFilm(served.current);
      served.current = null;
    };
  }, [filmId, name, path, missing, viewer]);
  return { open: openId === filmId, trouble, setTrouble, paint };
}
