import { memo } from 'react';
import type { BoardField } from '../../contract/board-answer.ts';
import type { BoardRunner } from '../../contract/comparison-views.ts';
import { gradeInFigures } from '../../pages/in-figures.ts';
import { go } from '../link/place.ts';
import { choose } from './board-store.ts';

/** Runners without a place, each with the reason; and how many the filter leaves out. */
export const Apart = memo(function Apart({
  field,
  runners,
  includeThin,
}: {
  readonly field: BoardField;
  readonly runners: ReadonlyMap<string, BoardRunner>;
  readonly includeThin: boolean;
}) {
  return (
    <section className="figure apart">
      <header className="figure-head">
        <h2>Standing apart</h2>
        <label className="row">
          <input
            type="checkbox"
            checked={includeThin}
            onChange={(event) => choose({ includeThin: event.target.checked })}
          />
          Place thin runners too
        </label>
      </header>
      {field.apart.length === 0 ? (
        <p className="muted">
          {includeThin
            ? 'Everyone with a grade has a place, the thin ones with an open dot.'
            : 'Nobody: every runner here has marks enough.'}
        </p>
      ) : (
        <ul className="apart-list">
          {field.apart.map(({ runner, because }) => {
            const who = runners.get(runner);
            const overall = who?.overall;
            return (
              <li key={runner}>
                <button type="button" className="rank-name" onClick={() => go({ room: 'sheet', runnerId: runner })}>
                  {who?.name ?? 'unknown runner'}
                </button>
                <span className="small-sample">
                  {overall?.known === true
                    ? `${gradeInFigures(overall.value.grade)} (${gradeInFigures(overall.value.low)}–${gradeInFigures(overall.value.high)}). `
                    : ''}
                  {because}
                </span>
              </li>
            );
          })}
        </ul>
      )}
      {field.filtered === 0 ? null : (
        <p className="muted">
          {field.filtered} {field.filtered === 1 ? 'runner is' : 'runners are'} left out by the filter.
        </p>
      )}
    </section>
  );
});
