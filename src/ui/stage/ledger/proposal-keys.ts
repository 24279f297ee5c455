import { studySettings } from '../../../contract/study-settings.ts';
import { say, usePlace } from '../../link/place.ts';
import { laneValues } from '../lanes-of.ts';
import { giveMark, rubricNow } from '../marking.ts';
import { chosenNow, useStage } from '../stage-store.ts';
import { decisionNow } from './ledger-actions.ts';
import { useLedger } from './ledger-store.ts';
import { proposal } from './proposal.ts';
import { openSeal, wanting } from './seal.ts';

/** Gives the mark the ledger proposes, at the decision frame; where that was the last thing wanted, a seal opens. */
export function acceptProposal(): void {
  const found = decisionNow();
  const { play } = chosenNow();
  if (found === null || play === null) return;
  const values = laneValues(play, found.lanes, studySettings(usePlace.getState().directory?.settings ?? []));
  const proposed = values.known ? proposal(values.value) : values;
  if (!proposed.known) {
    say(proposed.detail);
    return;
  }
  const { trait, mark } = proposed.value;
  if (rubricNow()?.body.families.every(({ traits }) => traits.every(({ key }) => key !== trait)) ?? true) {
    say('This rubric does not have the trait the mark is proposed for.');
    return;
  }
  useStage.setState({ spanId: found.decision.spanId, frame: found.decision.frame, playing: false });
  giveMark(trait, 'shown', mark);
  if (useStage.getState().seal !== null && wanting().length === 0) void openSeal();
}

/** Puts the proposal aside; nothing is marked. */
export function ignoreProposal(): void {
  const found = decisionNow();
  if (found === null) return;
  useLedger.setState(({ ignored }) => ({ ignored: [...new Set([...ignored, found.decision.id])] }));
  say('The proposed mark is put aside: mark it as you see it.');
}
