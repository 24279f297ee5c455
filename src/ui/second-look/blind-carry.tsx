import { situationInWords } from '../../contract/play-in-words.ts';
import { secondLookSetting } from '../../contract/second-look-views.ts';
import { set } from '../../contract/changes.ts';
import { Button } from '../kit/button.tsx';
import { makeChange } from '../link/change.ts';
import { attempt, readDirectory, say, usePlace } from '../link/place.ts';
import { LookPicture } from './look-picture.tsx';
import { giveMark, givenInWords, leaveLook, showCarry, useLook } from './look-store.ts';
import { useLookKeys } from './use-look-keys.ts';

/** Closes the look: from here on its marks count for agreement, and its earlier marks may be seen. */
async function finish(): Promise<void> {
  const { look } = useLook.getState();
  const setting = usePlace.getState().directory?.settings.find(({ id }) => id === secondLookSetting(look?.id ?? ''));
  if (look === null || setting === undefined) return;
  const { value } = setting;
  if (typeof value !== 'object' || value === null || Array.isArray(value)) return;
  const done = await attempt(async () => {
    await makeChange('Finish a second look', [
      set('setting', setting.id, { value: { ...value, finishedAt: Date.now() } }),
    ]);
    await readDirectory();
    return true;
  });
  if (done !== true) return;
  leaveLook();
  say('The look is finished: its marks stand beside the first ones now.');
}

/** One carry after another, without anything that was judged of it before. */
export function BlindCarry() {
  const { look, at, carry, given, trait: waiting } = useLook();
  const rubric = usePlace((place) => place.directory?.rubricVersions.at(-1));
  useLookKeys();
  if (look === null || rubric === undefined) return null;
  const marked = new Set(given.map(({ partId }) => partId));
  const own = given.filter(({ partId }) => partId === look.parts[at]);
  const traits = rubric.body.families.flatMap((family) => family.traits);
  const asked = traits.find(({ key }) => key === waiting);
  const last = at === look.parts.length - 1;
  return (
    <div className="blind">
      <header className="room-head">
        <h1>Second look</h1>
        <p>
          Carry {at + 1} of {look.parts.length} <span className="muted">· {marked.size} marked so far</span>
        </p>
        <progress value={marked.size} max={look.parts.length} aria-label="Carries marked" />
        <span className="spring" />
        <Button kind="quiet" disabled={at === 0} onClick={() => void showCarry(at - 1)}>
          Last carry
        </Button>
        <Button kind={last ? 'quiet' : 'chosen'} disabled={last} onClick={() => void showCarry(at + 1)}>
          Next carry
        </Button>
        <Button kind={last && marked.size === look.parts.length ? 'chosen' : 'quiet'} onClick={() => void finish()}>
          Finish the look
        </Button>
        <Button kind="quiet" onClick={leaveLook}>
          Come back later
        </Button>
      </header>
      {carry === null ? (
        <p className="muted look-wait" role="status">
          Reading the carry…
        </p>
      ) : (
        <>
          <LookPicture />
          <div className="blind-words">
            <p className="blind-sentence">
              {carry.runner}: {situationInWords(carry.play)}
              {carry.play.hash === null ? '' : `, ${carry.play.hash} hash`}
              {carry.play.quarter === null ? '' : `, quarter ${carry.play.quarter}`}
              <span className="muted"> · {carry.game} · earlier marks and what came of it are kept away</span>
            </p>
            <div className="blind-marks">
              <ul className="blind-traits" aria-label="Traits to mark">
                {traits.map((trait) => {
                  const mark = own.find((each) => each.trait === trait.key);
                  return (
                    <li key={trait.key}>
                      <button
                        type="button"
                        aria-pressed={waiting === trait.key}
                        onClick={() => useLook.setState({ trait: waiting === trait.key ? null : trait.key })}
                      >
                        <kbd>{trait.letter}</kbd> <span>{trait.name}</span>
                        {mark === undefined ? (
                          <span className="muted">
                            –<span className="unseen">not yet looked</span>
                          </span>
                        ) : (
                          <span className={mark.state === 'shown' ? 'look-mark' : 'muted'}>{givenInWords(mark)}</span>
                        )}
                      </button>
                    </li>
                  );
                })}
              </ul>
              {asked === undefined ? (
                <p className="muted blind-hint">
                  A trait’s letter, then 1 to 5; <kbd>.</kbd> adds a half, <kbd>0</kbd> not shown, <kbd>-</kbd> can’t be
                  seen. <kbd>↓</kbd> goes on to the next carry.
                </p>
              ) : (
                <div className="blind-anchors" role="group" aria-label={`Mark ${asked.name}`}>
                  <ol>
                    {asked.anchors.map((anchor, index) => (
                      <li key={anchor}>
                        <button type="button" onClick={() => giveMark(asked.key, 'shown', index + 1)}>
                          <kbd>{index + 1}</kbd> {anchor}
                        </button>
                      </li>
                    ))}
                    <li className="row">
                      <button type="button" onClick={() => giveMark(asked.key, 'not shown', null)}>
                        <kbd>0</kbd> not shown
                      </button>
                      <button type="button" onClick={() => giveMark(asked.key, 'unseen', null)}>
                        <kbd>-</kbd> can’t be seen
                      </button>
                      <button type="button" onClick={() => giveMark(asked.key, null, null)}>
                        <kbd>⌫</kbd> not yet looked
                      </button>
                    </li>
                  </ol>
                </div>
              )}
            </div>
          </div>
        </>
      )}
    </div>
  );
}
