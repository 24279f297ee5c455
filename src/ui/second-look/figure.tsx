import type { AgreementFigure } from '../../contract/second-look-views.ts';

type Known = { known: true; value: AgreementFigure } | { known: false; because: string; detail: string };

export const signedTo = (value: number, digits: number): string => {
  const rounded = Math.abs(value).toFixed(digits);
  return Number(rounded) === 0 ? rounded : `${value > 0 ? '+' : '−'}${rounded}`;
};
const plainTo = (value: number, digits: number): string => signedTo(value, digits).replace(/^\+/, '');

/** A figure with its 95 % interval and n, drawn on a line and in words; or the reason why there is none. */
export function Figure({
  name,
  answer,
  scale,
  counted,
  signed = false,
}: {
  readonly name: string;
  readonly answer: Known;
  /** Ends of the line. */
  readonly scale: readonly [number, number];
  /** What n counts: "pairs". */
  readonly counted: string;
  readonly signed?: boolean;
}) {
  if (!answer.known) return <span className="muted figure-none">{answer.detail}</span>;
  const { value, low, high, n } = answer.value;
  const say = (each: number): string => (signed ? signedTo(each, 2) : plainTo(each, 2));
  const x = (each: number): number =>
    (100 * (Math.min(scale[1], Math.max(scale[0], each)) - scale[0])) / (scale[1] - scale[0]);
  const words = `${say(value)}, 95 % interval ${say(low)} to ${say(high)}, ${n} ${counted}`;
  return (
    <span className="look-figure">
      <svg viewBox="0 0 100 12" preserveAspectRatio="none" role="img" aria-label={`${name}: ${words}`}>
        <line className="figure-ground" x1={0} x2={100} y1={6} y2={6} />
        <line className="figure-zero" x1={x(0)} x2={x(0)} y1={1} y2={11} />
        <line className="figure-reach" x1={x(low)} x2={x(high)} y1={6} y2={6} />
        <line className="figure-point" x1={x(value)} x2={x(value)} y1={1} y2={11} />
      </svg>
      <b>{say(value)}</b>
      <span>
        {say(low)} to {say(high)}
      </span>
      <span className="muted">
        {n} {counted}
      </span>
    </span>
  );
}
