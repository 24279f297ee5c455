import { FaultError } from '../../contract/faults.ts';
import { known, unknown, type Known } from '../../core/known.ts';
import { frameCount, type FrameTable } from '../table/frame-table.ts';
import type { FromWorker, ServerReport, ToWorker } from './messages.ts';
import type { Picture } from './picture.ts';

/** One frame of a film, with its picture. */
export type Frame = { readonly frame: number; readonly picture: Picture };

/**
 * Why a question for a frame got none: the same viewer asked for another one first (`superseded`), the film was
 * closed (`closed`), its bytes do not yield the frame (`not-decoded`), or the film has no such frame (`no-such-frame`).
 */
export type FrameProblem = 'superseded' | 'closed' | 'not-decoded' | 'no-such-frame';

/** How a frame is asked for. `viewer` names the picture on screen that wants it; two screens need two names. */
export type FrameRequest = { readonly direction?: 1 | -1; readonly viewer?: string };

/** A film open in the frame server. */
export type ServedFilm = { readonly id: string; readonly table: FrameTable };

/** The page's side of the frame server. */
export type FrameServer = {
  /**
   * Opens a film: `url` answers range requests with the page's cookies, `table` is the film's frame table. Opening an
   * id again replaces it. Rejects with a FaultError when the film is gone or this machine can't decode its codec.
   */
  readonly openFilm: (film: {
    readonly id: string;
    readonly url: string;
    readonly table: FrameTable;
  }) => Promise<ServedFilm>;
  /**
   * The exact frame, from 0, or why there is none. The last question of a viewer counts: an earlier one still open
   * is answered `superseded`. Frames in the direction of travel are made ready. Rejects with a FaultError when the
   * film's file is gone or replaced.
   */
  readonly frame: (film: ServedFilm, frame: number, request?: FrameRequest) => Promise<Known<Frame, FrameProblem>>;
  /** Closes a film and frees all it held. */
  readonly closeFilm: (film: ServedFilm) => void;
  /** Sets the cache's budget for all films together, in bytes. */
  readonly setBudget: (bytes: number) => void;
  readonly report: () => Promise<ServerReport>;
  /** Ends the worker. Questions still open are answered `closed`. */
  readonly close: () => void;
};

type Waiting = { readonly resolve: (message: FromWorker | null) => void };

/** Options of the frame server: its cache's budget in bytes, and the picture format the page paints best. */
export type FrameServerOptions = { readonly budgetBytes: number; readonly format?: Picture['format'] };

/** Starts the frame server's worker. Throws where workers or WebCodecs are missing. */
export function openFrameServer({ budgetBytes, format = 'rgba' }: FrameServerOptions): FrameServer {
  const worker = new Worker(new URL('./worker.ts', import.meta.url), { type: 'module', name: 'frame server' });
  const waiting = new Map<number, Waiting>();
  const open = new Set<string>();
  let asked = 0;
  let closed = false;

  const tell = (message: ToWorker): void => {
    // oxlint-disable-next-line unicorn/require-post-message-target-origin -- a worker has no origin to name
    if (!closed) worker.postMessage(message);
  };

  async function ask(message: (ask: number) => ToWorker): Promise<FromWorker | null> {
    if (closed) return null;
    asked += 1;
    const number = asked;
    const answer = new Promise<FromWorker | null>((resolve) => waiting.set(number, { resolve }));
    tell(message(number));
    return answer;
  }

  worker.addEventListener('message', (event: MessageEvent<FromWorker>) => {
    waiting.get(event.data.ask)?.resolve(event.data);
    waiting.delete(event.data.ask);
  });

  tell({ kind: 'budget', bytes: budgetBytes });

  return {
    async openFilm({ id, url, table }) {
      const absolute = new URL(url, location.href).href;
      const answer = await ask((number) => ({ kind: 'open', ask: number, film: id, url: absolute, table }));
      if (answer?.kind === 'fault') throw new FaultError(answer.fault);
      if (answer?.kind !== 'opened') throw new Error('The frame server was closed before the film was open.');
      open.add(id);
      return { id, table };
    },
    async frame(film, frame, { direction = 1, viewer = 'main' } = {}) {
      const last = frameCount(film.table) - 1;
      if (!Number.isSafeInteger(frame) || frame < 0 || frame > last) {
        return unknown('no-such-frame', `The film has frames 0 to ${last}, got ${frame}.`);
      }
      if (closed || !open.has(film.id)) return unknown('closed', 'The film is closed.');
      const want = { kind: 'want', film: film.id, viewer, frame, direction, format } as const;
      const answer = await ask((number) => ({ ...want, ask: number }));
      switch (answer?.kind) {
        case 'frame':
          return known({ frame: answer.frame, picture: answer.picture });
        case 'not-decoded':
          return unknown('not-decoded', answer.detail);
        case 'fault':
          throw new FaultError(answer.fault);
        case 'superseded':
          return open.has(film.id)
            ? unknown('superseded', `Another frame was asked for before frame ${frame} was there.`)
            : unknown('closed', 'The film was closed.');
        case 'opened':
        case 'report':
        case undefined:
          break;
      }
      return unknown('closed', 'The frame server was closed.');
    },
    closeFilm(film) {
      open.delete(film.id);
      tell({ kind: 'close', film: film.id });
    },
    setBudget(bytes) {
      tell({ kind: 'budget', bytes });
    },
    async report() {
      const answer = await ask((number) => ({ kind: 'report', ask: number }));
      if (answer?.kind !== 'report') throw new Error('The frame server is closed: it has nothing to report.');
      return answer.report;
    },
    close() {
      closed = true;
      worker.terminate();
      for (const { resolve } of waiting.values()) resolve(null);
      waiting.clear();
    },
  };
}
