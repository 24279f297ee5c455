import type { SheetView } from '../contract/views.ts';
import { countOf, gradeInFigures, shareInFigures, signedYards } from './in-figures.ts';
import { Reason } from './reason.tsx';
import { Delta, Share } from './share-and-delta.tsx';

/** The results of the carries that count: success, delta and shrunk delta, success over expected, overall grade and its chance of clearing each bar. */
export function ResultsTable({ sheet }: { readonly sheet: SheetView }) {
  const { success, delta, successOverExpected, overall, rubric } = sheet;
  const carries = (n: number) => countOf(n, 'carry', 'carries');
  return (
    <table className="figures results">
      <tbody>
        <tr>
          <th scope="row">Success rate{success.known && `, ${carries(success.value.n)}`}</th>
          <td>
            <Share share={success} />
          </td>
        </tr>
        <tr>
          <th scope="row">Expected-yards delta a carry{delta.known && `, ${carries(delta.value.n)}`}</th>
          <td>
            <Delta delta={delta} />
          </td>
        </tr>
        {delta.known && (
          <tr className="under-row">
            <th scope="row">shrunk for {carries(delta.value.n)}</th>
            <td>{signedYards(delta.value.shrunk)}</td>
          </tr>
        )}
        <tr>
          <th scope="row">
            Success over expected{successOverExpected.known && `, ${carries(successOverExpected.value.n)}`}
          </th>
          <td>
            {successOverExpected.known ? (
              signedShare(successOverExpected.value.mean)
            ) : (
              <Reason detail={successOverExpected.detail} />
            )}
          </td>
        </tr>
        {successOverExpected.known && (
          <tr className="under-row">
            <th scope="row">shrunk for {carries(successOverExpected.value.n)}</th>
            <td>{signedShare(successOverExpected.value.shrunk)}</td>
          </tr>
        )}
        <tr>
          <th scope="row">
            Overall grade{overall.known && `, ${carries(overall.value.carries)}${overall.value.thin ? ', thin' : ''}`}
          </th>
          <td>
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
          </td>
        </tr>
        {overall.known &&
          rubric.body.bars.map((bar) => {
            const chance = overall.value.chance[bar.key];
            return (
              <tr key={bar.key} className="under-row">
                <th scope="row">
                  chance of clearing {gradeInFigures(bar.value)}, {bar.name}
                </th>
                <td>{chance === undefined ? <Reason detail="not worked out" /> : shareInFigures(chance, 2)}</td>
              </tr>
            );
          })}
      </tbody>
    </table>
  );
}

function signedShare(share: number): string {
  const written = shareInFigures(share);
  return share > 0 && Number(written) !== 0 ? `+${written}` : written;
}
