import type { CarryView } from '../contract/views.ts';
import { deltaBins, deltasOf, type DeltaBin } from './delta-bins.ts';
import { countOf, signedYards } from './in-figures.ts';
import { percent, percentScale } from './percent.ts';
import { Reason } from './reason.tsx';

const yardsWords = (yards: number): string => signedYards(yards).replace('.0', '');

const binWords = ({ from, to, open }: DeltaBin): string => {
  if (open === 'below') return `under ${yardsWords(to)}`;
  if (open === 'above') return `${yardsWords(from)} and more`;
  return `${yardsWords(from)} to ${yardsWords(to)}`;
};

/** What carries gained against expected yards, a bar a yard; carries over expected are darker. */
export function DeltaHistogram({ carries }: { readonly carries: readonly CarryView[] }) {
  const deltas = deltasOf(carries);
  const bins = deltaBins(deltas);
  const first = bins[0];
  const last = bins.at(-1);
  if (first === undefined || last === undefined) {
    return <Reason detail="No counted carry has an expected gain yet: down, to go, spot and gain are needed." />;
  }
  const most = Math.max(...bins.map(({ count }) => count));
  const over = deltas.filter((delta) => delta > 0).length;
  const along = percentScale(first.from, last.to);
  const wide = 100 / bins.length;
  const says = `Gain against expected yards: ${over} of ${countOf(deltas.length, 'carry', 'carries')} over expected, from ${signedYards(Math.min(...deltas))} to ${signedYards(Math.max(...deltas))} yards`;
  return (
    <svg className="chart histogram" width="100%" role="img" aria-label={says}>
      {bins.map((one, at) => {
        const tall = (72 * one.count) / most;
        return (
          <rect
            key={one.from}
            className={one.from < 0 ? 'under' : 'over'}
            x={percent(wide * (at + 0.11))}
            width={percent(wide * 0.78)}
            y={percent(84 - tall)}
            height={percent(tall)}
          />
        );
      })}
      <line className="axis-line" x1="0" x2="100%" y1="84%" y2="84%" />
      <line className="zero-line" x1={along(0)} x2={along(0)} y1="2%" y2="87%" />
      <text className="chart-word" x={along(0)} y="9%" dx="0.3rem">
        expected
      </text>
      <text className="axis-figure" x="0" y="99%">
        {first.open === 'below' ? `under ${yardsWords(first.to)}` : yardsWords(first.from)}
      </text>
      <text className="axis-figure" x={along(0)} y="99%" textAnchor="middle">
        0
      </text>
      <text className="axis-figure" x="100%" y="99%" textAnchor="end">
        {last.open === 'above' ? `${yardsWords(last.from)} and more` : yardsWords(last.to)} yards
      </text>
    </svg>
  );
}

/** The histogram's numbers: carries in each yard of gain against expected. */
export function DeltaTable({ carries }: { readonly carries: readonly CarryView[] }) {
  return (
    <table className="figures">
      <caption>Gain against expected, in yards</caption>
      <thead>
        <tr>
          <th scope="col">Gain less expected</th>
          <th scope="col">Carries</th>
        </tr>
      </thead>
      <tbody>
        {deltaBins(deltasOf(carries)).map((one) => (
          <tr key={one.from}>
            <th scope="row">{binWords(one)}</th>
            <td>{one.count}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
