import type { SideBySideView, SideCarry } from '../../contract/comparison-views.ts';
import { Reason } from '../../pages/reason.tsx';
import { showCarries, useSides } from './side-store.ts';

const gainInWords = ({ gain }: SideCarry): string =>
  gain === null ? 'gain not charted' : gain < 0 ? `loss of ${-gain}` : gain === 0 ? 'no gain' : `gain of ${gain}`;

/** A carry in a few words: number, situation, gain, and whether it is on film. */
export const carryInWords = (carry: SideCarry): string =>
  `${carry.number}: ${carry.situation}, ${gainInWords(carry)}${carry.spanId === null ? ' (not on film)' : ''}`;

/** Which pair is on screen, from 0; -1 when the two carries shown are no pair. */
export function pairNow(view: SideBySideView, carry: Readonly<Record<'first' | 'second', string | null>>): number {
  if (!view.pairs.known) return -1;
  return view.pairs.value.pairs.findIndex(({ first, second }) => first === carry.first && second === carry.second);
}

/** Carries in like situations, closest first, each pair to be watched one beside the other. */
export function Pairs({ view, names }: { readonly view: SideBySideView; readonly names: readonly [string, string] }) {
  const carry = useSides((sides) => sides.carry);
  const { pairs } = view;
  if (!pairs.known) {
    return (
      <section className="figure">
        <h2>Carries in like situations</h2>
        <p>
          <Reason detail={pairs.detail} />
        </p>
      </section>
    );
  }
  const byId = new Map([...view.first.carries, ...view.second.carries].map((each) => [each.partId, each]));
  const now = pairNow(view, carry);
  const { firstUnpaired, secondUnpaired } = pairs.value;
  return (
    <section className="figure side-pairs">
      <h2>{pairs.value.pairs.length} pairs of carries in like situations</h2>
      <p className="muted figure-note">
        Closest first, by down, yards to go, spot, gap, box and direction. No near match for {firstUnpaired} of{' '}
        {names[0]}’s and {secondUnpaired} of {names[1]}’s.
      </p>
      <ol className="side-pair-list">
        {pairs.value.pairs.map(({ first, second, same, differ }, at) => {
          const [one, other] = [byId.get(first), byId.get(second)];
          if (one === undefined || other === undefined) return null;
          return (
            <li key={first}>
              <button
                type="button"
                aria-current={at === now ? 'true' : undefined}
                onClick={() => showCarries(first, second)}
              >
                <span className="number">{at + 1}</span>
                <span>{carryInWords(one)}</span>
                <span>{carryInWords(other)}</span>
                <span className="muted side-pair-why">
                  {same.length === 0 ? '' : `Same: ${same.join(', ')}. `}
                  {differ.length === 0 ? '' : `Differ: ${differ.join('; ')}.`}
                </span>
              </button>
            </li>
          );
        })}
      </ol>
    </section>
  );
}
