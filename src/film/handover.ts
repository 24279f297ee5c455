/**
 * Handing over between a playing video element and the exact frames of the frame server, so that neither playing nor
 * pausing jumps a frame: the exact picture stays on top until the video shows that frame or a later one, and the
 * video stays on top until the exact picture of the frame it stopped at is painted.
 */
import { nearestFrame } from '../core/time/frame-times.ts';
import type { FrameTable } from './table/frame-table.ts';

/** What of a video element is used; video.js's own element is one. */
export type PlayingVideo = Pick<
  HTMLVideoElement,
  | 'currentTime'
  | 'playbackRate'
  | 'error'
  | 'paused'
  | 'play'
  | 'pause'
  | 'requestVideoFrameCallback'
  | 'cancelVideoFrameCallback'
  | 'addEventListener'
  | 'removeEventListener'
>;

/**
 * The time to set a video element to so that it shows a frame: the middle of the frame's time on screen, because a
 * time at its beginning may be rounded into the frame before. Seconds on the film's clock. `frame` is 0 to the last;
 * throws otherwise.
 */
export function seekTime(table: FrameTable, frame: number): number {
  const begins = table.times[frame];
  if (begins === undefined) throw new Error(`The film has frames 0 to ${table.times.length - 1}, got ${frame}.`);
  const ends = Math.max(begins, table.times[frame + 1] ?? table.duration);
  return (begins + ends) / 2;
}

/** The frame a video element shows, from the `mediaTime` of its frame callback in seconds: the nearest frame. */
export function frameOfMediaTime(table: FrameTable, mediaTime: number): number {
  const frame = nearestFrame(table.times, mediaTime);
  return frame.known ? frame.value : 0;
}

/** Which picture is on top: the video element's, or the exact frame's. */
export type OnTop = 'video' | 'exact';

/** What the page gives the handover. */
export type HandoverOptions = {
  readonly video: PlayingVideo;
  readonly table: FrameTable;
  /** Paints the exact frame on the canvas; resolves once painted, with false when it could not be. */
  readonly paintExact: (frame: number) => Promise<boolean>;
  /** Shows one of the two pictures and hides the other. */
  readonly putOnTop: (which: OnTop) => void;
  /** Hears of each frame that comes on top. */
  readonly onFrame: (frame: number) => void;
};

/** The two moves and an end. */
export type Handover = {
  /**
   * Plays from a frame at a speed of 0.0625 to 16; resolves once the video is on top. Rejects when the element can't
   * (MPEG-TS, open groups of pictures): then play by `openShuttle`.
   */
  readonly play: (frame: number, speed: number) => Promise<void>;
  /** Stops and resolves with the frame on top, now painted exactly. Stopped already: the frame last shown. */
  readonly pause: () => Promise<number>;
  readonly close: () => void;
};

/** Rounds of painting after a pause, should the video present one more frame meanwhile. */
const repaints = 4;
/** Milliseconds after a pause within which a video element may still present the frame that was under way. */
const settling = 60;

/** Joins a video element and an exact picture of the same film. */
export function openHandover({ video, table, paintExact, putOnTop, onFrame }: HandoverOptions): Handover {
  let shown = 0;
  let callback = 0;
  let watching = false;
  let turn = 0;

  function watch(): void {
    if (!watching) return;
    callback = video.requestVideoFrameCallback((_now, { mediaTime }) => {
      shown = frameOfMediaTime(table, mediaTime);
      onFrame(shown);
      watch();
    });
  }

  function stopWatching(): void {
    watching = false;
    video.cancelVideoFrameCallback(callback);
  }

  /** Resolves once the video has presented a frame for which `enough` holds. */
  function presented(enough: (frame: number) => boolean, mine: number): Promise<number> {
    return new Promise((resolve) => {
      const next = (): void => {
        callback = video.requestVideoFrameCallback((_now, { mediaTime }) => {
          const frame = frameOfMediaTime(table, mediaTime);
          if (enough(frame) || mine !== turn) resolve(frame);
          else next();
        });
      };
      next();
    });
  }

  /** Resolves once the element has sought a time; rejects when it can't (it fails on open groups of pictures). */
  function sought(time: number): Promise<void> {
    return new Promise((resolve, reject) => {
      const end = (): void => {
        video.removeEventListener('seeked', end);
        video.removeEventListener('error', end);
        if (video.error === null) resolve();
        else reject(new Error(`The video element can't go to ${time.toFixed(3)} s: ${video.error.message}`));
      };
      video.addEventListener('seeked', end);
      video.addEventListener('error', end);
      video.currentTime = time;
      if (video.error !== null) end();
    });
  }

  return {
    async play(frame, speed) {
      turn += 1;
      const mine = turn;
      stopWatching();
      putOnTop('exact');
      shown = frame;
      video.playbackRate = speed;
      await sought(seekTime(table, frame));
      if (mine !== turn) return;
      const arrived = presented((got) => got >= frame, mine);
      await video.play();
      const first = await arrived;
      if (mine !== turn) return;
      shown = first;
      putOnTop('video');
      onFrame(first);
      watching = true;
      watch();
    },
    async pause() {
      turn += 1;
      const mine = turn;
      video.pause();
      for (let round = 0; round < repaints; round += 1) {
        const frame = shown;
        const settled = new Promise((resolve) => setTimeout(resolve, settling));
        const painted = await paintExact(frame);
        await settled;
        if (mine !== turn) return shown;
        // A frame may still be presented just after pause(): then paint that one.
        if (painted && frame === shown) break;
      }
      stopWatching();
      putOnTop('exact');
      onFrame(shown);
      return shown;
    },
    close() {
      turn += 1;
      stopWatching();
    },
  };
}
