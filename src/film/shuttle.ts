import { frameDue } from '../core/time/frame-due.ts';
import type { FrameTable } from './table/frame-table.ts';

/** What the shuttle needs: a clock and a next-picture call from the page, and a way to show exact frames. */
export type ShuttleOptions = {
  readonly table: FrameTable;
  /** Seconds on a clock that only runs on, such as `performance.now() / 1000`. */
  readonly now: () => number;
  /** Calls back before the page's next picture, as `requestAnimationFrame` does; gives a number to cancel by. */
  readonly nextPicture: (then: () => void) => number;
  readonly cancel: (number: number) => void;
  /** Shows the exact frame; resolves once shown, with false when it could not be. */
  readonly show: (frame: number, direction: 1 | -1) => Promise<boolean>;
  /** Hears when the film's end (or beginning, going back) is reached. */
  readonly onEnd: (frame: number) => void;
};

/** Plays exact frames at any speed, backwards too. */
export type Shuttle = {
  /** Plays from a frame at `speed` film seconds a second, negative for backwards; 0 stops. */
  readonly run: (frame: number, speed: number) => void;
  /** Stops and gives the last frame shown, or null when none was. */
  readonly stop: () => number | null;
};

/**
 * Plays the exact frames of a film against the clock: for going back, for films the video element can't play, and for
 * held keys. A frame that can't be ready in time is left out, never shown late and never out of order.
 */
export function openShuttle({ table, now, nextPicture, cancel, show, onEnd }: ShuttleOptions): Shuttle {
  let handle: number | null = null;
  let turn = 0;
  let shown: number | null = null;

  function stop(): number | null {
    turn += 1;
    if (handle !== null) cancel(handle);
    handle = null;
    return shown;
  }

  function run(from: number, speed: number): void {
    stop();
    if (speed === 0) return;
    const mine = turn;
    const begun = now();
    const direction = speed > 0 ? 1 : -1;
    const end = speed > 0 ? table.times.length - 1 : 0;
    let busy = false;
    const tick = (): void => {
      handle = nextPicture(tick);
      const due = frameDue(table.times, from, now() - begun, speed);
      if (busy || !due.known || due.value === shown) return;
      busy = true;
      const frame: number = due.value;
      void show(frame, direction).then((done) => {
        busy = false;
        if (mine !== turn) return;
        if (done) shown = frame;
        if (frame !== end) return;
        stop();
        onEnd(frame);
      });
    };
    shown = null;
    handle = nextPicture(tick);
  }

  return { run, stop };
}
