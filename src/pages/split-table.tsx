import type { SplitView } from '../contract/views.ts';
import { Behind, Delta, Share } from './share-and-delta.tsx';

const isSmall = ({ success, delta }: SplitView['rows'][number]): boolean =>
  (success.known && success.value.small) || (delta.known && delta.value.small);

/** Results cut by one field: success rate with interval, delta with its margin and the carries behind each row; few are greyed and called few. */
export function SplitTable({ split }: { readonly split: SplitView }) {
  return (
    <table className="figures split">
      <caption>{split.field}</caption>
      <thead>
        <tr>
          <th scope="col">
            <span className="read-aloud">{split.field}</span>
          </th>
          <th scope="col">Carries</th>
          <th scope="col">Success</th>
          <th scope="col">Delta</th>
        </tr>
      </thead>
      <tbody>
        {split.rows.map((row) => (
          <tr key={row.label} className={isSmall(row) ? 'small-sample' : undefined}>
            <th scope="row">{row.label}</th>
            <td>
              <Behind n={row.n} small={isSmall(row)} />
            </td>
            <td>
              <Share share={row.success} />
            </td>
            <td>
              <Delta delta={row.delta} />
            </td>
          </tr>
        ))}
        {split.rows.length === 0 && (
          <tr>
            <td colSpan={4} className="words reason">
              No carry is charted for this.
            </td>
          </tr>
        )}
      </tbody>
    </table>
  );
}
