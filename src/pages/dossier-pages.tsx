import type { DossierView } from '../contract/views.ts';
import type { OnCarry } from './carry-link.tsx';
import { cautionLine } from './cautions.ts';
import { CitedCarries, citedCarries } from './cited-carries.tsx';
import { DeltaHistogram } from './delta-histogram.tsx';
import { deltasOf } from './delta-bins.ts';
import { DossierHead } from './dossier-head.tsx';
import { EvidenceCard, type StillSource } from './evidence-card.tsx';
import { GamesTable } from './games-table.tsx';
import { GradePlot } from './grade-plot.tsx';
import { GradeTable } from './grade-table.tsx';
import { countOf } from './in-figures.ts';
import { MethodAndCautions } from './method-and-cautions.tsx';
import { ResultsTable } from './results-table.tsx';
import { RunningDelta } from './running-delta.tsx';
import { SplitTable } from './split-table.tsx';
import { Verdict } from './verdict.tsx';

export type Paper = 'A4' | 'Letter';

export type DossierPagesProps = {
  readonly view: DossierView;
  readonly paper: Paper;
  readonly still: StillSource;
  /** On screen: what a carry's number does. Left out on paper, where it is a link within the file. */
  readonly onCarry?: OnCarry;
};

// As many cards as stand in one row: page one shows the first row, the rest follow overleaf.
const firstCards = 3;

/**
 * The dossier's pages, the same on screen, in the HTML file and in the print: page one stands alone, then evidence and
 * the carries it names, then all figures, splits, method and cautions.
 */
export function DossierPages({ view, paper, still, onCarry }: DossierPagesProps) {
  const { sheet, verdict, evidence } = view;
  const { bars } = sheet.rubric.body;
  const cited = citedCarries(view);
  const listed: ReadonlySet<number> = new Set(cited.map(({ number }) => number));
  const cards = evidence.map((one) => (
    <EvidenceCard key={`${one.partId} ${one.frame}`} evidence={one} still={still} listed={listed} onCarry={onCarry} />
  ));
  const aside = [
    ['Role', view.role],
    ['Fit', view.fit],
  ] as const;
  const deltas = deltasOf(sheet.carries).length;
  return (
    <article className={`dossier paper-${paper.toLowerCase()}`} lang="en">
      <section className="page page-one">
        <DossierHead view={view} />
        <Verdict verdict={verdict} listed={listed} onCarry={onCarry} />
        <dl className="role-and-fit">
          {aside.map(([name, words]) => (
            <div key={name}>
              <dt>{name}</dt>
              <dd>{words === null || words === '' ? <span className="reason">not written yet</span> : words}</dd>
            </div>
          ))}
        </dl>
        <div className="front">
          <section className="grades">
            <h2>Grades, with 95 % intervals and what is behind each</h2>
            <GradePlot
              name={`Grades of ${sheet.runner.name}`}
              overall={sheet.overall}
              families={sheet.families}
              bars={bars}
            />
          </section>
          <div className="beside">
            <section>
              <h2>Results</h2>
              <ResultsTable sheet={sheet} />
            </section>
            <section>
              <h2>Gain against expected, {countOf(deltas, 'carry', 'carries')}</h2>
              <DeltaHistogram carries={sheet.carries} />
            </section>
            <section className="prose">
              <h2>What would change this</h2>
              <p>
                {view.change === null || view.change === '' ? (
                  <span className="reason">Not written yet.</span>
                ) : (
                  view.change
                )}
              </p>
            </section>
          </div>
        </div>
        <section className="evidence-row">
          <h2>Evidence</h2>
          {cards.length === 0 ? (
            <p className="reason">No carry is chosen as evidence yet.</p>
          ) : (
            <div className="cards">{cards.slice(0, firstCards)}</div>
          )}
        </section>
        <ScreenFoot />
      </section>
      <section className="page">
        {cards.length > firstCards && (
          <section className="evidence-row">
            <h2>Evidence, continued</h2>
            <div className="cards">{cards.slice(firstCards)}</div>
          </section>
        )}
        {cited.length > 0 && (
          <section className="cited-carries">
            <h2 className="read-aloud">Carries cited</h2>
            <CitedCarries carries={cited} families={sheet.families} />
          </section>
        )}
        <div className="pair">
          <section className="whole">
            <h2>Running mean of delta, yards a carry</h2>
            <RunningDelta carries={sheet.carries} delta={sheet.delta} />
          </section>
          <section className="prose">
            <h2>What is thin</h2>
            {sheet.thin.length === 0 ? (
              <p>Nothing is called thin.</p>
            ) : (
              <ul>
                {sheet.thin.map((words) => (
                  <li key={words}>{words}</li>
                ))}
              </ul>
            )}
          </section>
        </div>
        <section className="whole">
          <GamesTable sheet={sheet} />
        </section>
        <ScreenFoot />
      </section>
      <section className="page">
        <section className="grade-figures">
          <GradeTable overall={sheet.overall} families={sheet.families} bars={bars} />
        </section>
        <section>
          <h2>Splits</h2>
          {sheet.splits.length === 0 ? (
            <p className="reason">No split can be made yet: nothing beyond the gain is charted.</p>
          ) : (
            <div className="splits">
              {sheet.splits.map((split) => (
                <SplitTable key={split.field} split={split} />
              ))}
            </div>
          )}
        </section>
        <MethodAndCautions view={view} />
        <ScreenFoot />
      </section>
    </article>
  );
}

/** The page's foot where a page is drawn on screen; in print the margin boxes hold it, with the page's number. */
function ScreenFoot() {
  return (
    <footer className="screen-foot" aria-hidden="true">
      {cautionLine}
    </footer>
  );
}
