import type { DossierView } from '../contract/views.ts';
import type { OnCarry } from './carry-link.tsx';
import { deltasOf } from './delta-bins.ts';
import { DeltaHistogram } from './delta-histogram.tsx';
import { DossierHead } from './dossier-head.tsx';
import { GradePlot } from './grade-plot.tsx';
import { countOf } from './in-figures.ts';
import { ResultsTable } from './results-table.tsx';
import { Verdict } from './verdict.tsx';
import type { ReactNode } from 'react';

function Written({ words }: { readonly words: string | null }) {
  return words === null || words.trim() === '' ? <span className="reason">Not written yet.</span> : words;
}

export type FrontPageProps = {
  readonly view: DossierView;
  readonly listed: ReadonlySet<number>;
  readonly onCarry?: OnCarry | undefined;
  /** The first row of evidence cards; none when no carry is chosen. */
  readonly cards: readonly ReactNode[];
};

/** Page one, which stands alone: who, the verdict with its carries, role and fit, grades against the bars, results, what would change it, first evidence. */
export function FrontPage({ view, listed, onCarry, cards }: FrontPageProps) {
  const { sheet } = view;
  return (
    <section className="front-page">
      <DossierHead view={view} />
      <Verdict verdict={view.verdict} listed={listed} onCarry={onCarry} />
      <dl className="role-and-fit">
        <div>
          <dt>Role</dt>
          <dd>
            <Written words={view.role} />
          </dd>
        </div>
        <div>
          <dt>Fit</dt>
          <dd>
            <Written words={view.fit} />
          </dd>
        </div>
      </dl>
      <div className="front">
        <section className="grades">
          <h2>Grades, with 95 % intervals and what is behind each</h2>
          <GradePlot
            name={`Grades of ${sheet.runner.name}`}
            overall={sheet.overall}
            families={sheet.families}
            bars={sheet.rubric.body.bars}
          />
        </section>
        <div className="beside">
          <section>
            <h2>Results, and the carries behind each</h2>
            <ResultsTable sheet={sheet} />
          </section>
          <section>
            <h2>Gain against expected, {countOf(deltasOf(sheet.carries).length, 'carry', 'carries')}</h2>
            <DeltaHistogram carries={sheet.carries} />
          </section>
          <section className="prose">
            <h2>What would change this</h2>
            <p>
              <Written words={view.change} />
            </p>
          </section>
        </div>
      </div>
      <section className="evidence-row">
        <h2>Evidence</h2>
        {cards.length === 0 ? (
          <p className="reason">No carry is chosen as evidence yet.</p>
        ) : (
          <div className="cards">{cards}</div>
        )}
      </section>
    </section>
  );
}
