import type { Action } from '../../kit/actions.ts';
import { acceptChosen, acceptLikely, chooseEnd, dropChosen, leaveCuts, moveCut, stepCut, turnCut } from './review.ts';

const group = 'Proposed cuts';

/** What a hand can do while proposed cuts are under review; these keys stand before the Stage's own. */
export const cutActions: readonly Action[] = [
  { name: 'Next proposal', group, keys: ['ArrowDown'], quiet: true, run: () => stepCut(1) },
  { name: 'Last proposal', group, keys: ['ArrowUp'], quiet: true, run: () => stepCut(-1) },
  { name: 'Accept it', group, keys: ['Enter'], quiet: true, run: acceptChosen },
  { name: 'Accept all likely ones', group, keys: ['Shift+Enter'], run: () => void acceptLikely() },
  { name: 'Leave it out, or take it back in', group, keys: ['Delete', 'Backspace'], quiet: true, run: dropChosen },
  { name: 'Work on where it begins', group, keys: ['i'], run: () => chooseEnd('in') },
  { name: 'Work on where it ends', group, keys: ['o'], run: () => chooseEnd('out') },
  { name: 'That end one frame back', group, keys: ['ArrowLeft'], quiet: true, run: () => moveCut(-1) },
  { name: 'That end one frame on', group, keys: ['ArrowRight'], quiet: true, run: () => moveCut(1) },
  { name: 'That end ten frames back', group, keys: ['Shift+ArrowLeft'], quiet: true, run: () => moveCut(-10) },
  { name: 'That end ten frames on', group, keys: ['Shift+ArrowRight'], quiet: true, run: () => moveCut(10) },
  { name: 'Call it a play, a replay or a graphic', group, keys: ['t'], run: turnCut },
  { name: 'Leave the proposed cuts', group, keys: ['Escape'], run: leaveCuts },
];
