import { useState } from 'react';
import { add } from '../../contract/changes.ts';
import { secondLookSetting, type SecondLookState } from '../../contract/second-look-views.ts';
import { Button } from '../kit/button.tsx';
import { call } from '../link/call.ts';
import { makeChange, newId } from '../link/change.ts';
import { attempt, readDirectory, say, usePlace } from '../link/place.ts';
import { openLook, useLook } from './look-store.ts';

const dateOf = (at: number): string => new Date(at).toLocaleDateString('en', { dateStyle: 'medium' });

/** Draws a blind sample and keeps it in the study; resolves to its id, or undefined when none could be drawn. */
async function draw(whoseId: string, count: number): Promise<string | undefined> {
  const { evaluatorId } = usePlace.getState();
  if (evaluatorId === null) return undefined;
  return attempt(async () => {
    const seed = crypto.getRandomValues(new Uint32Array(1))[0] ?? 0;
    const drawn = await call('secondLook.draw', { evaluatorId, whoseId, count, seed });
    if (!drawn.known) {
      say(drawn.detail);
      return undefined;
    }
    const lookId = newId();
    const value = { evaluatorId, whoseId, seed, ...drawn.value, drawnAt: Date.now(), finishedAt: null };
    await makeChange(`Draw a second look of ${drawn.value.parts.length} carries`, [
      add('setting', { id: secondLookSetting(lookId), value }),
    ]);
    await readDirectory();
    return lookId;
  });
}

/** The looks that stand, and a new one drawn. */
export function DrawLook({
  state,
  read,
}: {
  readonly state: SecondLookState;
  readonly read: () => Promise<SecondLookState>;
}) {
  const evaluatorId = usePlace((place) => place.evaluatorId);
  const readOnly = usePlace((place) => place.directory?.study.readOnly === true);
  const [whose, setWhose] = useState<string | null>(null);
  const [count, setCount] = useState(10);
  const offer = state.offers.find((each) => each.evaluatorId === (whose ?? evaluatorId));
  const begin = async (): Promise<void> => {
    if (offer === undefined) return;
    useLook.setState({ opening: true });
    const lookId = await draw(offer.evaluatorId, count);
    await attempt(async () => {
      const look = lookId === undefined ? undefined : (await read()).looks.find(({ id }) => id === lookId);
      if (look !== undefined) await openLook(look);
    });
    useLook.setState({ opening: false });
  };
  return (
    <section className="look-draw" aria-label="Looks">
      <h2>Look again, blind</h2>
      <p className="muted">
        Carries marked at least {offer?.days ?? 14} days ago are drawn at random, whatever their marks were, and come
        back without them.
      </p>
      <form
        className="row"
        onSubmit={(event) => {
          event.preventDefault();
          void begin();
        }}
      >
        <label className="row">
          Carries of
          <select value={offer?.evaluatorId ?? ''} onChange={(event) => setWhose(event.target.value)}>
            {state.offers.map((each) => (
              <option key={each.evaluatorId} value={each.evaluatorId}>
                {each.evaluatorId === evaluatorId ? `${each.name} (my own)` : each.name}
              </option>
            ))}
          </select>
        </label>
        <label className="row">
          how many
          <input
            type="number"
            min={1}
            max={200}
            value={count}
            onChange={(event) => setCount(Math.min(200, Math.max(1, Math.trunc(Number(event.target.value)) || 1)))}
          />
        </label>
        <Button kind="chosen" type="submit" disabled={readOnly || offer === undefined || offer.old === 0}>
          Draw and begin
        </Button>
      </form>
      <p className="muted">
        {offer === undefined
          ? 'Nobody marks in this study yet.'
          : offer.marked === 0
            ? `${offer.name} has marked no carry on film that is free for a second look.`
            : `${offer.old} of ${offer.marked} carries are old enough${offer.old === 0 ? `: the marks must be ${offer.days} days old` : ''}.`}
      </p>
      {state.looks.length === 0 ? null : (
        <ul className="look-list" aria-label="Second looks drawn">
          {state.looks.toReversed().map((look) => (
            <li key={look.id}>
              <span>
                {dateOf(look.drawnAt)}, {look.parts.length} carries of {look.whose}
              </span>
              <span className="muted">
                {look.finishedAt === null
                  ? `${look.marked} marked`
                  : `finished ${dateOf(look.finishedAt)}, ${look.marked} marked`}
              </span>
              {look.finishedAt === null ? (
                <Button onClick={() => void attempt(() => openLook(look))}>Go on</Button>
              ) : null}
            </li>
          ))}
        </ul>
      )}
    </section>
  );
}
