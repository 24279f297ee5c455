import { useCallback, useMemo } from 'react';
import type { SideBySideView } from '../../contract/comparison-views.ts';
import { useActions, type Action } from '../kit/actions.ts';
import { go, usePlace } from '../link/place.ts';
import { instantOf, stepFrom, type LockedSide } from './lock.ts';
import { pairNow } from './pairs.tsx';
import { showCarries, turnMirror, turnSpeed, useSides } from './side-store.ts';
import type { Lock } from './use-lock.ts';

/** Puts each runner, with his carry and his mirror, on the other side. */
export function swap(): void {
  const { directory, runnerId, otherRunnerId } = usePlace.getState();
  const runners = directory?.runners ?? [];
  const first = runners.find(({ id }) => id === runnerId)?.id ?? runners[0]?.id ?? null;
  const second =
    runners.find(({ id }) => id === otherRunnerId)?.id ?? runners.find(({ id }) => id !== first)?.id ?? null;
  const { carry, mirrored } = useSides.getState();
  useSides.setState({
    carry: { first: carry.second, second: carry.first },
    mirrored: { first: mirrored.second, second: mirrored.first },
  });
  go({ runnerId: second, otherRunnerId: first });
}

/** Shows the next or last pair of carries. */
export function turnPair(view: SideBySideView, by: 1 | -1): void {
  if (!view.pairs.known) return;
  const all = view.pairs.value.pairs;
  const at = pairNow(view, useSides.getState().carry);
  const next = all[at < 0 ? 0 : Math.min(all.length - 1, Math.max(0, at + by))];
  if (next !== undefined) showCarries(next.first, next.second);
}

function sidesOf({ first, second }: Lock): readonly [LockedSide, LockedSide] | null {
  const one = first ?? second;
  const other = second ?? first;
  return one === null || other === null ? null : [one.locked, other.locked];
}

/** Steps both pictures by frames of the one whose frames are closer together. */
export function useStep(lock: Lock): (by: number) => void {
  return useCallback(
    (by: number) => {
      const sides = sidesOf(lock);
      if (sides === null) return;
      const { instant } = useSides.getState();
      useSides.setState({ instant: stepFrom(sides, lock.moment, instant, by), playing: false });
    },
    [lock],
  );
}

/** Goes to the next or last moment both have, without changing what they are locked on. */
function turnMoment(lock: Lock, by: 1 | -1): void {
  const { first, moments } = lock;
  if (first === null) return;
  const { instant } = useSides.getState();
  const at = first.locked.moments
    .filter(({ name }) => moments.includes(name))
    .map(({ frame }) => instantOf(first.locked, lock.moment, frame))
    .toSorted((a, b) => a - b);
  const next = by > 0 ? at.find((each) => each > instant + 1e-6) : at.findLast((each) => each < instant - 1e-6);
  if (next !== undefined) useSides.setState({ instant: next, playing: false });
}

/** The keys of the room. */
export function useSideKeys(view: SideBySideView, lock: Lock): void {
  const step = useStep(lock);
  const actions = useMemo<readonly Action[]>(
    () => [
      { name: 'Both one frame back', group: 'Side by side', keys: ['ArrowLeft'], quiet: true, run: () => step(-1) },
      { name: 'Both one frame on', group: 'Side by side', keys: ['ArrowRight'], quiet: true, run: () => step(1) },
      {
        name: 'Both ten frames back',
        group: 'Side by side',
        keys: ['Shift+ArrowLeft'],
        quiet: true,
        run: () => step(-10),
      },
      {
        name: 'Both ten frames on',
        group: 'Side by side',
        keys: ['Shift+ArrowRight'],
        quiet: true,
        run: () => step(10),
      },
      {
        name: 'Play both, or stop',
        group: 'Side by side',
        keys: ['Space', 'k'],
        run: () => useSides.setState(({ playing }) => ({ playing: !playing })),
      },
      {
        name: 'Loop both, or not',
        group: 'Side by side',
        keys: ["'"],
        run: () => useSides.setState(({ looping }) => ({ looping: !looping })),
      },
      { name: 'Both slower', group: 'Side by side', keys: ['['], run: () => turnSpeed(-1) },
      { name: 'Both faster', group: 'Side by side', keys: [']'], run: () => turnSpeed(1) },
      { name: 'Last moment both have', group: 'Side by side', keys: [','], run: () => turnMoment(lock, -1) },
      { name: 'Next moment both have', group: 'Side by side', keys: [';', '.'], run: () => turnMoment(lock, 1) },
      { name: 'Next pair of carries', group: 'Side by side', keys: ['ArrowDown'], run: () => turnPair(view, 1) },
      { name: 'Last pair of carries', group: 'Side by side', keys: ['ArrowUp'], run: () => turnPair(view, -1) },
      { name: 'Swap the runners', group: 'Side by side', keys: ['s'], run: swap },
      { name: 'Mirror the right picture', group: 'Side by side', keys: ['m'], run: () => turnMirror('second') },
      {
        name: 'Mirror the left picture',
        group: 'Side by side',
        keys: ['Shift+m', 'Shift+M'],
        run: () => turnMirror('first'),
      },
    ],
    [view, lock, step],
  );
  useActions(actions);
}
