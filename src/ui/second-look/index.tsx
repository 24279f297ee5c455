import { useCallback, useEffect, useState } from 'react';
import type { AgreementView, SecondLookState } from '../../contract/second-look-views.ts';
import { Empty } from '../kit/empty.tsx';
import { call } from '../link/call.ts';
import { isOwnChange } from '../link/change.ts';
import { listen } from '../link/events.ts';
import { attempt, usePlace } from '../link/place.ts';
import { Agreement } from './agreement.tsx';
import { BlindCarry } from './blind-carry.tsx';
import { DrawLook } from './draw-look.tsx';
import { closeLookFrames } from './look-films.ts';
import { leaveLook, readGiven, useLook } from './look-store.ts';
import './second-look.css';

/** Carries marked again without the earlier marks, and how far the looks and the evaluators agree. */
export function SecondLook() {
  const evaluatorId = usePlace((place) => place.evaluatorId);
  const looking = useLook((look) => look.look !== null);
  useEffect(
    () => () => {
      leaveLook();
      closeLookFrames();
    },
    [],
  );
  useEffect(
    () =>
      listen((event) => {
        // The answer to one's own change may come after its event: by then it is known as one's own.
        if (event.event === 'changed') setTimeout(() => void (isOwnChange(event.entry) ? null : readGiven()), 120);
      }),
    [],
  );
  if (evaluatorId === null) {
    return (
      <Empty title="No evaluator yet">
        <p>Second look compares an evaluator’s marks with his own. Add an evaluator in Settings.</p>
      </Empty>
    );
  }
  // Agreement holds earlier marks: while a carry is looked at it is not mounted, so that nothing of it is in the page.
  return looking ? <BlindCarry /> : <Overview key={evaluatorId} evaluatorId={evaluatorId} />;
}

function Overview({ evaluatorId }: { readonly evaluatorId: string }) {
  const name = usePlace((place) => place.directory?.evaluators.find(({ id }) => id === evaluatorId)?.name ?? '');
  const [state, setState] = useState<SecondLookState | null>(null);
  const [view, setView] = useState<AgreementView | null>(null);
  const read = useCallback(async (): Promise<SecondLookState> => {
    const next = await call('secondLook.read', { evaluatorId });
    setState(next);
    return next;
  }, [evaluatorId]);
  useEffect(() => {
    let gone = false;
    const readAll = (): void => {
      if (useLook.getState().opening) return;
      void attempt(async () => {
        await read();
        const next = await call('secondLook.agreement', { evaluatorId });
        if (!gone) setView(next);
      });
    };
    readAll();
    const stop = listen((event) => {
      if (event.event === 'changed') readAll();
    });
    return () => {
      gone = true;
      stop();
    };
  }, [evaluatorId, read]);
  return (
    <div className="second-look">
      <header className="room-head">
        <h1>Second look</h1>
        <p className="muted">{name}</p>
      </header>
      <div className="look-columns">
        {state === null ? null : <DrawLook state={state} read={read} />}
        {view === null ? (
          <p className="muted look-wait" role="status">
            Comparing the looks…
          </p>
        ) : (
          <Agreement view={view} ownFirst={name} />
        )}
      </div>
    </div>
  );
}
