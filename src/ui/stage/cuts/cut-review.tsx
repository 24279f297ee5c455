import { useEffect, useRef } from 'react';
import type { Film } from '../../../contract/rows.ts';
import { Button } from '../../kit/button.tsx';
import { say, usePlace } from '../../link/place.ts';
import { useStage } from '../stage-store.ts';
import { likely, type Cut, type CutState } from './cut-list.ts';
import { cutStates, noCuts, useCuts } from './cuts-store.ts';
import { acceptLikely, chooseCut, leaveCuts } from './review.ts';

/** Over the rail: how far the look through the film is, then its proposals, gone through by key. */
export function CutReview({ film }: { film: Film }) {
  const { filmId, done, cuts, lost, runnerId } = useCuts();
  const runners = usePlace((place) => place.directory?.runners) ?? [];
  const spans = useStage((stage) => stage.game?.spans) ?? [];
  // Proposals are of one film and game: going elsewhere ends the review, and the look through the film with it.
  useEffect(
    () =>
      useStage.subscribe((now, before) => {
        const { filmId: own, stop, cuts: under } = useCuts.getState();
        if (own === null || (now.filmId === own && now.game?.game.id === before.game?.game.id)) return;
        useCuts.setState(noCuts);
        stop?.abort();
        if (under !== null || stop !== null) say('The proposed cuts were left: you went elsewhere.');
      }),
    [],
  );
  if (filmId !== film.id) return null;
  if (done !== null) {
    return (
      <div className="cuts" role="group" aria-label="Proposed cuts">
        <div className="cuts-head">
          <label className="cuts-progress">
            Looking through {film.name} for cuts
            <progress max={1} value={done} />
            <span className="number">{Math.round(done * 100)} %</span>
          </label>
          <Button kind="quiet" onClick={leaveCuts}>
            Stop <kbd>Esc</kbd>
          </Button>
        </div>
      </div>
    );
  }
  if (cuts === null) return null;
  const states = cutStates(
    cuts,
    spans.filter((span) => span.filmId === filmId),
  );
  const count = (state: CutState): number => [...states.values()].filter((each) => each === state).length;
  const sure = cuts.filter((cut) => cut.confidence >= likely && states.get(cut.id) === 'open').length;
  return (
    <div className="cuts" role="group" aria-label="Proposed cuts">
      <div className="cuts-head">
        <p>
          <strong>
            {cuts.length === 1 ? 'One stretch' : `${cuts.length} stretches`}, {count('open')} open
          </strong>
          <span className="muted">
            {' '}
            {count('accepted')} accepted, {count('dropped')} left out
            {count('cut before') === 0 ? '' : `, ${count('cut before')} cut before`}
            {lost === 0 ? '' : `, ${lost} frames could not be read`}
          </span>
        </p>
        <label className="cuts-carry">
          <span className="muted">Each play is a carry of</span>
          <select
            value={runnerId ?? ''}
            onChange={(event) => useCuts.setState({ runnerId: event.target.value === '' ? null : event.target.value })}
          >
            {runners.map(({ id, name }) => (
              <option key={id} value={id}>
                {name}
              </option>
            ))}
            <option value="">nobody yet</option>
          </select>
        </label>
        <span className="spring" />
        <Button kind="quiet" disabled={sure === 0} onClick={() => void acceptLikely()}>
          Accept {sure} likely <kbd>Shift ↵</kbd>
        </Button>
        <Button kind="quiet" onClick={leaveCuts}>
          Done <kbd>Esc</kbd>
        </Button>
      </div>
      <CutList cuts={cuts} states={states} film={film} />
      <p className="cuts-keys muted">
        <kbd>↵</kbd> accept <kbd>Delete</kbd> leave out <kbd>I</kbd> <kbd>O</kbd> its beginning, its end <kbd>← →</kbd>{' '}
        move that by a frame, with Shift by ten <kbd>T</kbd> play, replay or graphic
      </p>
    </div>
  );
}

function CutList({ cuts, states, film }: { cuts: readonly Cut[]; states: ReadonlyMap<string, CutState>; film: Film }) {
  const { chosenId, end } = useCuts();
  const times = useStage((stage) => stage.tables[film.id]?.times);
  const list = useRef<HTMLOListElement>(null);
  useEffect(() => {
    list.current?.querySelector('[aria-current="true"]')?.scrollIntoView({ block: 'center' });
  }, [chosenId]);
  const length = (cut: Cut): string => {
    const [from, to] = [times?.[cut.first], times?.[cut.last + 1] ?? film.seconds];
    return from === undefined ? '' : `${(to - from).toFixed(1)} s`;
  };
  return (
    <ol className="cuts-list" ref={list}>
      {cuts.map((cut, index) => {
        const state = states.get(cut.id) ?? 'open';
        const chosen = cut.id === chosenId;
        return (
          <li key={cut.id} data-state={state} data-kind={cut.kind} aria-current={chosen}>
            <button type="button" tabIndex={chosen ? 0 : -1} onClick={() => chooseCut(cut.id)}>
              <span className="number">{index + 1}</span>
              <span className="cut-kind">
                {cut.kind}
                {cut.view === null ? '' : `, ${cut.view} view`}
              </span>
              <span className="cut-frames">
                <span data-end={chosen && end === 'in'}>{cut.first}</span>–
                <span data-end={chosen && end === 'out'}>{cut.last}</span>
              </span>
              <span className="number muted">{length(cut)}</span>
              <span className="muted cut-because">{cut.because}</span>
              <span className={cut.confidence < likely ? 'cut-doubtful' : 'muted'}>
                {cut.confidence < likely ? 'doubtful' : 'likely'} {(Math.floor(cut.confidence * 100) / 100).toFixed(2)}
              </span>
              <span className="cut-state">{state === 'open' ? '' : state}</span>
            </button>
          </li>
        );
      })}
    </ol>
  );
}
