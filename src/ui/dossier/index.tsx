import { useEffect, useState } from 'react';
import type { IssuedView, DossierView } from '../../contract/views.ts';
import { DossierPages } from '../../pages/index.ts';
import '../../pages/charts.css';
import '../../pages/dossier.css';
import { Button } from '../kit/button.tsx';
import { Empty } from '../kit/empty.tsx';
import { call } from '../link/call.ts';
import { listen } from '../link/events.ts';
import { attempt, say, usePlace } from '../link/place.ts';
import { RunnerChoice } from '../people/runner-choice.tsx';
import { makeMissingStills } from './make-stills.ts';
import { WriteupForm } from './writeup-form.tsx';
import './dossier-room.css';

/** The printed report, seen as it will print; written on the left, issued as PDF and HTML. */
export function Dossier() {
  const { runnerId, evaluatorId } = usePlace();
  const [view, setView] = useState<DossierView | null>(null);
  const [issued, setIssued] = useState<readonly IssuedView[]>([]);
  const [paper, setPaper] = useState<'A4' | 'Letter'>('A4');
  const [issuing, setIssuing] = useState(false);
  useEffect(() => {
    if (runnerId === null) return;
    let gone = false;
    const read = (): void => {
      void attempt(async () => {
        const next = await call('dossier.read', { runnerId, evaluatorId });
        const kept = await call('dossier.issued', { runnerId });
        if (gone) return;
        setView(next);
        setIssued(kept);
        const made = await makeMissingStills(runnerId, evaluatorId);
        if (made > 0 && !gone) setView(await call('dossier.read', { runnerId, evaluatorId }));
      });
    };
    read();
    const stop = listen((event) => {
      if (event.event === 'changed') read();
    });
    return () => {
      gone = true;
      stop();
    };
  }, [runnerId, evaluatorId]);
  if (runnerId === null) return <Empty title="No runner yet">Add a game on the Stage and name the runner.</Empty>;
  if (view === null) return null;
  const issue = (pdf: boolean): void => {
    setIssuing(true);
    void attempt(async () => {
      const made = await call('dossier.issue', { runnerId, evaluatorId, paper, pdf });
      setIssued(await call('dossier.issued', { runnerId }));
      say(`Issued: ${pdf ? 'PDF and HTML' : 'HTML'} kept in the study.`);
      window.open(`/issued/${made.id}/dossier.${made.hasPdf ? 'pdf' : 'html'}`, '_blank', 'noopener');
    }).finally(() => setIssuing(false));
  };
  return (
    <div className="dossier-room">
      <header className="room-head">
        <RunnerChoice />
        <span className="spring" />
        <label className="row">
          <span className="muted">Paper</span>
          <select value={paper} onChange={(event) => setPaper(event.target.value === 'Letter' ? 'Letter' : 'A4')}>
            <option>A4</option>
            <option>Letter</option>
          </select>
        </label>
        <Button disabled={issuing} onClick={() => issue(false)}>
          Issue HTML
        </Button>
        <Button kind="chosen" disabled={issuing} onClick={() => issue(true)}>
          {issuing ? 'Printing…' : 'Issue PDF'}
        </Button>
      </header>
      <div className="dossier-columns">
        <div className="dossier-side">
          <WriteupForm key={`${runnerId} ${evaluatorId}`} view={view} />
          <section>
            <h2>Issued</h2>
            {issued.length === 0 ? (
              <p className="muted">
                Nothing is issued yet. What is issued is kept in the study with what it was made from.
              </p>
            ) : (
              <ul className="issued">
                {issued.map((one) => (
                  <li key={one.id}>
                    <span>
                      {new Date(one.issuedAt).toLocaleString('en-GB', { dateStyle: 'medium', timeStyle: 'short' })}
                    </span>
                    <span className="muted">
                      {one.evaluatorName}, {one.paper}
                    </span>
                    {one.hasPdf ? (
                      <a href={`/issued/${one.id}/dossier.pdf`} target="_blank" rel="noreferrer">
                        PDF
                      </a>
                    ) : null}
                    <a href={`/issued/${one.id}/dossier.html`} target="_blank" rel="noreferrer">
                      HTML
                    </a>
                  </li>
                ))}
              </ul>
            )}
          </section>
        </div>
        {/* A region that scrolls must be reachable by key (WCAG 2.1.1). */}
        {/* oxlint-disable-next-line jsx-a11y/no-noninteractive-tabindex */}
        <div className="paper" tabIndex={0} role="region" aria-label="The printed pages">
          <DossierPages view={view} paper={paper} still={(stillId) => `/still/${stillId}`} />
        </div>
      </div>
    </div>
  );
}
