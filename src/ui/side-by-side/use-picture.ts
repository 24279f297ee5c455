import { useEffect, useRef, useState, type RefObject } from 'react';
import { FaultError } from '../../contract/faults.ts';
import type { ServedFilm } from '../../film/frame-server/frame-server.ts';
import { paintFrame } from '../../film/frame-server/paint-frame.ts';
import { roomFrames, tableOf } from './room-films.ts';

const inWords = (cause: unknown): string =>
  cause instanceof FaultError ? `${cause.fault.says} ${cause.fault.next}` : String(cause);

/** Paints a film's exact frame on a canvas whenever the frame changes; gives why it can't, in words, or null. */
export function usePicture(
  filmId: string | null,
  frame: number,
  viewer: string,
  canvas: RefObject<HTMLCanvasElement | null>,
): string | null {
  const [served, setServed] = useState<ServedFilm | null>(null);
  const [trouble, setTrouble] = useState<string | null>(null);
  const current = useRef<ServedFilm | null>(null);
  const busy = useRef<ServedFilm | null>(null);
  const wanted = useRef(frame);
  useEffect(() => {
    setServed(null);
    setTrouble(null);
    if (filmId === null) return;
    let gone = false;
    void (async () => {
      try {
        const table = await tableOf(filmId);
        const open = await roomFrames().openFilm({ id: `${filmId} ${viewer}`, url: `/film/${filmId}`, table });
        if (gone) {
          roomFrames().closeFilm(open);
          return;
        }
        current.current = open;
        setServed(open);
      } catch (cause) {
        if (!gone) setTrouble(inWords(cause));
      }
    })();
    return () => {
      gone = true;
      if (current.current !== null) roomFrames().closeFilm(current.current);
      current.current = null;
    };
  }, [filmId, viewer]);
  useEffect(() => {
    const direction = frame >= wanted.current ? 1 : -1;
    wanted.current = frame;
    if (served === null || busy.current === served) return;
    // One question at a time: in a fast play each would otherwise be overtaken by the next, and none painted.
    const paint = async (): Promise<void> => {
      busy.current = served;
      try {
        for (let asked = -1; asked !== wanted.current && current.current === served;) {
          asked = wanted.current;
          const got = await roomFrames().frame(served, asked, { direction, viewer });
          if (current.current !== served || canvas.current === null) return;
          if (got.known) {
            paintFrame(canvas.current, got.value, served.table.rotation);
            canvas.current.dataset['frame'] = String(got.value.frame);
            setTrouble(null);
          } else if (got.because === 'not-decoded') setTrouble(got.detail);
        }
      } catch (cause) {
        setTrouble(inWords(cause));
      } finally {
        if (busy.current === served) busy.current = null;
      }
    };
    void paint();
  }, [served, frame, viewer, canvas]);
  return trouble;
}
