import { GAME_ONE } from './game-one.ts';
import { GAME_TWO } from './game-two.ts';
import type { GameRow } from './rows.ts';

/** The demo season's games in order. */
export const GAMES: readonly GameRow[] = [GAME_ONE, GAME_TWO];
