import { useEffect } from 'react';
import { dialogOpen } from '../kit/dialog-open.ts';
import { say } from '../link/place.ts';
import { useChalk } from './chalk/chalk-store.ts';
import { useCuts } from './cuts/cuts-store.ts';
import { addHalf, giveMark, rubricNow } from './marking.ts';
import { useStage } from './stage-store.ts';

const isTyping = (target: EventTarget | null): boolean =>
  target instanceof HTMLElement && target.matches('input:not([type=range]), textarea, select');

let lastMarked: string | null = null;

/** A trait's letter, then a figure: the mark stands. 0: not shown; -: can't be seen; a point after it: half more. */
function onKey(event: KeyboardEvent): void {
  if (event.ctrlKey || event.metaKey || event.altKey || isTyping(event.target) || dialogOpen()) return;
  // There letters are tools and figures nothing.
  if (useChalk.getState().open || useCuts.getState().cuts !== null) return;
  const waiting = useStage.getState().trait;
  const { key } = event;
  if (waiting !== null) {
    const done = (): void => {
      event.preventDefault();
      event.stopImmediatePropagation();
      lastMarked = waiting;
      useStage.setState({ trait: null });
    };
    if (/^[1-5]$/.test(key)) {
      giveMark(waiting, 'shown', Number(key));
      done();
      return;
    }
    if (/^[6-9]$/.test(key)) {
      // Left alone, the figure would tag a moment.
      event.preventDefault();
      event.stopImmediatePropagation();
      say(`A mark goes from 1 to 5, got ${key}.`);
      return;
    }
    if (key === '0') {
      giveMark(waiting, 'not shown', null);
      done();
      return;
    }
    if (key === '-') {
      giveMark(waiting, 'unseen', null);
      done();
      return;
    }
    if (key === 'Backspace') {
      giveMark(waiting, null, null);
      done();
      return;
    }
    if (key === 'Escape') {
      done();
      return;
    }
  }
  if (key === '.' && lastMarked !== null) {
    event.preventDefault();
    addHalf(lastMarked);
    return;
  }
  const trait = rubricNow()
    ?.body.families.flatMap((family) => family.traits)
    .find(({ letter }) => letter === key);
  if (trait !== undefined) {
    event.preventDefault();
    event.stopImmediatePropagation();
    useStage.setState({ trait: trait.key });
  } else if (key !== '.') {
    lastMarked = null;
  }
}

/** Listens for marks by key while the Stage is open; before the action table, since a figure after a letter is a mark. */
export function useMarkKeys(): void {
  useEffect(() => {
    window.addEventListener('keydown', onKey, { capture: true });
    return () => window.removeEventListener('keydown', onKey, { capture: true });
  }, []);
}
