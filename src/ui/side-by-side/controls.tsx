import { momentNames } from '../../contract/words.ts';
import { Button } from '../kit/button.tsx';
import { speeds, turnMirror, useSides } from './side-store.ts';
import type { Lock } from './use-lock.ts';

/** What both pictures are locked on, and the clock they share. */
export function Controls({ lock, onStep }: { readonly lock: Lock; readonly onStep: (by: number) => void }) {
  const { instant, playing, speed, looping, mirrored } = useSides();
  const { moments, moment } = lock;
  const both = lock.first !== null && lock.second !== null;
  const at = `${instant < 0 ? '−' : '+'}${Math.abs(instant).toFixed(3)} s`;
  return (
    <div className="side-controls">
      <label className="row">
        <span className="muted">Locked on</span>
        <select
          value={moment ?? ''}
          disabled={moments.length === 0}
          onChange={(event) =>
            useSides.setState({
              moment: momentNames.find((name) => name === event.target.value) ?? null,
              instant: 0,
              playing: false,
            })
          }
        >
          {moments.length === 0 ? <option value="">{both ? 'the beginnings' : 'nothing'}</option> : null}
          {moments.map((name) => (
            <option key={name} value={name}>
              the {name}
            </option>
          ))}
        </select>
      </label>
      <Button onClick={() => onStep(-1)} aria-label="One frame back">
        ←
      </Button>
      <output className="side-clock" aria-label="Time from the moment">
        {at}
      </output>
      <Button onClick={() => onStep(1)} aria-label="One frame on">
        →
      </Button>
      <Button onClick={() => useSides.setState({ playing: !playing })}>{playing ? 'Stop' : 'Play both'}</Button>
      <label className="row">
        <span className="muted">Speed</span>
        <select value={speed} onChange={(event) => useSides.setState({ speed: Number(event.target.value) })}>
          {speeds.map((each) => (
            <option key={each} value={each}>
              {each}×
            </option>
          ))}
        </select>
      </label>
      <label className="row">
        <input
          type="checkbox"
          checked={looping}
          onChange={(event) => useSides.setState({ looping: event.target.checked })}
        />
        Loop
      </label>
      <span className="spring" />
      <Button kind="quiet" aria-pressed={mirrored.first} onClick={() => turnMirror('first')}>
        Mirror the left
      </Button>
      <Button kind="quiet" aria-pressed={mirrored.second} onClick={() => turnMirror('second')}>
        Mirror the right
      </Button>
    </div>
  );
}
