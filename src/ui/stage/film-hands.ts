/** What others may take from a film on screen: its canvas, for a still. */
export type FilmHands = { readonly canvas: () => HTMLCanvasElement | null; readonly paintedFrame: () => number };

const shown = new Map<string, FilmHands>();

/** Registers a film on screen; the returned function takes it away. */
export function registerFilm(viewer: string, hands: FilmHands): () => void {
  shown.set(viewer, hands);
  return () => {
    if (shown.get(viewer) === hands) shown.delete(viewer);
  };
}

/** The film shown under a viewer's name. */
export const filmShown = (viewer: string): FilmHands | null => shown.get(viewer) ?? null;
