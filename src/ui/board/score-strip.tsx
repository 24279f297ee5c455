import { memo } from 'react';
import { gradeInFigures } from '../../pages/in-figures.ts';
import { percentScale } from '../../pages/percent.ts';
import { barInWords, type Bar } from '../../pages/bar-in-words.ts';

const along = percentScale(1, 5, 4, 96);
const steps = [1, 2, 3, 4, 5] as const;

/** The lines of the axis and the bars: the same for every weight, so a moving slider leaves them alone. */
const Lines = memo(function Lines({ bars }: { readonly bars: readonly Bar[] }) {
  return (
    <>
      {steps.map((step) => (
        <line key={step} className="step-line" x1={along(step)} x2={along(step)} y1="-1" y2="102%" />
      ))}
      {bars.map((bar, at) => (
        <line
          key={bar.key}
          className={`bar-line bar-${at + 1}`}
          x1={along(bar.value)}
          x2={along(bar.value)}
          y1="-1"
          y2="102%"
        />
      ))}
    </>
  );
});

/** A weighted score with its 95 % interval on the 1-5 line, the standards' bars behind it. */
export function ScoreStrip({
  score,
  low,
  high,
  thin,
  settled,
  bars,
}: {
  readonly score: number;
  readonly low: number | null;
  readonly high: number | null;
  readonly thin: boolean;
  readonly settled: boolean;
  readonly bars: readonly Bar[];
}) {
  const interval =
    low === null || high === null ? '' : `, 95 % interval ${gradeInFigures(low)} to ${gradeInFigures(high)}`;
  return (
    <svg
      className="plot-strip"
      width="100%"
      height="100%"
      role="img"
      aria-label={`${gradeInFigures(score)}${interval}${thin ? ', thin' : ''}`}
    >
      <Lines bars={bars} />
      {low === null || high === null ? null : (
        <line
          className={settled ? 'interval' : 'interval interval-before'}
          x1={along(low)}
          x2={along(high)}
          y1="50%"
          y2="50%"
        />
      )}
      <circle className={thin ? 'dot dot-thin' : 'dot'} cx={along(score)} cy="50%" r="0.22rem" />
    </svg>
  );
}

/** The axis over the strips, 1 to 5. */
export function ScoreAxis() {
  return (
    <svg className="plot-strip" width="100%" height="100%" aria-hidden="true">
      {steps.map((step) => (
        <text key={step} className="axis-figure" x={along(step)} y="80%" textAnchor="middle">
          {step}
        </text>
      ))}
    </svg>
  );
}

/** The bars in words, with the stroke each is drawn in. */
export function BarKey({ bars }: { readonly bars: readonly Bar[] }) {
  return (
    <ul className="bar-key">
      {bars.map((bar, at) => (
        <li key={bar.key}>
          <svg width="10" height="14" aria-hidden="true">
            <line className={`bar-line bar-${at + 1}`} x1="5" x2="5" y1="0" y2="14" />
          </svg>
          {barInWords(bar)}
        </li>
      ))}
    </ul>
  );
}
