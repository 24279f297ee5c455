import type { DossierView } from '../contract/views.ts';
import { CarryLink, type OnCarry } from './carry-link.tsx';

type Sentence = DossierView['verdict'][number];
type Numbers = {
  readonly numbers: readonly number[];
  readonly listed: ReadonlySet<number>;
  readonly onCarry?: OnCarry | undefined;
};

function CarryNumbers({ numbers, listed, onCarry }: Numbers) {
  return numbers.map((number, at) => (
    <span key={number}>
      {at > 0 && ', '}
      <CarryLink number={number} listed={listed} onCarry={onCarry} />
    </span>
  ));
}

function Cites({
  sentence: { cites, against },
  listed,
  onCarry,
}: { readonly sentence: Sentence } & Omit<Numbers, 'numbers'>) {
  if (cites.length === 0 && against.length === 0) return <sup className="cites uncited">no carry cited</sup>;
  return (
    <sup className={cites.length + against.length > 8 ? 'cites' : 'cites cites-short'}>
      <span className="read-aloud">carries </span>
      <CarryNumbers numbers={cites} listed={listed} onCarry={onCarry} />
      {against.length > 0 && (
        <span className="against">
          {cites.length > 0 && ' · '}against: <CarryNumbers numbers={against} listed={listed} onCarry={onCarry} />
        </span>
      )}
    </sup>
  );
}

/** The evaluator's sentences, each with the carries that speak for it and those that speak against it. */
export function Verdict(props: {
  readonly verdict: readonly Sentence[];
  readonly listed: ReadonlySet<number>;
  readonly onCarry?: OnCarry | undefined;
}) {
  const { verdict, listed, onCarry } = props;
  if (verdict.length === 0)
    return (
      <p className="verdict verdict-empty">
        No verdict is written yet: what follows is what the marks and results say alone.
      </p>
    );
  const long = verdict.reduce((letters, { text }) => letters + text.length, 0) > 700;
  return (
    <p className={long ? 'verdict verdict-long' : 'verdict'}>
      {verdict.map((sentence, at) => (
        <span key={`${at} ${sentence.text}`} className="sentence">
          {sentence.text} <Cites sentence={sentence} listed={listed} onCarry={onCarry} />{' '}
        </span>
      ))}
    </p>
  );
}
