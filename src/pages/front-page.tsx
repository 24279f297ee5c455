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

/** Letters beyond which a text stands over the whole width, or page one runs on instead of standing alone. */
const longAside = 420;
const longFront = 1500;

const letters = (words: string | null): number => words?.length ?? 0;

function WhatWouldChange({ words }: { readonly words: string | null }) {
  return (
    <section className="dossier-prose">
      <h2>What would change this</h2>
      <p>
        <Written words={words} />
      </p>
    </section>
  );
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
  const { sheet, verdict, role, fit, change } = view;
  const changeAtLength = letters(change) > longAside;
  const asideAtLength = Math.max(letters(role), letters(fit)) > longAside;
  const written = verdict.reduce((sum, { text }) => sum + text.length, letters(role) + letters(fit) + letters(change));
  return (
    <section className={written > longFront ? 'front-page front-at-length' : 'front-page'}>
      <DossierHead view={view} />
      <Verdict verdict={verdict} listed={listed} onCarry={onCarry} />
      <dl className={asideAtLength ? 'role-and-fit at-length' : 'role-and-fit'}>
        <div>
          <dt>Role</dt>
          <dd>
            <Written words={role} />
          </dd>
        </div>
        <div>
          <dt>Fit</dt>
          <dd>
            <Written words={fit} />
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
          {!changeAtLength && <WhatWouldChange words={change} />}
        </div>
      </div>
      {changeAtLength && <WhatWouldChange words={change} />}
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
