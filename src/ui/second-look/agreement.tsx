import { useState } from 'react';
import type { AgreementView, LookComparison } from '../../contract/second-look-views.ts';
import { Differences } from './differences.tsx';
import { Figure } from './figure.tsx';

const share: readonly [number, number] = [-0.2, 1];
const points: readonly [number, number] = [-1, 1];

/** The first sentence: how far this evaluator’s two looks agree, or why that can't be told. */
function headline(view: AgreementView): string {
  const own = view.comparisons.find(({ kind }) => kind === 'own');
  if (own === undefined) return 'No evaluator yet.';
  const name = own.first.replace(/, first look$/, '');
  if (!own.kappa.known)
    return `How far ${name}’s second marks agree with the first can’t be told yet. ${own.kappa.detail}`;
  const near = Math.round((100 * own.near) / own.pairs);
  return `${name} gave ${near} of 100 second marks within a half of the first.`;
}

/** How far looks and evaluators agree, who drifts and who is strict. */
export function Agreement({ view, ownFirst }: { readonly view: AgreementView; readonly ownFirst: string }) {
  const [chosen, setChosen] = useState(0);
  const ordered = view.comparisons.toSorted(
    (a, b) => Number(b.first.startsWith(`${ownFirst}, `)) - Number(a.first.startsWith(`${ownFirst}, `)),
  );
  const shown = ordered[chosen] ?? ordered[0];
  return (
    <div className="agreement">
      <p className="look-headline">{headline({ ...view, comparisons: ordered })}</p>
      <p className="muted">
        Kappa weighs a difference by its square; alpha is Krippendorff’s, for intervals. 1 is full agreement, 0 what
        chance alone gives. Traits of one carry count as independent, which makes the intervals a little too narrow.
        {view.leftOut === 0
          ? ''
          : ` ${view.leftOut} carries of looks still open are left out, so that their earlier marks stay hidden.`}
      </p>
      <section className="figure">
        <h2>Agreement, with 95 % intervals</h2>
        <div className="look-scroll" role="region" aria-label="Agreement in figures">
          <table className="look-table">
            <thead>
              <tr>
                <th scope="col">Compared</th>
                <th scope="col">Quadratic kappa</th>
                <th scope="col">Alpha</th>
                <th scope="col">Same mark</th>
                <th scope="col">Within a half</th>
              </tr>
            </thead>
            <tbody>
              {ordered.map((each, at) => (
                <tr key={`${each.first} ${each.second}`} aria-current={each === shown ? 'true' : undefined}>
                  <th scope="row">
                    <button type="button" aria-pressed={each === shown} onClick={() => setChosen(at)}>
                      {nameOf(each)}
                    </button>
                  </th>
                  <td>
                    <Figure name="Kappa" answer={each.kappa} scale={share} counted="pairs" />
                  </td>
                  <td>
                    <Figure name="Alpha" answer={each.alpha} scale={share} counted="pairs" />
                  </td>
                  <td className="number">{each.pairs === 0 ? '' : `${each.same} of ${each.pairs}`}</td>
                  <td className="number">{each.pairs === 0 ? '' : `${each.near} of ${each.pairs}`}</td>
                </tr>
              ))}
              <tr>
                <th scope="row">All evaluators</th>
                <td />
                <td>
                  <Figure name="Alpha of all" answer={view.everybody} scale={share} counted="traits" />
                </td>
                <td />
                <td />
              </tr>
            </tbody>
          </table>
        </div>
      </section>
      {shown?.kind === 'own' ? (
        <section className="figure">
          <h2>Drift of {shown.first.replace(/, first look$/, '')}, points</h2>
          <dl className="look-list-of">
            <dt>Second less first mark</dt>
            <dd>
              <Figure name="Shift" answer={shown.shift} scale={points} counted="pairs" signed />
            </dd>
            <dt>Change a week between the looks</dt>
            <dd>
              <Figure name="Drift a week" answer={shown.perWeek} scale={points} counted="pairs" signed />
            </dd>
          </dl>
        </section>
      ) : null}
      <section className="figure">
        <h2>Who is strict</h2>
        <table className="look-table">
          <thead>
            <tr>
              <th scope="col">Evaluator</th>
              <th scope="col">Points above the others</th>
              <th scope="col">Share of half marks</th>
            </tr>
          </thead>
          <tbody>
            {view.evaluators.map((each) => (
              <tr key={each.id}>
                <th scope="row">{each.name}</th>
                <td>
                  <Figure name="Leniency" answer={each.leniency} scale={points} counted="shared marks" signed />
                </td>
                <td>
                  <Figure name="Half marks" answer={each.halves} scale={[0, 1]} counted="marks" />
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </section>
      {shown === undefined ? null : <Differences comparison={shown} />}
    </div>
  );
}

const nameOf = ({ kind, first, second }: LookComparison): string =>
  kind === 'own' ? `${first.replace(/, first look$/, '')}, first and second look` : `${first} and ${second}`;
