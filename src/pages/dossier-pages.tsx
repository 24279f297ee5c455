import type { DossierView } from '../contract/views.ts';
import type { OnCarry } from './carry-link.tsx';
import { CitedCarries, citedCarries } from './cited-carries.tsx';
import { EvidenceCard, type StillSource } from './evidence-card.tsx';
import { FrontPage } from './front-page.tsx';
import { GamesTable } from './games-table.tsx';
import { GradeTable } from './grade-table.tsx';
import { MethodAndCautions } from './method-and-cautions.tsx';
import { RunningDelta } from './running-delta.tsx';
import { SplitTable } from './split-table.tsx';

export type Paper = 'A4' | 'Letter';

export type DossierPagesProps = {
  readonly view: DossierView;
  readonly paper: Paper;
  readonly still: StillSource;
  /** On screen: what a carry's number does. Left out on paper, where it is a link within the file. */
  readonly onCarry?: OnCarry;
};

// As many cards as stand in one row: page one shows the first row, the rest follow overleaf.
const cardsInRow = 3;

const inRows = <Item,>(items: readonly Item[]): readonly (readonly Item[])[] =>
  Array.from({ length: Math.ceil(items.length / cardsInRow) }, (_, at) =>
    items.slice(at * cardsInRow, (at + 1) * cardsInRow),
  );

/**
 * The dossier, the same on screen, in the HTML file and in the print: page one stands alone; then evidence, the carries
 * it names, all figures, splits, games, method and cautions flow over as many pages as they fill. On screen the sheets
 * of paper are columns as tall as a page, broken by the same rules as the print.
 */
export function DossierPages({ view, paper, still, onCarry }: DossierPagesProps) {
  const { sheet, evidence } = view;
  const { families, overall, rubric, splits, thin } = sheet;
  // A field with one group cuts nothing.
  const cuts = splits.filter((split) => split.rows.length > 1);
  const cited = citedCarries(view);
  const listed: ReadonlySet<number> = new Set(cited.map(({ number }) => number));
  const [first = [], ...rest] = inRows(
    evidence.map((one) => (
      <EvidenceCard key={`${one.partId} ${one.frame}`} evidence={one} still={still} listed={listed} onCarry={onCarry} />
    )),
  );
  return (
    <article className={`dossier paper-${paper.toLowerCase()}`} lang="en">
      <FrontPage view={view} listed={listed} onCarry={onCarry} cards={first} />
      {rest.length > 0 && (
        <section className="evidence-row">
          <h2>Evidence, continued</h2>
          {rest.map((cards, at) => (
            <div key={at} className="cards">
              {cards}
            </div>
          ))}
        </section>
      )}
      {cited.length > 0 && (
        <section>
          <h2>Carries cited</h2>
          <CitedCarries carries={cited} families={families} />
        </section>
      )}
      <section>
        <h2>Grades in figures</h2>
        <GradeTable overall={overall} families={families} bars={rubric.body.bars} />
      </section>
      <section>
        <h2>Splits</h2>
        {cuts.length === 0 ? (
          <p className="reason">No split can be made yet: no charted field has two kinds of carries in it.</p>
        ) : (
          <div className="splits">
            {cuts.map((split) => (
              <SplitTable key={split.field} split={split} />
            ))}
          </div>
        )}
      </section>
      <section>
        <h2>Logged against the official line</h2>
        <GamesTable sheet={sheet} />
      </section>
      <div className="pair">
        <section>
          <h2>Running mean of delta, yards a carry</h2>
          <RunningDelta carries={sheet.carries} delta={sheet.delta} />
        </section>
        <section className="dossier-prose">
          <h2>What is thin</h2>
          {thin.length === 0 ? (
            <p>Nothing is called thin.</p>
          ) : (
            <ul>
              {thin.map((words) => (
                <li key={words}>{words}</li>
              ))}
            </ul>
          )}
        </section>
      </div>
      <MethodAndCautions view={view} />
    </article>
  );
}
