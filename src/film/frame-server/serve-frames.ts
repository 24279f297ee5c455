import { FaultError, faultOf } from '../../contract/faults.ts';
import { frameCount, type FrameTable } from '../table/frame-table.ts';
import { openFilmDecoder, type FilmDecoder } from './film-decoder.ts';
import { openFilmSource } from './film-source.ts';
import { openFrameCache, type FrameCache } from './frame-cache.ts';
import type { FromWorker, ServerReport, ToWorker } from './messages.ts';
import type { Picture } from './picture.ts';
import { nextAhead } from './read-ahead.ts';
import { toRgba } from './to-rgba.ts';

type Want = Extract<ToWorker, { kind: 'want' }>;
type Film = {
  readonly id: string;
  readonly table: FrameTable;
  readonly decoder: FilmDecoder;
  /** The one unanswered question of each viewer. */
  readonly wants: Map<string, Want>;
  /** Where each viewer of this film is. */
  readonly heads: Map<string, { frame: number; direction: 1 | -1 }>;
  working: boolean;
  closed: boolean;
};
type Post = (message: FromWorker, transfer: Transferable[]) => void;

/** RGBA pictures made ahead of being asked for, in all films together. */
const madeAhead = 4;
/** Pictures whose memory is kept for the next ones. */
const mostSpare = 8;

/** The frame server's inside: takes messages, answers through `post`. Runs in a worker; knows nothing of one. */
export function frameServer(post: Post, budgetBytes: number): (message: ToWorker) => void {
  // Pictures the cache lets go of give their memory to the next ones: garbage of this size is collected late.
  const spare: Uint8Array<ArrayBuffer>[] = [];
  const cache: FrameCache<Picture> = openFrameCache(budgetBytes, ({ data }) => {
    if (spare.length < mostSpare) spare.push(data);
  });
  const films = new Map<string, Film>();
  const made = new Map<string, Picture>();
  let decodedBefore = 0;
  let startsBefore = 0;

  function rgbaOf(film: string, frame: number, picture: Picture): Picture {
    const name = `${film} ${frame}`;
    const ready = made.get(name);
    made.delete(name);
    return ready ?? { ...picture, format: 'rgba', data: new Uint8Array(toRgba(picture).buffer) };
  }

  function makeAhead(film: Film, want: Want): void {
    if (want.format !== 'rgba') return;
    const frame = want.frame + want.direction;
    const picture = cache.get(film.id, frame);
    const name = `${film.id} ${frame}`;
    if (picture === undefined || made.has(name)) return;
    made.set(name, rgbaOf(film.id, frame, picture));
    for (const old of made.keys()) {
      if (made.size <= madeAhead) break;
      made.delete(old);
    }
  }

  /** Answers a question from the cache; false when the frame is not there. */
  function answer(film: Film, want: Want): boolean {
    const picture = cache.get(film.id, want.frame);
    if (picture === undefined) return false;
    film.wants.delete(want.viewer);
    const out =
      want.format === 'rgba' ? rgbaOf(film.id, want.frame, picture) : { ...picture, data: picture.data.slice() };
    post({ kind: 'frame', ask: want.ask, frame: want.frame, picture: out }, [out.data.buffer]);
    return true;
  }

  const anyWants = (): boolean => [...films.values()].some((film) => film.wants.size > 0);

  function nextTarget(film: Film): { frame: number; want: Want | null } | null {
    const want = [...film.wants.values()].at(-1);
    if (want !== undefined) return { frame: want.frame, want };
    if (anyWants()) return null;
    const { budget, frames, bytes } = cache.held();
    const each = frames > 0 ? bytes / frames : film.table.width * film.table.height * 1.5;
    const room = Math.floor(budget / each / Math.max(1, films.size));
    for (const head of film.heads.values()) {
      const frame = nextAhead(
        { ...head, room, frames: frameCount(film.table) },
        (at) => cache.has(film.id, at) || film.decoder.lost.has(at),
      );
      if (frame !== null) return { frame, want: null };
    }
    return null;
  }

  function refuse(film: Film, want: Want, error: unknown): void {
    film.wants.delete(want.viewer);
    const fault =
      error instanceof FaultError
        ? error.fault
        : faultOf(
            'internal',
            `The frame server stopped: ${error instanceof Error ? error.message : String(error)}`,
            'Open the film again.',
          );
    post({ kind: 'fault', ask: want.ask, fault }, []);
  }

  async function work(film: Film): Promise<void> {
    if (film.working) return;
    film.working = true;
    try {
      for (let target = nextTarget(film); target !== null && !film.closed; target = nextTarget(film)) {
        const { frame, want } = target;
        const stale = (): boolean => film.closed || (want === null ? anyWants() : film.wants.get(want.viewer) !== want);
        const ended = await film.decoder.produce(frame, stale);
        // No room to read further ahead: enough is ready until someone asks again.
        if (want === null && ended === 'crowded-out') break;
        if (want === null || film.wants.get(want.viewer) !== want) continue;
        if (ended === 'cached' && answer(film, want)) {
          makeAhead(film, want);
        } else if (ended === 'lost' || ended === 'crowded-out') {
          film.wants.delete(want.viewer);
          const detail =
            ended === 'lost'
              ? `Frame ${frame} is damaged in the film's file.`
              : `Frame ${frame} does not fit in the ${cache.held().budget} bytes set for frames.`;
          post({ kind: 'not-decoded', ask: want.ask, detail }, []);
        }
      }
    } catch (error) {
      for (const want of film.wants.values()) refuse(film, want, error);
    } finally {
      film.working = false;
    }
    for (const other of films.values()) {
      if (!other.working && other !== film && nextTarget(other) !== null) void work(other);
    }
  }

  async function open(message: Extract<ToWorker, { kind: 'open' }>): Promise<void> {
    try {
      const source = await openFilmSource(message.url, message.table);
      close(message.film);
      films.set(message.film, {
        id: message.film,
        table: message.table,
        decoder: openFilmDecoder(message.film, source, message.table, cache, spare),
        wants: new Map(),
        heads: new Map(),
        working: false,
        closed: false,
      });
      post({ kind: 'opened', ask: message.ask }, []);
    } catch (error) {
      const fault =
        error instanceof FaultError
          ? error.fault
          : faultOf(
              'film-unsupported',
              `The film could not be opened: ${String(error)}`,
              'Convert it or choose another.',
            );
      post({ kind: 'fault', ask: message.ask, fault }, []);
    }
  }

  function close(id: string): void {
    const film = films.get(id);
    if (film === undefined) return;
    film.closed = true;
    for (const want of film.wants.values()) post({ kind: 'superseded', ask: want.ask }, []);
    const counts = film.decoder.counts();
    decodedBefore += counts.decoded;
    startsBefore += counts.starts;
    film.decoder.close();
    films.delete(id);
    for (const name of made.keys()) if (name.startsWith(`${id} `)) made.delete(name);
  }

  function want(message: Want): void {
    const film = films.get(message.film);
    if (film === undefined) {
      post({ kind: 'superseded', ask: message.ask }, []);
      return;
    }
    const before = film.wants.get(message.viewer);
    if (before !== undefined) post({ kind: 'superseded', ask: before.ask }, []);
    film.wants.delete(message.viewer);
    film.wants.set(message.viewer, message);
    film.heads.set(message.viewer, { frame: message.frame, direction: message.direction });
    cache.look(`${message.film} ${message.viewer}`, {
      film: message.film,
      frame: message.frame,
      direction: message.direction,
    });
    if (answer(film, message)) makeAhead(film, message);
    void work(film);
  }

  function report(): ServerReport {
    const held = cache.held();
    const counts = [...films.values()].map((film) => film.decoder.counts());
    return {
      cachedBytes: held.bytes,
      cachedFrames: held.frames,
      budgetBytes: held.budget,
      decoded: counts.reduce((sum, { decoded }) => sum + decoded, decodedBefore),
      starts: counts.reduce((sum, { starts }) => sum + starts, startsBefore),
      films: films.size,
    };
  }

  return (message) => {
    switch (message.kind) {
      case 'open':
        void open(message);
        break;
      case 'close':
        close(message.film);
        break;
      case 'want':
        want(message);
        break;
      case 'budget':
        cache.setBudget(message.bytes);
        break;
      case 'report':
        post({ kind: 'report', ask: message.ask, report: report() }, []);
        break;
    }
  };
}
