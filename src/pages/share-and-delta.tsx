import type { DeltaView, ShareView } from '../contract/views.ts';
import { marginOf, shareInFigures, signedYards } from './in-figures.ts';
import { Reason } from './reason.tsx';

type Known<Value> =
  | { readonly known: true; readonly value: Value }
  | { readonly known: false; readonly because: string; readonly detail: string };

/** A success rate with its 95 % interval: ".525 (.402–.645)". */
export function Share({ share }: { readonly share: Known<ShareView> }) {
  if (!share.known) return <Reason detail={share.detail} />;
  const { rate, low, high } = share.value;
  return (
    <>
      {shareInFigures(rate)}{' '}
      <span className="interval-words">
        ({shareInFigures(low)}–{shareInFigures(high)})
      </span>
    </>
  );
}

/** A mean delta with half its 95 % interval: "+0.4 ± 2.0". */
export function Delta({ delta }: { readonly delta: Known<DeltaView> }) {
  if (!delta.known) return <Reason detail={delta.detail} />;
  return (
    <>
      {signedYards(delta.value.mean)}{' '}
      <span className="interval-words">± {marginOf(delta.value.standardError).toFixed(1)}</span>
    </>
  );
}

/** How many a figure rests on; few are called few. */
export function Behind({ n, small }: { readonly n: number; readonly small: boolean }) {
  return (
    <>
      {n}
      {small && <span className="few"> few</span>}
    </>
  );
}
