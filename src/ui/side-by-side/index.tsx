import { useEffect, useState } from 'react';
import type { CallOutput } from '../../contract/calls.ts';
import '../../pages/charts.css';
import { Button } from '../kit/button.tsx';
import { Empty } from '../kit/empty.tsx';
import { call } from '../link/call.ts';
import { listen } from '../link/events.ts';
import { attempt, go, usePlace } from '../link/place.ts';
import { Both } from './both.tsx';
import { closeRoomFrames } from './room-films.ts';
import { swap } from './side-keys.ts';
import { showCarries, useSides, type Which } from './side-store.ts';
import './side-by-side.css';

/** Two runners: the same moment of two carries, and how they truly differ. */
export function SideBySide() {
  const { directory, evaluatorId, runnerId, otherRunnerId } = usePlace();
  const whose = useSides((sides) => sides.whose);
  const asked = whose === 'own' ? evaluatorId : null;
  const runners = directory?.runners ?? [];
  const firstId = runners.find(({ id }) => id === runnerId)?.id ?? runners[0]?.id ?? null;
  const secondId =
    runners.find(({ id }) => id === otherRunnerId)?.id ?? runners.find(({ id }) => id !== firstId)?.id ?? null;
  const answer = useReading(firstId, secondId, asked);
  useEffect(() => closeRoomFrames, []);
  if (directory === null) return null;
  if (firstId === null || secondId === null) {
    return (
      <Empty title={firstId === null ? 'No runner yet' : 'Only one runner yet'}>
        <p>Side by side needs two runners. Add a game on the Stage and name its runners as you log their carries.</p>
        <Button kind="chosen" onClick={() => go({ room: 'stage' })}>
          Go to the Stage
        </Button>
      </Empty>
    );
  }
  const choice = (which: Which, value: string) => (
    <h2 className="runner-choice">
      <select
        aria-label={which === 'first' ? 'Runner on the left' : 'Runner on the right'}
        value={value}
        onChange={(event) => {
          showCarries(null, null);
          go(which === 'first' ? { runnerId: event.target.value } : { otherRunnerId: event.target.value });
        }}
      >
        {runners.map((runner) => (
          <option key={runner.id} value={runner.id}>
            {runner.name}
          </option>
        ))}
      </select>
    </h2>
  );
  return (
    <div className="side-by-side">
      <header className="room-head">
        <h1 className="read-aloud">Side by side</h1>
        {choice('first', firstId)}
        <Button onClick={swap}>Swap</Button>
        {choice('second', secondId)}
        <span className="spring" />
        <label className="row">
          <span className="muted">Marks by</span>
          <select
            value={whose}
            onChange={(event) => useSides.setState({ whose: event.target.value === 'all' ? 'all' : 'own' })}
          >
            <option value="own">{directory.evaluators.find(({ id }) => id === evaluatorId)?.name ?? 'me'}</option>
            <option value="all">all evaluators</option>
          </select>
        </label>
      </header>
      {answer === null ? (
        <p className="muted side-wait" role="status">
          Setting the two beside each other…
        </p>
      ) : answer.known ? (
        <Both key={`${firstId} ${secondId}`} view={answer.value} />
      ) : (
        <Empty title="Two different runners are needed">
          <p>{answer.detail}</p>
        </Empty>
      )}
    </div>
  );
}

function useReading(
  firstId: string | null,
  secondId: string | null,
  evaluatorId: string | null,
): CallOutput<'sideBySide.read'> | null {
  const [held, setHeld] = useState<{ readonly of: string; readonly answer: CallOutput<'sideBySide.read'> } | null>(
    null,
  );
  const of = `${firstId} ${secondId} ${evaluatorId}`;
  useEffect(() => {
    if (firstId === null || secondId === null) return;
    let gone = false;
    const read = (): void => {
      void attempt(async () => {
        const answer = await call('sideBySide.read', { firstId, secondId, evaluatorId });
        if (!gone) setHeld({ of, answer });
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
  }, [of, firstId, secondId, evaluatorId]);
  return held?.of === of ? held.answer : null;
}
