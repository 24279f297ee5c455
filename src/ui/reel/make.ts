import type { StageGame } from '../../contract/calls.ts';
import { makeReel, type Reel } from '../../film/reel/make-reel.ts';
import type { ReelFilm } from '../../film/reel/reel-plan.ts';
import { call } from '../link/call.ts';
import { fetchFrameTable } from '../link/fetch-frame-table.ts';
import type { ReelPlay } from '../link/reel-request.ts';
import { burnChalk } from './burn-chalk.ts';
import { itemsOf, reelParts, type ReelChoices, type ReelItem } from './reel-list.ts';

/** Reads the games that the plays asked for are of, and gives the plays as items. */
export async function readItems(plays: readonly ReelPlay[]): Promise<ReelItem[]> {
  const games = new Map<string, StageGame>();
  for (const gameId of new Set(plays.map((play) => play.gameId)))
    games.set(gameId, await call('stage.game', { gameId }));
  return itemsOf(plays, games);
}

/** Makes the reel in the size of its first film; rejects with a FaultError, or with the signal's reason when stopped. */
export async function makeReelOf(
  items: readonly ReelItem[],
  choices: ReelChoices,
  onProgress: (done: number) => void,
  signal: AbortSignal,
): Promise<Reel> {
  const films = new Map<string, ReelFilm>();
  for (const item of items.filter(({ left }) => !left)) {
    const id = item.spans.find((span) => span.id === item.spanId)?.filmId;
    if (id === undefined || films.has(id)) continue;
    signal.throwIfAborted();
    films.set(id, { id, url: `/film/${id}`, table: await fetchFrameTable(id) });
  }
  const [first] = films.values();
  const all = reelParts(items, films, choices);
  return makeReel({
    parts: all.map(({ part }) => part),
    width: first?.table.displayWidth ?? 1280,
    height: first?.table.displayHeight ?? 720,
    font: "'IBM Plex Sans', sans-serif",
    draw: (context, { part, frame, place }) => {
      const drawn = all[part];
      if (drawn?.part.kind === 'span')
        burnChalk(context, drawn.chalk, frame, drawn.part.film.table.displayWidth, place);
    },
    onProgress,
    signal,
  });
}
