import type { SideBySideView } from '../../contract/comparison-views.ts';
import { Controls } from './controls.tsx';
import { carryInWords } from './pairs.tsx';
import { Picture } from './picture.tsx';
import { useStep } from './side-keys.ts';
import { showCarries, useSides, type Which } from './side-store.ts';
import { frameOf, type Lock } from './use-lock.ts';

/** The two pictures and their clock: the only part that is drawn anew while they play. */
export function Films({ view, lock }: { readonly view: SideBySideView; readonly lock: Lock }) {
  const step = useStep(lock);
  const { instant, mirrored, carry } = useSides();
  const picture = (which: Which) => {
    const side = lock[which];
    const { runner, carries } = view[which];
    return (
      <div className="side-half">
        <select
          aria-label={`Carry of ${runner.name}`}
          value={carry[which] ?? ''}
          onChange={(event) => {
            const { carry: shown } = useSides.getState();
            const next = { ...shown, [which]: event.target.value };
            showCarries(next.first, next.second);
          }}
        >
          {carries.length === 0 ? <option value="">no carry logged</option> : null}
          {carries.map((each) => (
            <option key={each.partId} value={each.partId}>
              {carryInWords(each)}
            </option>
          ))}
        </select>
        <Picture
          which={which}
          side={side}
          frame={side === null ? 0 : frameOf(side, lock.moment, instant)}
          mirrored={mirrored[which]}
          missing={lock.missing[which]}
          name={runner.name}
        />
      </div>
    );
  };
  return (
    <>
      <section
        className={
          lock.missing.first !== null && lock.missing.second !== null ? 'side-films side-films-none' : 'side-films'
        }
        aria-label="The two carries"
      >
        {picture('first')}
        {picture('second')}
      </section>
      <Controls lock={lock} onStep={step} />
    </>
  );
}
