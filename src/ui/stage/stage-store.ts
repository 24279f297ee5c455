import { create } from 'zustand';
import type { StageGame } from '../../contract/calls.ts';
import type { ChangeStep } from '../../contract/changes.ts';
import type { Part, Play, Span } from '../../contract/rows.ts';
import type { Seal } from '../../contract/sealed-game.ts';
import type { FrameTable } from '../../film/table/frame-table.ts';
import { call } from '../link/call.ts';
import { makeChange } from '../link/change.ts';
import { attempt, go, say, usePlace } from '../link/place.ts';
import { applyLocally } from './apply-locally.ts';
import type { RailView } from './rail-view.ts';

/** What the Stage holds while it is open: one game's rows, the frame shown, and what the hands are in the middle of. */
export type StageState = {
  game: StageGame | null;
  spanId: string | null;
  /** The film shown; of the span, or chosen to cut from. */
  filmId: string | null;
  frame: number;
  playing: boolean;
  /** Film seconds a second; below 0 goes back. */
  speed: number;
  looping: boolean;
  /** True when a second angle of the play stands beside the first. */
  paired: boolean;
  /** Plays chosen together: what is filled in one is set on all. Empty for the one chosen alone. */
  together: readonly string[];
  history: boolean;
  /** Where a new play's span would begin, marked on this film; null: not marked. */
  inPoint: number | null;
  /** Trait whose figure is awaited. */
  trait: string | null;
  filter: string;
  stripFolded: boolean;
  /** True when every blank of the sentence is shown. */
  unfolded: boolean;
  tables: Readonly<Record<string, FrameTable>>;
  /** Blank of the sentence to put the focus in next; the Stage clears it. */
  focusBlank: string | null;
  /** What the rail is zoomed to; null: the span with a little before and after. */
  railView: RailView | null;
  /** The carry whose rest is sealed, and the film second it stops at; null: nothing is. */
  seal: (Seal & { readonly time: number }) | null;
};

export const useStage = create<StageState>(() => ({
  game: null,
  spanId: null,
  filmId: null,
  frame: 0,
  playing: false,
  speed: 1,
  looping: false,
  paired: false,
  together: [],
  history: false,
  inPoint: null,
  trait: null,
  filter: '',
  stripFolded: false,
  unfolded: false,
  tables: {},
  focusBlank: null,
  railView: null,
  seal: null,
}));

/** The chosen play, its run (or first part) and the span shown; each null when there is none. */
export type Chosen = { play: Play | null; part: Part | null; span: Span | null };

/** Finds what is chosen in a game's rows. */
export function chosenOf(game: StageGame | null, playId: string | null, spanId: string | null): Chosen {
  const play = game?.plays.find(({ id }) => id === playId) ?? null;
  const parts = play === null ? [] : (game?.parts.filter((part) => part.playId === play.id) ?? []);
  const span = game?.spans.find(({ id }) => id === spanId) ?? null;
  return { play, part: parts.find((part) => part.kind === 'run') ?? parts[0] ?? null, span };
}

/** What is chosen now. */
export const chosenNow = (): Chosen =>
  chosenOf(useStage.getState().game, usePlace.getState().playId, useStage.getState().spanId);

const spanOrder = { live: 0, replay: 1, graphic: 2 } as const;

/** Spans of a play, live ones first, then by where they lie in their film. */
export function spansOf(game: StageGame, playId: string): Span[] {
  return game.spans
    .filter((span) => span.playId === playId)
    .toSorted(
      (a, b) => spanOrder[a.kind] - spanOrder[b.kind] || a.angle.localeCompare(b.angle) * -1 || a.inFrame - b.inFrame,
    );
}

/** Shows a play: its first span, at the snap where it is tagged, else at its beginning. */
export function showPlay(playId: string | null): void {
  useStage.setState({ together: [] });
  const { game } = useStage.getState();
  go({ playId });
  if (game === null || playId === null) {
    useStage.setState({ spanId: null, trait: null });
    return;
  }
  const [span] = spansOf(game, playId);
  if (span === undefined) useStage.setState({ spanId: null, trait: null, playing: false });
  else showSpan(span.id);
  const part = game.parts.find((row) => row.playId === playId);
  if (part !== undefined) go({ runnerId: part.runnerId });
}

/** Shows one span of a play, at its snap or beginning, or at a given frame. */
export function showSpan(spanId: string, at?: number): void {
  const { game } = useStage.getState();
  const span = game?.spans.find(({ id }) => id === spanId);
  if (game === null || span === undefined) return;
  const snap = game.moments.find((moment) => moment.spanId === spanId && moment.name === 'snap');
  useStage.setState({
    spanId,
    filmId: span.filmId,
    frame: at ?? snap?.frame ?? span.inFrame,
    playing: false,
    trait: null,
  });
}

/** Reads the chosen game and shows the play the person was at. */
export async function readGame(gameId: string): Promise<void> {
  const { seal } = useStage.getState();
  const game = seal === null ? await call('stage.game', { gameId }) : await call('stage.sealed', { gameId, ...seal });
  const before = useStage.getState();
  // Sealed or opened while this was read: what was read is not what may be shown.
  if (before.seal !== seal) return;
  useStage.setState({ game });
  const { playId } = usePlace.getState();
  const play = game.plays.find(({ id }) => id === playId);
  const spanStands = game.spans.some(({ id, playId: owner }) => id === before.spanId && owner === playId);
  const { showing } = usePlace.getState();
  if (showing !== null) usePlace.setState({ showing: null });
  if (play === undefined) showPlay(game.plays[0]?.id ?? null);
  else if (showing?.spanId !== null && showing?.spanId !== undefined)
    showSpan(showing.spanId, showing.frame ?? undefined);
  else if (!spanStands) showPlay(play.id);
}

/** Reads a film's frame table once; later askers get the kept one. Trouble is shown. */
export async function tableOf(filmId: string): Promise<FrameTable | undefined> {
  const kept = useStage.getState().tables[filmId];
  if (kept !== undefined) return kept;
  const { fetchFrameTable } = await import('../link/fetch-frame-table.ts');
  const table = await attempt(() => fetchFrameTable(filmId));
  if (table !== undefined) useStage.setState(({ tables }) => ({ tables: { ...tables, [filmId]: table } }));
  return table;
}

let underWay = 0;

/** Whether a change of this window has not been answered yet: what is read now might not hold it. */
export const changeUnderWay = (): boolean => underWay > 0;

/**
 * Makes a change and shows it at once; when the study refuses it, the game is read again and the trouble is shown.
 * Resolves to whether it was made.
 */
export async function changeStage(label: string, steps: readonly ChangeStep[]): Promise<boolean> {
  const { game } = useStage.getState();
  if (game !== null) useStage.setState({ game: applyLocally(game, steps) });
  const done = await attempt(async () => {
    underWay += 1;
    try {
      await makeChange(label, steps);
    } finally {
      underWay -= 1;
    }
    return true;
  });
  if (done === true) {
    say(label);
    return true;
  }
  const { gameId } = usePlace.getState();
  if (gameId !== null) await attempt(() => readGame(gameId));
  return false;
}
