import { mostDifferences, type LookComparison, type LookDifference } from '../../contract/second-look-views.ts';
import { go } from '../link/place.ts';
import { signedTo } from './figure.tsx';

const mark = (value: number): string => `${Math.floor(value)}${value % 1 === 0 ? '' : '½'}`;

function openOnStage({ gameId, playId, spanId, frame }: LookDifference): void {
  go({ room: 'stage', gameId, playId, showing: { spanId, frame } });
}

/** The pairs that differ, the widest apart first; each opens its film on the Stage. */
export function Differences({ comparison }: { readonly comparison: LookComparison }) {
  const { differences, pairs, same, first, second } = comparison;
  if (differences.length === 0) {
    return (
      <p className="muted">
        {pairs === 0 ? 'There is no pair of marks to differ.' : `All ${pairs} pairs are the same.`}
      </p>
    );
  }
  return (
    <section className="figure">
      <h2>Where they differ</h2>
      <p className="muted figure-note">
        {pairs - same} of {pairs} pairs on {comparison.carries} carries
        {pairs - same > mostDifferences ? `; the ${mostDifferences} widest apart are listed` : ''}. A row opens its
        film.
      </p>
      <div className="look-scroll look-differences" role="region" aria-label="Differences">
        <table className="look-table">
          <thead>
            <tr>
              <th scope="col">Carry</th>
              <th scope="col">Trait</th>
              <th scope="col">{first}</th>
              <th scope="col">{second}</th>
              <th scope="col">Apart</th>
              <th scope="col">Days</th>
            </tr>
          </thead>
          <tbody>
            {differences.map((each, at) => (
              <tr key={`${each.partId} ${each.trait} ${at}`}>
                <th scope="row">
                  <button type="button" onClick={() => openOnStage(each)}>
                    {each.runner}, {each.situation}, {each.game}
                  </button>
                </th>
                <td>{each.trait}</td>
                <td className="number">{mark(each.first)}</td>
                <td className="number">{mark(each.second)}</td>
                <td className="number">{signedTo(each.second - each.first, 1)}</td>
                <td className="number">{Math.round(each.days)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </section>
  );
}
