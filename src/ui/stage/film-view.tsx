import { useEffect, useRef, useState } from 'react';
import videojs from 'video.js';
import { formatTimecode } from './film-clock.ts';
import type { Film } from '../../contract/rows.ts';
import { openFrameServer, type FrameServer, type ServedFilm } from '../../film/frame-server/frame-server.ts';
import { paintFrame } from '../../film/frame-server/paint-frame.ts';
import { openHandover, type Handover } from '../../film/handover.ts';
import { showFault } from '../link/place.ts';
import { tableOf, useStage } from './stage-store.ts';
import { registerFilm } from './film-hands.ts';

const cacheBytes = 384 * 1024 * 1024;
let server: FrameServer | null = null;
const frames = (): FrameServer => (server ??= openFrameServer({ budgetBytes: cacheBytes }));

/** The film: the exact decoded frame when stopped, the player when it moves, and the two handing over without a jump. */
export function FilmView({ film, viewer = 'main', caption }: { film: Film; viewer?: string; caption: string }) {
  const canvas = useRef<HTMLCanvasElement>(null);
  const holder = useRef<HTMLDivElement>(null);
  const [onTop, setOnTop] = useState<'exact' | 'video'>('exact');
  const [trouble, setTrouble] = useState<string | null>(null);
  const frame = useStage((stage) => stage.frame);
  const playing = useStage((stage) => stage.playing);
  const speed = useStage((stage) => stage.speed);
  const table = useStage((stage) => stage.tables[film.id]);
  const served = useRef<ServedFilm | null>(null);
  const [openFilmId, setOpenFilmId] = useState<string | null>(null);
  const handover = useRef<Handover | null>(null);
  const lastFrame = useRef(frame);
  const painted = useRef(-1);

  const paintExact = useRef(async (wanted: number): Promise<boolean> => {
    const open = served.current;
    if (open === null) return false;
    const direction = wanted >= lastFrame.current ? 1 : -1;
    lastFrame.current = wanted;
    const got = await frames().frame(open, wanted, { direction, viewer });
    const target = canvas.current;
    if (!got.known) {
      if (got.because === 'not-decoded') setTrouble(got.detail);
      return false;
    }
    if (target === null || served.current !== open) return false;
    paintFrame(target, got.value, open.table.rotation);
    painted.current = got.value.frame;
    target.dataset['frame'] = String(got.value.frame);
    setTrouble(null);
    return true;
  });

  useEffect(() => {
    let gone = false;
    setTrouble(null);
    setOpenFilmId(null);
    void (async () => {
      const read = await tableOf(film);
      if (read === undefined || gone) return;
      try {
        const open = await frames().openFilm({ id: film.id, url: `/film/${film.id}`, table: read });
        if (gone) {
          frames().closeFilm(open);
          return;
        }
        served.current = open;
        setOpenFilmId(film.id);
      } catch (cause) {
        setTrouble(cause instanceof Error ? cause.message : String(cause));
        showFault(cause);
      }
    })();
    return () => {
      gone = true;
      if (served.current !== null) frames().closeFilm(served.current);
      served.current = null;
    };
  }, [film]);

  useEffect(() => {
    if (openFilmId !== film.id || playing) return;
    paintExact.current(frame).catch(showFault);
  }, [frame, playing, openFilmId, film.id]);

  // The player lives beside React's tree: video.js owns its element from making to disposing.
  useEffect(() => {
    const place = holder.current;
    if (place === null || table === undefined || openFilmId !== film.id) return;
    const element = document.createElement('video-js');
    place.append(element);
    const player = videojs(element, {
      controls: false,
      preload: 'auto',
      fluid: false,
      fill: true,
      sources: [{ src: `/film/${film.id}`, type: 'video/mp4' }],
    });
    player.ready(() => {
      const video = element.querySelector('video');
      if (video === null) return;
      video.playsInline = true;
      handover.current = openHandover({
        video,
        table,
        paintExact: (wanted) => paintExact.current(wanted),
        putOnTop: setOnTop,
        onFrame: (shown) => useStage.setState({ frame: shown }),
      });
    });
    return () => {
      handover.current?.close();
      handover.current = null;
      player.dispose();
      setOnTop('exact');
    };
  }, [film.id, table, openFilmId]);

  useEffect(() => {
    const hands = handover.current;
    if (hands === null) return;
    if (playing) {
      hands.play(useStage.getState().frame, speed).catch((cause: unknown) => {
        useStage.setState({ playing: false });
        setTrouble(`The player can't play this film: ${cause instanceof Error ? cause.message : String(cause)}`);
      });
    } else {
      hands.pause().catch(showFault);
    }
  }, [playing, speed]);

  useEffect(
    () => registerFilm(viewer, { canvas: () => canvas.current, paintedFrame: () => painted.current }),
    [viewer],
  );

  return (
    <div className="film" data-on-top={onTop}>
      <div className="film-video" ref={holder} aria-hidden={onTop === 'exact'} />
      <canvas className="film-exact" ref={canvas} role="img" aria-label={`Frame ${frame} of ${film.name}`} />
      <p className="film-caption">
        {caption}
        {onTop === 'exact' ? ' · exact frame' : ''}
      </p>
      <p className="film-clock">
        frame {new Intl.NumberFormat('en').format(frame).replaceAll(',', ' ')}
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
