import { useId } from 'react';
import type { BoardAnswer, BoardChoice, WeightSwap } from '../../contract/comparison-views.ts';
import type { RubricBody } from '../../contract/rows.ts';
import { Button } from '../kit/button.tsx';
import { choose, moveFamily, moveTrait, sharesNow, weightsUntouched } from './board-store.ts';
import { shareInPercent, swapInWords } from './in-words.ts';

function Slider(props: {
  readonly name: string;
  readonly share: number;
  readonly swap: WeightSwap | undefined;
  readonly nameOf: (runnerId: string) => string;
  readonly onMove: (share: number) => void;
}) {
  const { name, share, swap, nameOf, onMove } = props;
  const id = useId();
  const at = swap?.swap.known === true ? 100 * swap.swap.value.to : null;
  return (
    <div className="board-weight">
      <label htmlFor={id}>{name}</label>
      <output htmlFor={id} className="number">
        {shareInPercent(share)}
      </output>
      <div className="weight-track">
        <input
          id={id}
          type="range"
          min={0}
          max={100}
          step={1}
          value={100 * share}
          aria-valuetext={shareInPercent(share)}
          aria-describedby={`${id}-swap`}
          onChange={(event) => onMove(Number(event.target.value) / 100)}
        />
        {at === null ? null : (
          <svg className="swap-mark" width="100%" height="100%" aria-hidden="true">
            <line x1={`${at}%`} x2={`${at}%`} y1="0" y2="100%" />
          </svg>
        )}
      </div>
      <p id={`${id}-swap`} className="weight-swap">
        {swap === undefined ? '' : swapInWords(swap.swap, nameOf)}
      </p>
    </div>
  );
}

const firmness = [
  { concentration: null, words: 'exactly as set' },
  { concentration: 200, words: 'firmly' },
  { concentration: 60, words: 'fairly' },
  { concentration: 20, words: 'loosely' },
] as const;

/** How far a weight of 30 % varies (one standard deviation, points of percent) under a concentration. */
const reach = (concentration: number): string => (100 * Math.sqrt((0.3 * 0.7) / (concentration + 1))).toFixed(0);

/** Families' and traits' weights as sliders, what it takes of each to change who is first, and how firmly they are held. */
export function Weights({
  rubric,
  choice,
  rest,
  nameOf,
}: {
  readonly rubric: RubricBody;
  readonly choice: BoardChoice;
  readonly rest: BoardAnswer | null;
  readonly nameOf: (runnerId: string) => string;
}) {
  const id = useId();
  const shares = sharesNow(rubric, choice);
  const { concentration } = choice;
  const known = firmness.find((each) => each.concentration === concentration);
  return (
    <section className="weights" aria-label="Weights">
      <header className="figure-head">
        <h2>Weights</h2>
        <Button kind="quiet" disabled={weightsUntouched(choice)} onClick={() => choose({ families: {}, traits: {} })}>
          The rubric’s own
        </Button>
      </header>
      <label className="weight-firm" htmlFor={id}>
        <span className="muted">Held</span>
        <select
          id={id}
          value={String(concentration)}
          onChange={(event) =>
            choose({ concentration: event.target.value === 'null' ? null : Number(event.target.value) })
          }
        >
          {firmness.map((each) => (
            <option key={each.words} value={String(each.concentration)}>
              {each.words}
            </option>
          ))}
          {known === undefined ? <option value={String(concentration)}>concentration {concentration}</option> : null}
        </select>
      </label>
      <p className="muted weight-note">
        {concentration === null
          ? 'Every draw uses these weights; only the grades are uncertain.'
          : `Weights are drawn too (Dirichlet, concentration ${concentration}): one of 30 % varies by ${reach(concentration)} points either way.`}
      </p>
      {rubric.families.map((family) => (
        <div key={family.key} className="weight-family">
          <Slider
            name={family.name}
            share={shares[`family ${family.key}`] ?? 0}
            swap={rest?.families.find(({ key }) => key === family.key)}
            nameOf={nameOf}
            onMove={(next) => moveFamily(rubric, family.key, next)}
          />
          {family.traits.length < 2 ? null : (
            <details>
              <summary>Traits of {family.name.toLowerCase()}</summary>
              {family.traits.map((trait) => (
                <Slider
                  key={trait.key}
                  name={trait.name}
                  share={shares[`trait ${trait.key}`] ?? 0}
                  swap={rest?.traits.find(({ key }) => key === trait.key)}
                  nameOf={nameOf}
                  onMove={(next) => moveTrait(rubric, family.key, trait.key, next)}
                />
              ))}
            </details>
          )}
        </div>
      ))}
    </section>
  );
}
