import { useEffect } from 'react';
import type { LaneState } from '../../../core/lanes/lane.ts';
import { dialogOpen } from '../../kit/dialog-open.ts';
import { beginDrawing, cornerByKey, dropCorner, leaveDrawing, moveCorner } from './drawing.ts';
import { addLane, closeLedger, laneNow, removeLane, setState, takeLane, turnLane } from './ledger-actions.ts';
import { useLedger } from './ledger-store.ts';
import { acceptProposal, ignoreProposal } from './proposal-keys.ts';

const states: Readonly<Record<string, LaneState>> = { o: 'open', c: 'closing', f: 'filled' };
const ways: Readonly<Record<string, readonly [number, number]>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, -1],
  ArrowDown: [0, 1],
};

/** Keys while a path is drawn: arrows move the cross by 8 film pixels (with Shift by 40), Enter sets a corner. */
function whileDrawing({ key, shiftKey }: KeyboardEvent): boolean {
  const way = ways[key];
  if (way !== undefined) {
    const by = shiftKey ? 40 : 8;
    moveCorner(way[0] * by, way[1] * by);
    return true;
  }
  if (key === 'Enter') cornerByKey();
  else if (key === 'Backspace') dropCorner();
  else if (key === 'Escape') leaveDrawing();
  else return false;
  return true;
}

/** Keys while the focus is in the ledger and in no field of it. */
function atLedger({ key }: KeyboardEvent): boolean {
  const lane = laneNow();
  const state = states[key];
  if (key === 'n') addLane();
  else if (key === 'ArrowDown') turnLane(1);
  else if (key === 'ArrowUp') turnLane(-1);
  else if (key === 'a') acceptProposal();
  else if (key === 'i') ignoreProposal();
  else if (key === 'Escape') closeLedger();
  else if (lane === null) return false;
  else if (state !== undefined) setState(lane, state);
  else if (key === 't') takeLane(lane);
  else if (key === 'd') beginDrawing();
  else if (key === 'Delete') removeLane(lane);
  else if (key === 'e') document.querySelector<HTMLInputElement>(`.ledger [data-lane="${lane.id}"] input`)?.select();
  else return false;
  return true;
}

function onKey(event: KeyboardEvent): void {
  const { open, drawing } = useLedger.getState();
  const { target } = event;
  if (!open || event.ctrlKey || event.metaKey || event.altKey || dialogOpen()) return;
  if (!(target instanceof HTMLElement || target instanceof SVGElement)) return;
  if (target.matches('input:not([type=radio]), textarea, select')) {
    // From a field back to the ledger's own keys.
    if (event.key !== 'Escape' || target.closest('.ledger') === null) return;
    event.preventDefault();
    event.stopImmediatePropagation();
    document.querySelector<HTMLElement>('.ledger')?.focus();
    return;
  }
  const inside = target.closest('.ledger, .ledger-film') !== null;
  const ownKey = target.matches('button, [role=slider]') && (event.key === 'Enter' || event.key.startsWith('Arrow'));
  const done = drawing !== null ? whileDrawing(event) : inside && !ownKey && atLedger(event);
  if (!done) return;
  event.preventDefault();
  event.stopImmediatePropagation();
}

/** The lane under the hand is the one worked on, in the ledger and on the film. */
function onTouch({ target }: Event): void {
  if (!useLedger.getState().open || useLedger.getState().drawing !== null || !(target instanceof Element)) return;
  const id = target.closest('[data-lane]')?.getAttribute('data-lane');
  if (id !== null && id !== undefined) useLedger.setState({ laneId: id });
}

/** Listens for the ledger's keys while it is open; before the marks, since here a letter is a lane's. */
export function useLedgerKeys(): void {
  useEffect(() => {
    window.addEventListener('keydown', onKey, { capture: true });
    window.addEventListener('focusin', onTouch);
    window.addEventListener('pointerdown', onTouch, { capture: true });
    return () => {
      window.removeEventListener('keydown', onKey, { capture: true });
      window.removeEventListener('focusin', onTouch);
      window.removeEventListener('pointerdown', onTouch, { capture: true });
    };
  }, []);
}
