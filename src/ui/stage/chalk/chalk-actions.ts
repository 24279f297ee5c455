import type { Action } from '../../kit/actions.ts';
import type { ChalkTool } from './chalk-geometry.ts';
import { takeTool } from './draw-chalk.ts';
import { arrow, enter, setEnd, settleMove, stepBack, stepFilm, takeAway, turnPoint, turnShape } from './move-chalk.ts';

/** The letter that takes up each tool. */
export const toolKeys: readonly { readonly tool: ChalkTool; readonly key: string }[] = [
  { tool: 'arrow', key: 'a' },
  { tool: 'line', key: 'l' },
  { tool: 'lane', key: 'n' },
  { tool: 'ring', key: 'r' },
  { tool: 'freehand', key: 'f' },
  { tool: 'text', key: 't' },
];

const ways = [
  ['left', 'ArrowLeft', -1, 0],
  ['right', 'ArrowRight', 1, 0],
  ['up', 'ArrowUp', 0, -1],
  ['down', 'ArrowDown', 0, 1],
] as const;

const paces = [
  ['', '', 8],
  [' by much', 'Shift+', 40],
  [' by a pixel', '$mod+', 1],
] as const;

const group = 'Chalk';

/** What a hand can do while chalk is open; these keys stand before the Stage's own. */
export const chalkActions: readonly Action[] = [
  ...toolKeys.map(({ tool, key }): Action => ({
    name: `Draw ${tool === 'freehand' || tool === 'text' ? tool : `${/^[aeiou]/.test(tool) ? 'an' : 'a'} ${tool}`}`,
    group,
    keys: [key],
    run: () => {
      settleMove();
      takeTool(tool);
    },
  })),
  ...paces.flatMap(([words, held, by]) =>
    ways.map(([way, key, x, y]): Action => ({
      name: `Cross or chosen chalk ${way}${words}`,
      group,
      keys: [`${held}${key}`],
      quiet: true,
      run: () => arrow(x * by, y * by),
    })),
  ),
  { name: 'Set a point; words of what is chosen', group, keys: ['Enter'], quiet: true, run: enter },
  { name: 'Take back a point, or what is chosen', group, keys: ['Backspace', 'Delete'], quiet: true, run: takeAway },
  { name: 'Choose the next chalk', group, keys: ['s'], run: () => turnShape(1) },
  { name: 'Choose the chalk before', group, keys: ['Shift+s', 'Shift+S'], run: () => turnShape(-1) },
  { name: 'Choose the next point of it', group, keys: ['p'], run: turnPoint },
  { name: 'Chalk lies from this frame', group, keys: ['i'], run: () => setEnd('from') },
  { name: 'Chalk lies to this frame', group, keys: ['o'], run: () => setEnd('to') },
  { name: 'Chalk stays, one frame back', group, keys: [','], quiet: true, run: () => stepFilm(-1) },
  { name: 'Chalk stays, one frame on', group, keys: ['.'], quiet: true, run: () => stepFilm(1) },
  { name: 'Leave chalk', group, keys: ['Escape'], run: stepBack },
];
