import type { SideBySideView } from '../../contract/comparison-views.ts';
import { signedShare, signedYards } from '../../pages/in-figures.ts';
import { Reason } from '../../pages/reason.tsx';
import { Delta, Share } from '../../pages/share-and-delta.tsx';
import { inHundred } from './differences.tsx';

const behind = (answer: { readonly known: boolean; readonly value?: { readonly n: number } }): string =>
  answer.known && answer.value !== undefined ? `${answer.value.n} carries` : '';

/** Success and yards over expected of both, their difference and what chance allows. */
export function Results({ view, names }: { readonly view: SideBySideView; readonly names: readonly [string, string] }) {
  const { first, second, success, delta } = view;
  return (
    <section className="figure">
      <h2>Results</h2>
      <table className="figures side-results" aria-label="Results of both">
        <thead>
          <tr>
            <th scope="col">
              <span className="read-aloud">What</span>
            </th>
            <th scope="col">{names[0]}</th>
            <th scope="col">{names[1]}</th>
            <th scope="col">Difference</th>
          </tr>
        </thead>
        <tbody>
          <tr className={success.known && success.value.small ? 'small-sample' : undefined}>
            <th scope="row">Success</th>
            <td>
              <Share share={first.success} />
              <span className="side-n">{behind(first.success)}</span>
            </td>
            <td>
              <Share share={second.success} />
              <span className="side-n">{behind(second.success)}</span>
            </td>
            <td>
              {success.known ? (
                <>
                  {signedShare(success.value.difference)}
                  <span className="side-n">
                    {signedShare(success.value.low)} to {signedShare(success.value.high)}
                    {success.value.small ? ', few' : ''}
                  </span>
                </>
              ) : (
                <Reason detail={success.detail} />
              )}
            </td>
          </tr>
          <tr className={delta.known && delta.value.small ? 'small-sample' : undefined}>
            <th scope="row">Yards over expected</th>
            <td>
              <Delta delta={first.delta} />
              <span className="side-n">{behind(first.delta)}</span>
            </td>
            <td>
              <Delta delta={second.delta} />
              <span className="side-n">{behind(second.delta)}</span>
            </td>
            <td>
              {delta.known ? (
                <>
                  {signedYards(delta.value.difference)}
                  <span className="side-n">
                    {signedYards(delta.value.low)} to {signedYards(delta.value.high)}
                    {delta.value.small ? ', few' : ''}
                  </span>
                  <span className="side-n">
                    {inHundred(delta.value.chance)} in 100 that {names[0]}’s is truly higher
                  </span>
                </>
              ) : (
                <Reason detail={delta.detail} />
              )}
            </td>
          </tr>
        </tbody>
      </table>
      <p className="muted figure-note">
        95 % intervals: of the difference in success by Newcombe’s method, of the difference in yards by Welch’s. Yards
        over expected include the line.
      </p>
    </section>
  );
}
