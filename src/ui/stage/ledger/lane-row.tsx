import { useState, type KeyboardEvent } from 'react';
import type { Lane } from '../../../contract/rows.ts';
import { laneStates } from '../../../contract/words.ts';
import type { LaneLine } from '../../../core/lanes/ledger.ts';
import { beginDrawing } from './drawing.ts';
import { chanceInWords, plain, signed, stateInWords, typedYards } from './lane-words.ts';
import { editLane, keepYards, removeLane, setState, takeLane } from './ledger-actions.ts';
import { useLedger } from './ledger-store.ts';
import { type YardHandle, yardHandles } from './yard-strip.ts';

/** One lane in the ledger: what is said of it, and what it was worth. */
export function LaneRow({ lane, stored, line }: { lane: Lane; stored: Lane; line: LaneLine | undefined }) {
  const chosen = useLedger((ledger) => ledger.laneId === lane.id);
  const [name, setName] = useState<string | null>(null);
  const keepName = (): void => {
    const typed = name?.trim() ?? '';
    setName(null);
    if (typed !== '' && typed !== stored.name) editLane(stored, { name: typed }, `${stored.name} is now ${typed}`);
  };
  return (
    <li className="ledger-lane" data-lane={lane.id} aria-label={lane.name} aria-current={chosen}>
      <div className="ledger-said">
        <input
          name="lane name"
          aria-label="Name of the lane"
          maxLength={60}
          autoComplete="off"
          spellCheck={false}
          value={name ?? lane.name}
          onChange={(event) => setName(event.target.value)}
          onBlur={keepName}
          onKeyDown={(event) => {
            if (event.key === 'Enter') nextField(event);
          }}
        />
        <select
          aria-label={`State of ${lane.name}`}
          value={lane.state}
          onChange={(event) => {
            const state = laneStates.find((each) => each === event.target.value);
            if (state !== undefined) setState(stored, state);
          }}
        >
          {laneStates.map((state) => (
            <option key={state}>{state}</option>
          ))}
        </select>
        {yardHandles.map((handle) => (
          <YardField key={handle} lane={lane} stored={stored} handle={handle} />
        ))}
        <button
          type="button"
          className="ledger-take"
          aria-pressed={lane.taken}
          aria-label={`${lane.taken ? 'taken' : 'take'}: ${lane.name}`}
          title="The lane he took (T)"
          onClick={() => takeLane(stored)}
        >
          {lane.taken ? 'taken' : 'take'}
        </button>
      </div>
      {line === undefined ? null : (
        <p className="ledger-worth">
          <strong>{signed(line.added)}</strong> points ± {line.standardError.toFixed(2)} · {plain(line.yards, 1)} yards
          · loss {chanceInWords(line.chanceOfLoss)} · success {chanceInWords(line.chanceOfSuccess)} · score{' '}
          {chanceInWords(line.chanceOfScore)}
          <span className="muted">
            {' '}
            · leads to {stateInWords(line.leadsTo.low)} · {stateInWords(line.leadsTo.likely)} ·{' '}
            {stateInWords(line.leadsTo.high)}
          </span>
        </p>
      )}
      {chosen ? (
        <p className="ledger-do">
          <button
            type="button"
            onClick={() => {
              useLedger.setState({ laneId: lane.id });
              beginDrawing();
            }}
          >
            {lane.path.length < 2 ? 'Draw its path' : 'Draw it again'} <kbd>D</kbd>
          </button>
          <button type="button" onClick={() => removeLane(stored)}>
            Remove <kbd>Del</kbd>
          </button>
        </p>
      ) : null}
    </li>
  );
}

/** Enter goes to the next field of the ledger's lanes. */
function nextField(event: KeyboardEvent<HTMLInputElement>): void {
  event.preventDefault();
  const all = [...document.querySelectorAll<HTMLElement>('.ledger-said input, .ledger-said select')];
  const next = all[all.indexOf(event.currentTarget) + 1];
  if (next === undefined) document.querySelector<HTMLElement>('.ledger')?.focus();
  else next.focus();
}

function YardField({ lane, stored, handle }: { lane: Lane; stored: Lane; handle: YardHandle }) {
  const [typed, setTyped] = useState<string | null>(null);
  const [trouble, setTrouble] = useState<string | null>(null);
  const keep = (): boolean => {
    if (typed === null) return true;
    const yards = typedYards(typed);
    const next = yards === null ? null : { low: stored.low, likely: stored.likely, high: stored.high, [handle]: yards };
    if (next === null) {
      setTrouble(`Whole yards from −20 to 99, got ${typed.trim() === '' ? 'nothing' : typed}.`);
      return false;
    }
    // Typed from left to right, a figure may pass those not typed yet: they give way until they are.
    const [low, likely, high] =
      handle === 'low'
        ? [next.low, Math.max(next.low, next.likely), Math.max(next.low, next.likely, next.high)]
        : handle === 'likely'
          ? [next.low, next.likely, Math.max(next.likely, next.high)]
          : [next.low, next.likely, next.high];
    if (!(low <= likely && likely <= high)) {
      setTrouble(`Low, likely, high go up: ${plain(low)}, ${plain(likely)}, ${plain(high)} do not.`);
      return false;
    }
    setTyped(null);
    setTrouble(null);
    keepYards(stored, { low, likely, high });
    return true;
  };
  return (
    <span className="ledger-yards">
      <input
        name={handle}
        aria-label={`${handle}, yards, ${lane.name}`}
        aria-invalid={trouble !== null}
        inputMode="numeric"
        autoComplete="off"
        maxLength={3}
        value={typed ?? plain(lane[handle])}
        onFocus={(event) => event.target.select()}
        onChange={(event) => {
          setTyped(event.target.value);
          setTrouble(null);
        }}
        onBlur={() => {
          keep();
        }}
        onKeyDown={(event) => {
          if (event.key === 'Enter' && keep()) nextField(event);
          else if (event.key === 'Escape') {
            setTyped(null);
            setTrouble(null);
          }
        }}
      />
      {trouble === null ? null : (
        <span className="ledger-trouble" role="alert">
          {trouble}
        </span>
      )}
    </span>
  );
}
