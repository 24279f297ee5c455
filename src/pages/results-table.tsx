import type { SheetView } from '../contract/views.ts';
import { barInSentence } from './bar-in-words.ts';
import { countOf, gradeInFigures, shareInFigures, signedShare, signedYards } from './in-figures.ts';
import { Reason } from './reason.tsx';
import { Delta, Share } from './share-and-delta.tsx';
import type { ReactNode } from 'react';

function Result(props: {
  readonly name: string;
  readonly n?: number | undefined;
  readonly under?: boolean;
  readonly children: ReactNode;
}) {
  const { name, n, under = false, children } = props;
  return under ? (
    <tr className="under-row">
      <th scope="row" colSpan={2}>
        {name}
      </th>
      <td>{children}</td>
    </tr>
  ) : (
    <tr>
      <th scope="row" colSpan={n === undefined ? 2 : 1}>
        {name}
      </th>
      {n !== undefined && (
        <td className="behind">
          {n}
          <span className="read-aloud"> {n === 1 ? 'carry' : 'carries'}</span>
        </td>
      )}
      <td>{children}</td>
    </tr>
  );
}

/**
 * The results of the carries that count, the carries behind each beside it: success rate with interval, delta with its
 * margin and shrunk, success over expected, the overall grade and its chance of clearing each bar.
 */
export function ResultsTable({ sheet }: { readonly sheet: SheetView }) {
  const { success, delta, successOverExpected: over, overall, rubric } = sheet;
  return (
    <table className="figures results" aria-label="Results, with 95 % intervals and the carries behind each">
      <tbody>
        <Result name="Success rate" n={success.known ? success.value.n : undefined}>
          <Share share={success} />
        </Result>
        <Result name="Expected-yards delta a carry" n={delta.known ? delta.value.n : undefined}>
          <Delta delta={delta} />
        </Result>
        {delta.known && (
          <Result under name={`shrunk for ${countOf(delta.value.n, 'carry', 'carries')}`}>
            {signedYards(delta.value.shrunk)}
          </Result>
        )}
        <Result name="Success over expected" n={over.known ? over.value.n : undefined}>
          {over.known ? signedShare(over.value.mean) : <Reason detail={over.detail} />}
        </Result>
        {over.known && (
          <Result under name={`shrunk for ${countOf(over.value.n, 'carry', 'carries')}`}>
            {signedShare(over.value.shrunk)}
          </Result>
        )}
        <Result
          name={overall.known && overall.value.thin ? 'Overall grade, thin' : 'Overall grade'}
          n={overall.known ? overall.value.carries : undefined}
        >
          {overall.known ? (
            <>
              {gradeInFigures(overall.value.grade)}{' '}
              <span className="interval-words">
                ({gradeInFigures(overall.value.low)}–{gradeInFigures(overall.value.high)})
              </span>
            </>
          ) : (
            <Reason detail={overall.detail} />
          )}
        </Result>
        {overall.known &&
          rubric.body.bars.map((bar) => {
            const chance = overall.value.chance[bar.key];
            return (
              <Result key={bar.key} under name={`chance for ${barInSentence(bar)}`}>
                {chance === undefined ? <Reason detail="not worked out" /> : shareInFigures(chance, 2)}
              </Result>
            );
          })}
      </tbody>
    </table>
  );
}
