/** Where someone is looking in a film, and which way he goes: 1 onwards, -1 back. */
export type Head = { readonly film: string; readonly frame: number; readonly direction: 1 | -1 };

/** A store of pictures by film and frame that never holds more bytes than its budget. */
export type FrameCache<Value> = {
  readonly get: (film: string, frame: number) => Value | undefined;
  readonly has: (film: string, frame: number) => boolean;
  /** Keeps a value and lets go of the least useful ones until all fit; a value larger than the budget is not kept. */
  readonly put: (film: string, frame: number, value: Value, bytes: number) => void;
  /** Says where people look now; what is near a head, and before it in its direction, is kept longest. */
  readonly look: (viewer: string, head: Head) => void;
  readonly forgetViewer: (viewer: string) => void;
  readonly dropFilm: (film: string) => void;
  readonly setBudget: (bytes: number) => void;
  readonly held: () => { readonly bytes: number; readonly frames: number; readonly budget: number };
};

type Entry<Value> = { readonly value: Value; readonly bytes: number };

const behindCosts = 3;
const unwatched = 1e9;

/** Opens an empty cache with a budget in bytes, 0 or more. `dropped` is given each value it lets go of. */
export function openFrameCache<Value>(
  budgetBytes: number,
  dropped: (value: Value) => void = () => undefined,
): FrameCache<Value> {
  const films = new Map<string, Map<number, Entry<Value>>>();
  const heads = new Map<string, Head>();
  let budget = budgetBytes;
  let bytes = 0;
  let frames = 0;

  /** How far a frame is from being wanted: frames ahead of a head, or thrice the frames behind it. */
  function distance(film: string, frame: number): number {
    let nearest = unwatched;
    for (const head of heads.values()) {
      if (head.film !== film) continue;
      const ahead = (frame - head.frame) * head.direction;
      nearest = Math.min(nearest, ahead >= 0 ? ahead : -ahead * behindCosts);
    }
    return nearest;
  }

  function remove(film: string, frame: number): void {
    const entry = films.get(film)?.get(frame);
    if (entry === undefined) return;
    films.get(film)?.delete(frame);
    bytes -= entry.bytes;
    frames -= 1;
    dropped(entry.value);
  }

  function makeRoom(): void {
    if (bytes <= budget) return;
    const all: { film: string; frame: number; away: number }[] = [];
    for (const [film, kept] of films) {
      for (const frame of kept.keys()) all.push({ film, frame, away: distance(film, frame) });
    }
    all.sort((a, b) => b.away - a.away);
    for (const { film, frame } of all) {
      if (bytes <= budget) return;
      remove(film, frame);
    }
  }

  return {
    get: (film, frame) => films.get(film)?.get(frame)?.value,
    has: (film, frame) => films.get(film)?.has(frame) === true,
    put(film, frame, value, size) {
      remove(film, frame);
      if (size > budget) return;
      const kept = films.get(film) ?? new Map<number, Entry<Value>>();
      films.set(film, kept);
      kept.set(frame, { value, bytes: size });
      bytes += size;
      frames += 1;
      makeRoom();
    },
    look(viewer, head) {
      heads.set(viewer, head);
    },
    forgetViewer(viewer) {
      heads.delete(viewer);
    },
    dropFilm(film) {
      for (const frame of films.get(film)?.keys() ?? []) remove(film, frame);
      films.delete(film);
      for (const [viewer, head] of heads) if (head.film === film) heads.delete(viewer);
    },
    setBudget(next) {
      budget = next;
      makeRoom();
    },
    held: () => ({ bytes, frames, budget }),
  };
}
