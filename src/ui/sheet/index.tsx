import { useEffect, useMemo, useState } from 'react';
import type { SheetView } from '../../contract/views.ts';
import {
  DeltaHistogram,
  DeltaTable,
  GamesTable,
  GradePlot,
  GradeTable,
  ResultsTable,
  RunningDelta,
  RunningDeltaTable,
  SplitTable,
  cautionLine,
} from '../../pages/index.ts';
import '../../pages/charts.css';
import { useActions, type Action } from '../kit/actions.ts';
import { Button } from '../kit/button.tsx';
import { Empty } from '../kit/empty.tsx';
import { WithTable } from '../kit/with-table.tsx';
import { call } from '../link/call.ts';
import { listen } from '../link/events.ts';
import { askForRunnerReel } from '../link/reel-request.ts';
import { attempt, go, usePlace } from '../link/place.ts';
import { RunnerChoice } from '../people/runner-choice.tsx';
import { CarryList } from './carry-list.tsx';
import './sheet.css';

/** One runner: what he is, how sure that is, and what is thin; every grade opens the carries behind it. */
export function Sheet() {
  const { directory, runnerId, evaluatorId } = usePlace();
  const [whose, setWhose] = useState<'own' | 'all'>('own');
  const [sheet, setSheet] = useState<SheetView | null>(null);
  const [trait, setTrait] = useState<string | null>(null);
  const [split, setSplit] = useState('Down');
  const asked = whose === 'own' ? evaluatorId : null;
  useEffect(() => {
    if (runnerId === null) return;
    let gone = false;
    const read = (): void => {
      void attempt(async () => {
        const next = await call('sheet.read', { runnerId, evaluatorId: asked });
        if (!gone) setSheet(next);
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
  }, [runnerId, asked]);
  const actions = useMemo<readonly Action[]>(
    () => [
      { name: 'Next runner', group: 'Sheet', keys: ['ArrowRight'], run: () => turnRunner(1) },
      { name: 'Last runner', group: 'Sheet', keys: ['ArrowLeft'], run: () => turnRunner(-1) },
    ],
    [],
  );
  useActions(actions);
  if (directory === null) return null;
  if (runnerId === null) {
    return (
      <Empty title="No runner yet">
        <p>Add a game on the Stage and name the runner; his sheet grows with each carry marked.</p>
        <Button kind="chosen" onClick={() => go({ room: 'stage' })}>
          Go to the Stage
        </Button>
      </Empty>
    );
  }
  if (sheet === null) return null;
  const chosen = sheet.splits.find(({ field }) => field === split) ?? sheet.splits[0];
  const name = sheet.runner.name;
  return (
    <div className="sheet">
      <header className="room-head">
        <RunnerChoice />
        <p className="muted">
          {[sheet.team, sheet.runner.position, sheet.runner.classYear].filter((word) => word !== null).join(' · ')}
          {sheet.completeness.known
            ? ` · ${sheet.completeness.value.logged} of ${sheet.completeness.value.official} carries logged`
            : ` · ${sheet.carries.length} carries logged`}
        </p>
        <span className="spring" />
        <label className="row">
          <span className="muted">Marks by</span>
          <select value={whose} onChange={(event) => setWhose(event.target.value === 'all' ? 'all' : 'own')}>
            <option value="own">{directory.evaluators.find(({ id }) => id === evaluatorId)?.name ?? 'me'}</option>
            <option value="all">all evaluators</option>
          </select>
        </label>
        <Button onClick={() => void attempt(() => askForRunnerReel(runnerId, evaluatorId))}>Make a reel</Button>
        <Button onClick={() => go({ room: 'dossier' })}>Open the dossier</Button>
      </header>
      <div className="sheet-columns">
        <WithTable
          title="Grades, with 95 % intervals and carries behind each"
          note="Open dot: thin. Choose a trait to see and play the carries behind it."
          chart={
            <GradePlot
              families={sheet.families}
              bars={sheet.rubric.body.bars}
              overall={sheet.overall}
              name={`Grades of ${name}`}
              onTrait={(key) => setTrait(trait === key ? null : key)}
            />
          }
          table={<GradeTable overall={sheet.overall} families={sheet.families} bars={sheet.rubric.body.bars} />}
        />
        <div className="sheet-side">
          <WithTable
            title="Results"
            note={`Success by the ${sheet.successRule} rule; expected yards by the fit for ${sheet.model}.`}
            chart={<ResultsTable sheet={sheet} />}
          />
          <WithTable
            title="Gain less expected, yards"
            chart={<DeltaHistogram carries={sheet.carries} />}
            table={<DeltaTable carries={sheet.carries} />}
          />
          <WithTable
            title="Running mean of delta, yards a carry"
            chart={<RunningDelta carries={sheet.carries} delta={sheet.delta} />}
            table={<RunningDeltaTable carries={sheet.carries} delta={sheet.delta} />}
          />
        </div>
        <section className="figure wide">
          <header className="figure-head">
            <h2>
              {trait === null
                ? 'Carries'
                : `Carries behind ${sheet.families.flatMap((family) => family.traits).find(({ key }) => key === trait)?.name ?? trait}`}
            </h2>
            {trait === null ? null : (
              <Button kind="quiet" onClick={() => setTrait(null)}>
                All carries
              </Button>
            )}
          </header>
          <CarryList sheet={sheet} trait={trait} />
        </section>
        <section className="figure">
          <header className="figure-head">
            <h2>Splits</h2>
            <select
              aria-label="Split by"
              value={chosen?.field ?? ''}
              onChange={(event) => setSplit(event.target.value)}
            >
              {sheet.splits.map(({ field }) => (
                <option key={field}>{field}</option>
              ))}
            </select>
          </header>
          {chosen === undefined ? <p className="muted">Nothing is charted yet.</p> : <SplitTable split={chosen} />}
        </section>
        <div className="sheet-side">
          <section className="figure">
            <h2>Logged against the official line</h2>
            <GamesTable sheet={sheet} />
          </section>
          <section className="figure">
            <h2>What is thin</h2>
            <ul className="prose">
              {sheet.thin.map((words) => (
                <li key={words}>{words}</li>
              ))}
            </ul>
          </section>
        </div>
        <p className="caution wide">{cautionLine}</p>
      </div>
    </div>
  );
}

function turnRunner(by: 1 | -1): void {
  const { directory, runnerId } = usePlace.getState();
  const runners = directory?.runners ?? [];
  const next = runners[runners.findIndex(({ id }) => id === runnerId) + by];
  if (next !== undefined) go({ runnerId: next.id });
}
