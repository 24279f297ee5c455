import { useEffect, useMemo } from 'react';
import { useActions, type Action } from '../kit/actions.ts';
import { dialogOpen } from '../kit/dialog-open.ts';
import { say, usePlace } from '../link/place.ts';
import { addHalf, giveMark, leaveLook, showCarry, showSpan, spanNow, useLook } from './look-store.ts';

function step(by: number): void {
  const span = spanNow();
  if (span === null) return;
  useLook.setState(({ frame }) => ({
    frame: Math.min(span.outFrame, Math.max(span.inFrame, frame + by)),
    playing: false,
  }));
}

function turnMoment(by: 1 | -1): void {
  const { carry, spanId, frame } = useLook.getState();
  const frames = (carry?.moments ?? [])
    .filter((moment) => moment.spanId === spanId)
    .map((moment) => moment.frame)
    .toSorted((a, b) => a - b);
  const found = by === 1 ? frames.find((each) => each > frame) : frames.findLast((each) => each < frame);
  if (found !== undefined) useLook.setState({ frame: found, playing: false });
}

function turnSpan(): void {
  const { carry, spanId } = useLook.getState();
  const spans = carry?.spans ?? [];
  const next = spans[(spans.findIndex(({ id }) => id === spanId) + 1) % Math.max(1, spans.length)];
  if (next !== undefined && next.id !== spanId) void showSpan(next.id);
}

let lastMarked: string | null = null;

/** A trait's letter, then a figure, as on the Stage; a figure without a letter does nothing here. */
function onKey(event: KeyboardEvent): void {
  const typing = event.target instanceof HTMLElement && event.target.matches('input, textarea, select');
  if (event.ctrlKey || event.metaKey || event.altKey || typing || dialogOpen()) return;
  const waiting = useLook.getState().trait;
  const { key } = event;
  const take = (): void => {
    event.preventDefault();
    event.stopImmediatePropagation();
  };
  if (waiting !== null) {
    const done = (): void => {
      take();
      lastMarked = waiting;
      useLook.setState({ trait: null });
    };
    if (/^[1-5]$/.test(key)) giveMark(waiting, 'shown', Number(key));
    else if (key === '0') giveMark(waiting, 'not shown', null);
    else if (key === '-') giveMark(waiting, 'unseen', null);
    else if (key === 'Backspace') giveMark(waiting, null, null);
    if (/^[1-50-]$/.test(key) || key === 'Backspace' || key === 'Escape') {
      done();
      return;
    }
    if (/^[6-9]$/.test(key)) {
      take();
      say(`A mark goes from 1 to 5, got ${key}.`);
      return;
    }
  }
  if (key === '.' && lastMarked !== null) {
    take();
    addHalf(lastMarked);
    return;
  }
  const rubric = usePlace.getState().directory?.rubricVersions.at(-1);
  const trait = rubric?.body.families.flatMap(({ traits }) => traits).find(({ letter }) => letter === key);
  if (trait === undefined) return;
  take();
  useLook.setState({ trait: trait.key });
}

/** The keys of a carry being looked at blind. */
export function useLookKeys(): void {
  const actions = useMemo<readonly Action[]>(() => {
    const act = (name: string, keys: readonly string[], run: () => void): Action => ({
      name,
      group: 'Second look',
      keys,
      run,
    });
    const turn = (by: 1 | -1) => (): void => void showCarry(useLook.getState().at + by);
    return [
      act('One frame back', ['ArrowLeft'], () => step(-1)),
      act('One frame on', ['ArrowRight'], () => step(1)),
      act('Ten frames back', ['Shift+ArrowLeft'], () => step(-10)),
      act('Ten frames on', ['Shift+ArrowRight'], () => step(10)),
      act('Play round, or stop', ['Space', 'k'], () => useLook.setState(({ playing }) => ({ playing: !playing }))),
      act('Last moment', [','], () => turnMoment(-1)),
      act('Next moment', [';'], () => turnMoment(1)),
      act('Next angle or replay', ['g'], turnSpan),
      act('Next carry of the look', ['ArrowDown'], turn(1)),
      act('Last carry of the look', ['ArrowUp'], turn(-1)),
      act('Leave the look and come back later', ['Escape'], leaveLook),
    ];
  }, []);
  useActions(actions);
  useEffect(() => {
    lastMarked = null;
    window.addEventListener('keydown', onKey, { capture: true });
    return () => window.removeEventListener('keydown', onKey, { capture: true });
  }, []);
}
