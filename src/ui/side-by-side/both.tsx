import { useEffect } from 'react';
import type { SideBySideView } from '../../contract/comparison-views.ts';
import { Button } from '../kit/button.tsx';
import { Differences } from './differences.tsx';
import { Films } from './films.tsx';
import { pairNow, Pairs } from './pairs.tsx';
import { Results } from './results.tsx';
import { turnPair, useSideKeys } from './side-keys.ts';
import { showCarries, useSides } from './side-store.ts';
import { useLock, usePlaying, type Lock } from './use-lock.ts';

/** The last word of a name, where that is a word. */
const lastName = (name: string): string => {
  const last = name.split(' ').at(-1) ?? name;
  return /^\p{L}[\p{L}’'-]+$/u.test(last) ? last : name;
};

/** Everything of two runners that are set beside each other. */
export function Both({ view }: { readonly view: SideBySideView }) {
  const { first, second } = view;
  const [a, b] = [lastName(first.runner.name), lastName(second.runner.name)];
  const names = a === b ? ([first.runner.name, second.runner.name] as const) : ([a, b] as const);
  const carry = useSides((sides) => sides.carry);
  // Carries of other runners, or removed ones, give way to the closest pair on film, else to the first carry of each.
  useEffect(() => {
    const stands = (side: SideBySideView['first'], id: string | null) =>
      side.carries.some(({ partId }) => partId === id);
    if (stands(first, carry.first) && stands(second, carry.second)) return;
    const [one, other] = startingCarries(view);
    showCarries(one, other);
  }, [view, first, second, carry]);
  const lock = useLock();
  usePlaying(lock.reach);
  useSideKeys(view, lock);
  return (
    <>
      <Films view={view} lock={lock} />
      <PairLine view={view} lock={lock} />
      <div className="side-columns">
        <Differences view={view} names={names} />
        <div className="side-column">
          {view.cautions.length === 0 ? null : (
            <section className="figure">
              <h2>What is thin here</h2>
              <ul className="side-cautions">
                {view.cautions.map((words) => (
                  <li key={words}>{words}</li>
                ))}
              </ul>
            </section>
          )}
          <Results view={view} names={names} />
        </div>
        <Pairs view={view} names={names} />
      </div>
    </>
  );
}

function startingCarries({ first, second, pairs }: SideBySideView): readonly [string | null, string | null] {
  const filmed = new Set(
    [...first.carries, ...second.carries].flatMap(({ partId, spanId }) => (spanId === null ? [] : [partId])),
  );
  if (pairs.known) {
    const all = pairs.value.pairs;
    const pair = all.find((each) => filmed.has(each.first) && filmed.has(each.second));
    if (pair !== undefined) return [pair.first, pair.second];
  }
  const onFilm = (side: SideBySideView['first']) => side.carries.find(({ spanId }) => spanId !== null)?.partId ?? null;
  const [one, other] = [onFilm(first), onFilm(second)];
  const closest = pairs.known ? pairs.value.pairs[0] : undefined;
  if ((one === null || other === null) && closest !== undefined) return [closest.first, closest.second];
  return [one ?? first.carries[0]?.partId ?? null, other ?? second.carries[0]?.partId ?? null];
}

function PairLine({ view, lock }: { readonly view: SideBySideView; readonly lock: Lock }) {
  const carry = useSides((sides) => sides.carry);
  if (!view.pairs.known) return null;
  const at = pairNow(view, carry);
  const pair = view.pairs.value.pairs[at];
  const unlocked = lock.first !== null && lock.second !== null && lock.moment === null;
  return (
    <div className="side-pair-line">
      <Button kind="quiet" onClick={() => turnPair(view, -1)}>
        Last pair
      </Button>
      <Button kind="quiet" onClick={() => turnPair(view, 1)}>
        Next pair
      </Button>
      <p aria-live="polite">
        {pair === undefined ? (
          'These two carries are no pair in like situations.'
        ) : (
          <>
            <strong>
              Pair {at + 1} of {view.pairs.value.pairs.length}.
            </strong>{' '}
            {pair.same.length === 0 ? '' : `Same: ${pair.same.join(', ')}. `}
            {pair.differ.length === 0 ? 'Nothing charted differs.' : `Differ: ${pair.differ.join('; ')}.`}
          </>
        )}
        {unlocked ? ' They share no tagged moment: each begins where its span begins. Tag the exchange on both.' : ''}
      </p>
    </div>
  );
}
