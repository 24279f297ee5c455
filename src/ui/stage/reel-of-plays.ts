import type { Part, Play } from '../../contract/rows.ts';
import { say, usePlace } from '../link/place.ts';
import { askForReel, type ReelPlay } from '../link/reel-request.ts';
import { spansOf, useStage } from './stage-store.ts';

const downs = ['1st', '2nd', '3rd', '4th'] as const;

/** A spot as it is said: own 39, opponent 12, midfield. */
const spotInWords = (spot: number): string =>
  spot === 50 ? 'midfield' : spot < 50 ? `own ${spot}` : `opponent ${100 - spot}`;

/** The two lines of a play's card; what is not charted is left out. */
export function playInWords(play: Play, part: Part | null, number: number): { title: string; caption: string } {
  const down = play.down === null ? undefined : downs[play.down - 1];
  const situation = [
    down === undefined ? '' : `${down}${play.toGo === null ? '' : ` and ${play.toGo}`}`,
    play.spot === null ? '' : spotInWords(play.spot),
  ].filter((word) => word !== '');
  const gain = part?.gain ?? play.gain;
  const run = [
    [play.concept ?? '', play.direction ?? ''].filter((word) => word !== '').join(' '),
    gain === null ? '' : gain < 0 ? `loss of ${-gain}` : `gain of ${gain}`,
  ].filter((word) => word !== '');
  return { title: situation.length === 0 ? `Play ${number}` : situation.join(', '), caption: run.join(', ') };
}

/** Asks for a reel of the plays chosen together, or of the one chosen, in the game's order. */
export function reelOfPlays(): void {
  const { game, together, spanId, seal } = useStage.getState();
  const { playId, directory } = usePlace.getState();
  if (seal !== null) {
    say('Sealed: a reel would show the rest of the play.');
    return;
  }
  if (game === null) return;
  const wanted = new Set(together.length > 0 ? together : playId === null ? [] : [playId]);
  const plays = game.plays.flatMap((play, index): ReelPlay[] => {
    if (!wanted.has(play.id) || spansOf(game, play.id).length === 0) return [];
    const part = game.parts.find((each) => each.playId === play.id) ?? null;
    const shown = play.id === playId ? spanId : null;
    return [{ gameId: game.game.id, playId: play.id, spanId: shown, at: null, ...playInWords(play, part, index + 1) }];
  });
  askForReel(directory?.games.find(({ id }) => id === game.game.id)?.label ?? 'Reel', plays);
}
