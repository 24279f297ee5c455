import { useEffect, useRef, useState, type RefObject } from 'react';
import { FaultError } from '../../contract/faults.ts';
import { paintFrame } from '../../film/frame-server/paint-frame.ts';
import type { ServedFilm } from '../../film/frame-server/frame-server.ts';
import { usePlace } from '../link/place.ts';
import { lookFrames, tableOf } from './look-films.ts';
import { spanNow, useLook } from './look-store.ts';

const inWords = (cause: unknown): string =>
  cause instanceof FaultError ? `${cause.fault.says} ${cause.fault.next}` : String(cause);

/** The span's exact frames, stopped or played round. */
export function LookPicture() {
  const { frame, table, playing, spanId } = useLook();
  const span = useLook((look) => look.carry?.spans.find(({ id }) => id === spanId));
  const film = usePlace((place) => place.directory?.films.find(({ id }) => id === span?.filmId));
  const canvas = useRef<HTMLCanvasElement>(null);
  const trouble = usePainted(span?.filmId ?? null, frame, canvas);
  useEffect(() => {
    const shown = spanNow();
    if (!playing || table === null || shown === null) return;
    let start = table.times[useLook.getState().frame] ?? 0;
    let began = performance.now() / 1000;
    let asked = requestAnimationFrame(function turn() {
      const time = start + performance.now() / 1000 - began;
      let next = useLook.getState().frame;
      while (next < shown.outFrame && (table.times[next + 1] ?? Infinity) <= time) next += 1;
      if (next >= shown.outFrame) {
        next = shown.inFrame;
        start = table.times[next] ?? 0;
        began = performance.now() / 1000;
      }
      useLook.setState({ frame: next });
      asked = requestAnimationFrame(turn);
    });
    return () => cancelAnimationFrame(asked);
  }, [playing, table, spanId]);
  if (span === undefined) return <p className="look-missing">This carry is not cut from any film.</p>;
  return (
    <div className="look-film">
      <canvas ref={canvas} role="img" aria-label={`Frame ${frame} of ${film?.name ?? 'the film'}`} />
      <p className="look-note look-note-top">
        {span.angle} · {span.kind}
      </p>
      <p className="look-note look-note-foot">
        frame {frame} · {(table?.times[frame] ?? 0).toFixed(3)} s
      </p>
      {trouble === null ? null : (
        <p className="look-note look-trouble" role="alert">
          {trouble}
        </p>
      )}
    </div>
  );
}

function usePainted(filmId: string | null, frame: number, canvas: RefObject<HTMLCanvasElement | null>) {
  const [served, setServed] = useState<ServedFilm | null>(null);
  const [trouble, setTrouble] = useState<string | null>(null);
  const wanted = useRef(frame);
  const busy = useRef<ServedFilm | null>(null);
  const current = useRef<ServedFilm | null>(null);
  useEffect(() => {
    setServed(null);
    setTrouble(null);
    if (filmId === null) return;
    let gone = false;
    void (async () => {
      try {
        const table = await tableOf(filmId);
        const open = await lookFrames().openFilm({ id: `${filmId} look`, url: `/film/${filmId}`, table });
        if (gone) {
          lookFrames().closeFilm(open);
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
      if (current.current !== null) lookFrames().closeFilm(current.current);
      current.current = null;
    };
  }, [filmId]);
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
          const got = await lookFrames().frame(served, asked, { direction, viewer: 'look' });
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
  }, [served, frame, canvas]);
  return trouble;
}
