import { studySettings } from '../../../contract/study-settings.ts';
import type { Ledger as Valued } from '../../../core/lanes/ledger.ts';
import { Button } from '../../kit/button.tsx';
import { usePlace } from '../../link/place.ts';
import { decisionOf, laneValues } from '../lanes-of.ts';
import { markInWords, ownMark, rubricNow } from '../marking.ts';
import { chosenOf, showSpan, useStage } from '../stage-store.ts';
import { endDrawing, leaveDrawing } from './drawing.ts';
import { Holds } from './holds.tsx';
import { chanceInWords, plain, signed } from './lane-words.ts';
import { LaneRow } from './lane-row.tsx';
import { addLane, closeLedger, moveDecision } from './ledger-actions.ts';
import { lanesNow, useLedger } from './ledger-store.ts';
import { proposal } from './proposal.ts';
import { acceptProposal, ignoreProposal } from './proposal-keys.ts';
import { breakSeal, openSeal, sealRest, wanting } from './seal.ts';

/** The ledger beside the stopped decision frame: lanes and what each was worth, the value left, the mark it proposes. */
export function Ledger() {
  const { game, spanId, frame, seal } = useStage();
  const { playId, evaluatorId, directory } = usePlace();
  const { dragged, drawing } = useLedger();
  const { play, part } = chosenOf(game, playId, spanId);
  const found = game === null || part === null ? null : decisionOf(game, part.id, evaluatorId);
  const lanes = lanesNow(found?.lanes ?? [], dragged);
  const values = play === null ? null : laneValues(play, lanes, studySettings(directory?.settings ?? []));
  const away = found !== null && (found.decision.frame !== frame || found.decision.spanId !== spanId);
  return (
    <section className="ledger" aria-label="Ledger" tabIndex={-1}>
      <header>
        <h2>Lanes at frame {found === null ? '–' : found.decision.frame}</h2>
        {found?.decision.sealed === true ? <span className="ledger-badge">judged sealed</span> : null}
        <span className="spring" />
        {found === null ? null : (
          <button type="button" onClick={addLane}>
            Add a lane <kbd>N</kbd>
          </button>
        )}
        <button type="button" onClick={closeLedger}>
          Close <kbd>Esc</kbd>
        </button>
      </header>
      {seal === null ? null : <Sealed />}
      {drawing === null ? null : (
        <p className="ledger-drawing" role="status">
          Click corners on the film, or move the cross with the arrows and set one with <kbd>Enter</kbd>. A second{' '}
          <kbd>Enter</kbd> in place, or a double click, ends the path.{' '}
          <button type="button" onClick={endDrawing}>
            Keep it
          </button>{' '}
          <button type="button" onClick={leaveDrawing}>
            Leave it <kbd>Esc</kbd>
          </button>
        </p>
      )}
      {found === null ? (
        <p className="muted">You have no decision on this carry yet.</p>
      ) : away ? (
        <p className="ledger-away">
          <button type="button" onClick={() => showSpan(found.decision.spanId, found.decision.frame)}>
            Back to the decision frame
          </button>{' '}
          <button type="button" onClick={moveDecision}>
            Move the decision to frame {frame}
          </button>
        </p>
      ) : null}
      {lanes.length === 0 && found !== null ? (
        <p className="muted">Which ways were there for him at this frame? Add each lane he could have run.</p>
      ) : null}
      {lanes.length === 0 ? null : (
        <p className="ledger-columns muted" aria-hidden>
          <span>lane</span>
          <span>state</span>
          <span>low</span>
          <span>likely</span>
          <span>high</span>
          <span />
        </p>
      )}
      <ol className="ledger-lanes">
        {lanes.map((lane, index) => {
          const stored = found?.lanes[index];
          const line = values?.known === true ? values.value.lines[index] : undefined;
          return stored === undefined ? null : <LaneRow key={lane.id} lane={lane} stored={stored} line={line} />;
        })}
      </ol>
      {values === null || lanes.length === 0 ? null : values.known ? (
        <Left ledger={values.value} />
      ) : (
        <p className="ledger-refusal" role="status">
          No values: {values.detail}
        </p>
      )}
      {part === null ? null : <Holds part={part} />}
      {seal === null && found === null ? <Button onClick={() => void sealRest()}>Seal the rest</Button> : null}
      <p className="muted ledger-foot">
        In one run of ten he gains less than low, in one more than high. Worth is points of the next score less those of
        the snap. Keys: <kbd>↑</kbd> <kbd>↓</kbd> lane · <kbd>E</kbd> edit · <kbd>O</kbd> <kbd>C</kbd> <kbd>F</kbd>{' '}
        open, closing, filled · <kbd>T</kbd> taken
      </p>
    </section>
  );
}

function Left({ ledger }: { ledger: Valued }) {
  const { ignored } = useLedger();
  const { game, spanId } = useStage();
  const { playId, evaluatorId } = usePlace();
  const { part } = chosenOf(game, playId, spanId);
  const proposed = proposal(ledger);
  const decision = game === null || part === null ? null : decisionOf(game, part.id, evaluatorId)?.decision;
  if (!ledger.left.known) return <p className="ledger-refusal">{ledger.left.detail}</p>;
  const { points, standardError, byChance, beyondChance, margin, marginError, takenIsBest, takenIsSafer } =
    ledger.left.value;
  const taken = ledger.lines.find(({ lane }) => lane.taken);
  const trait = proposed.known ? proposed.value.trait : 'crease';
  const name =
    rubricNow()
      ?.body.families.flatMap((family) => family.traits)
      .find(({ key }) => key === trait)?.name ?? null;
  const own = game === null || part === null ? null : ownMark(game.marks, part.id, trait, evaluatorId);
  return (
    <>
      <p className="ledger-left">
        Left <strong>{plain(points, 2)}</strong>
        {takenIsBest ? ' points: the best lane was taken' : ` points ± ${standardError.toFixed(2)}`}; equal lanes would
        show {byChance.toFixed(2)} by chance, so beyond chance <strong>{signed(beyondChance)}</strong> ±{' '}
        {marginError.toFixed(2)}.
        <span className="muted">
          {' '}
          Taken less the best other: {signed(margin)} ± {marginError.toFixed(2)}
          {taken === undefined
            ? ''
            : `, ${takenIsSafer ? 'and safer' : 'not safer'} (loss ${chanceInWords(taken.chanceOfLoss)})`}
          .
        </span>
      </p>
      {!proposed.known || name === null ? null : own?.state === 'shown' && own.value === proposed.value.mark ? (
        <p className="ledger-proposal" role="status">
          {name}: {markInWords(own)}, as proposed.
        </p>
      ) : decision !== null && decision !== undefined && ignored.includes(decision.id) ? (
        <p className="ledger-proposal muted">
          Proposed {name} {proposed.value.mark}: put aside{own === null ? '' : `; you gave ${markInWords(own)}`}.
        </p>
      ) : (
        <p className="ledger-proposal">
          Proposed: <strong>{name}</strong> <span className="mark-value">{proposed.value.mark}</span>.{' '}
          {proposed.value.because}
          {own === null ? '' : ` You gave ${markInWords(own)}.`}{' '}
          <button type="button" onClick={acceptProposal}>
            Accept <kbd>A</kbd>
          </button>{' '}
          <button type="button" onClick={ignoreProposal}>
            Ignore <kbd>I</kbd>
          </button>
        </p>
      )}
    </>
  );
}

function Sealed() {
  // Read again with every change of the game: what is wanting follows from it.
  useStage((stage) => stage.game);
  const left = wanting();
  return (
    <div className="ledger-sealed" role="status">
      <p>
        <strong>Sealed.</strong>{' '}
        {left.length === 0 ? 'All is in.' : `The rest of this play is shown after: ${left.join(', ')}.`}
      </p>
      <p>
        <Button
          kind={left.length === 0 ? 'chosen' : 'plain'}
          disabled={left.length > 0}
          onClick={() => void openSeal()}
        >
          Show the rest
        </Button>{' '}
        <button type="button" onClick={() => breakSeal('The seal was given up.')}>
          Give up the seal
        </button>
      </p>
    </div>
  );
}
