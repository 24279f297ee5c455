import { Table2, ChartSpline } from 'lucide-react';
import { useState, type ReactNode } from 'react';

/** A titled chart with its numbers as a table one key away. */
export function WithTable({
  title,
  note,
  chart,
  table,
}: {
  title: string;
  note?: string | undefined;
  chart: ReactNode;
  table?: ReactNode;
}) {
  const [asTable, setAsTable] = useState(false);
  return (
    <section className="figure">
      <header className="figure-head">
        <h2>{title}</h2>
        {table === undefined ? null : (
          <button type="button" className="button-quiet" aria-pressed={asTable} onClick={() => setAsTable(!asTable)}>
            {asTable ? <ChartSpline size={15} aria-hidden /> : <Table2 size={15} aria-hidden />}
            <span className="unseen">{asTable ? `${title} as a chart` : `${title} as a table`}</span>
          </button>
        )}
      </header>
      {note === undefined ? null : <p className="muted figure-note">{note}</p>}
      {asTable ? table : chart}
    </section>
  );
}
