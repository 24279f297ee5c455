import { useEffect, useRef, useState } from 'react';
import './video-js-without-styles.ts';
import videojs from 'video.js';
import type { Film } from '../../contract/rows.ts';
import { openHandover, type Handover } from '../../film/handover.ts';
import { openShuttle, type Shuttle } from '../../film/shuttle.ts';
import { showFault } from '../link/place.ts';
import { ChalkPalette } from './chalk/chalk-palette.tsx';
import { useChalk } from './chalk/chalk-store.ts';
import { ChalkSurface } from './chalk/chalk-surface.tsx';
import { ChalkLayer } from './chalk-layer.tsx';
import { FilmFrame } from './film-frame.tsx';
import { LaneLayer } from './lane-layer.tsx';
import { LedgerFilm } from './ledger/ledger-film.tsx';
import { useLedger } from './ledger/ledger-store.ts';
import { filmHeard } from './loop.ts';
import { useStage } from './stage-store.ts';
import { useExactFilm } from './use-exact-film.ts';

/** The film worked on: the exact decoded frame when stopped, the player when it moves on, exact frames when it goes back. */
export function FilmView({ film, caption }: { film: Film; caption: string }) {
  const canvas = useRef<HTMLCanvasElement>(null);
  const holder = useRef<HTMLDivElement>(null);
  const [onTop, setOnTop] = useState<'exact' | 'video'>('exact');
  const frame = useStage((stage) => stage.frame);
  const playing = useStage((stage) => stage.playing);
  const speed = useStage((stage) => stage.speed);
  const ledger = useLedger(({ open }) => open);
  const chalk = useChalk((state) => state.open);
  const table = useStage((stage) => stage.tables[film.id]);
  const { open, trouble, setTrouble, paint } = useExactFilm(film, 'main', canvas);
  const handover = useRef<Handover | null>(null);
  const shuttle = useRef<Shuttle | null>(null);
  const byPlayer = useRef(false);

  useEffect(() => {
    if (open && !playing) paint(frame).catch(showFault);
  }, [frame, playing, open, paint]);

  // The player lives beside React's tree: video.js owns its element from making to disposing.
  useEffect(() => {
    const place = holder.current;
    if (place === null || table === undefined || !open) return;
    const element = document.createElement('video-js');
    place.append(element);
    const player = videojs(element, {
      controls: false,
      preload: 'auto',
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
        paintExact: (wanted) => paint(wanted),
        putOnTop: setOnTop,
        onFrame: (shown) => {
          useStage.setState({ frame: shown });
          filmHeard(shown);
        },
      });
    });
    shuttle.current = openShuttle({
      table,
      now: () => performance.now() / 1000,
      nextPicture: (then) => requestAnimationFrame(then),
      cancel: (handle) => cancelAnimationFrame(handle),
      show: async (due, direction) => {
        const { seal } = useStage.getState();
        const wanted = seal === null ? due : Math.min(due, seal.frame);
        const done = await paint(wanted, direction);
        if (done) useStage.setState(wanted < due ? { frame: wanted, playing: false } : { frame: wanted });
        return done;
      },
      onEnd: () => useStage.setState({ playing: false }),
    });
    return () => {
      handover.current?.close();
      handover.current = null;
      shuttle.current?.stop();
      shuttle.current = null;
      player.dispose();
      setOnTop('exact');
    };
  }, [film.id, table, open, paint]);

  useEffect(() => {
    const hands = handover.current;
    if (hands === null) return;
    shuttle.current?.stop();
    // The player runs on a little before it hears to stop: a sealed film goes by exact frames only.
    if (playing && speed > 0 && useStage.getState().seal === null) {
      byPlayer.current = true;
      hands.play(useStage.getState().frame, speed).catch((cause: unknown) => {
        useStage.setState({ playing: false });
        setTrouble(`The player can't play this film: ${cause instanceof Error ? cause.message : String(cause)}`);
      });
      return;
    }
    const goOn = (): void => {
      if (playing) shuttle.current?.run(useStage.getState().frame, speed);
    };
    // Pausing a player that did not run would go back to the frame it last showed.
    if (!byPlayer.current) {
      goOn();
      return;
    }
    byPlayer.current = false;
    hands.pause().then(goOn).catch(showFault);
  }, [playing, speed, setTrouble]);

  return (
    <FilmFrame
      film={film}
      frame={frame}
      table={table}
      caption={caption}
      onTop={onTop}
      trouble={trouble}
      canvas={canvas}
    >
      <div className="film-video" ref={holder} aria-hidden={onTop === 'exact'} />
      {ledger ? null : <LaneLayer film={film} frame={frame} />}
      <ChalkLayer film={film} frame={frame} />
      {ledger ? <LedgerFilm film={film} frame={frame} /> : null}
      {chalk ? <ChalkSurface film={film} frame={frame} /> : null}
      {chalk ? <ChalkPalette frame={frame} /> : null}
    </FilmFrame>
  );
}

/** Another angle of the same play, showing the same instant as the film worked on. */
export function FilmBeside({ film, frame, caption }: { film: Film; frame: number; caption: string }) {
  const canvas = useRef<HTMLCanvasElement>(null);
  const table = useStage((stage) => stage.tables[film.id]);
  const { open, trouble, paint } = useExactFilm(film, 'beside', canvas);
  useEffect(() => {
    if (open) paint(frame).catch(showFault);
  }, [frame, open, paint]);
  return (
    <FilmFrame
      film={film}
      frame={frame}
      table={table}
      caption={caption}
      onTop="exact"
      trouble={trouble}
      canvas={canvas}
    />
  );
}
