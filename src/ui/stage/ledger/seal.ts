import { set } from '../../../contract/changes.ts';
import { sealedGame } from '../../../contract/sealed-game.ts';
import { studySettings } from '../../../contract/study-settings.ts';
import { attempt, say, usePlace } from '../../link/place.ts';
import { decisionOf, laneValues } from '../lanes-of.ts';
import { ownMark } from '../marking.ts';
import { changeStage, chosenNow, chosenOf, readGame, useStage } from '../stage-store.ts';
import { decisionPlace, openLedger } from './ledger-actions.ts';
import { type LedgerTrait, proposal } from './proposal.ts';

/** The trait whose mark opens a seal: the one the ledger proposes, or the choice of crease where it can't value the lanes. */
export function sealTrait(): LedgerTrait {
  const { game } = useStage.getState();
  const { play, part } = chosenNow();
  const { evaluatorId, directory } = usePlace.getState();
  const found = game === null || part === null ? null : decisionOf(game, part.id, evaluatorId);
  if (play === null || found === null) return 'crease';
  const values = laneValues(play, found.lanes, studySettings(directory?.settings ?? []));
  const proposed = values.known ? proposal(values.value) : null;
  return proposed?.known === true ? proposed.value.trait : 'crease';
}

/** What is still wanted before the rest may be shown, in words; empty when nothing is. */
export function wanting(): string[] {
  const { game, seal } = useStage.getState();
  if (game === null || seal === null) return [];
  const { part } = chosenOf(game, seal.playId, seal.spanId);
  if (part === null) return [];
  const lanes = decisionOf(game, part.id, seal.evaluatorId)?.lanes ?? [];
  const names = { crease: 'Crease choice', risk: 'Risk taken' } as const;
  const trait = sealTrait();
  return [
    ...(lanes.length < 2 ? [lanes.length === 0 ? 'two lanes' : 'one more lane'] : []),
    ...(lanes.filter(({ taken }) => taken).length === 1 ? [] : ['which lane he took']),
    ...(ownMark(game.marks, part.id, trait, seal.evaluatorId) === null ? [`your mark of ${names[trait]}`] : []),
  ];
}

/** Seals what comes after the decision frame of the chosen carry; refuses, in words, where it is judged already. */
export async function sealRest(): Promise<void> {
  const { game, seal } = useStage.getState();
  const { gameId, evaluatorId } = usePlace.getState();
  const { play, part } = chosenNow();
  if (seal !== null) {
    await openSeal();
    return;
  }
  const place = decisionPlace();
  if (game === null || gameId === null || play === null || part === null || evaluatorId === null) {
    say('Choose a carry with film first.');
    return;
  }
  if (typeof place === 'string') {
    say(place);
    return;
  }
  if (decisionOf(game, part.id, evaluatorId) !== null) {
    say('Your lanes stand on this carry already: only a carry not yet judged can be sealed.');
    return;
  }
  if (['crease', 'risk'].some((trait) => ownMark(game.marks, part.id, trait, evaluatorId) !== null)) {
    say('You have marked the choice on this carry already: only a carry not yet judged can be sealed.');
    return;
  }
  const { time, ...at } = place;
  const next = { playId: play.id, evaluatorId, ...at };
  useStage.setState({
    seal: { ...next, time },
    game: sealedGame(game, next, time),
    spanId: at.spanId,
    frame: at.frame,
    playing: false,
    paired: false,
    history: false,
    together: [],
    trait: null,
  });
  await openLedger();
  say('Sealed: the rest of this play is shown once your lanes and mark are in.');
}

/** Opens the rest when nothing is wanting, and keeps that it was sealed; else says what is. */
export async function openSeal(): Promise<void> {
  const { game, seal } = useStage.getState();
  const { gameId } = usePlace.getState();
  if (game === null || seal === null || gameId === null) return;
  const left = wanting();
  if (left.length > 0) {
    say(`Still sealed: wanting ${left.join(', ')}.`);
    return;
  }
  const { part } = chosenOf(game, seal.playId, seal.spanId);
  const found = part === null ? null : decisionOf(game, part.id, seal.evaluatorId);
  if (found === null) return;
  const kept = await changeStage('Judged before the rest was shown', [
    set('decision', found.decision.id, { sealed: true }),
  ]);
  if (!kept) return;
  useStage.setState({ seal: null });
  await attempt(() => readGame(gameId));
}

/** Shows the rest without what was wanted; the decision is not kept as sealed. */
export function breakSeal(because: string): void {
  if (useStage.getState().seal === null) return;
  useStage.setState({ seal: null });
  say(`${because} What you entered stays, and is not counted as sealed.`);
  const { gameId } = usePlace.getState();
  if (gameId !== null) void attempt(() => readGame(gameId));
}

/** Holds the film at or before the sealed frame, and ends the seal when the person goes elsewhere. Gives how to stop. */
export function guardSeal(): () => void {
  const film = useStage.subscribe(({ seal, frame, spanId, filmId, game, history, paired }) => {
    if (seal === null) return;
    const own = game?.spans.find(({ id }) => id === seal.spanId)?.filmId;
    if (frame > seal.frame) {
      useStage.setState({ frame: seal.frame, playing: false });
      say(`Sealed at frame ${seal.frame}.`);
    }
    if (usePlace.getState().playId === seal.playId && spanId !== seal.spanId)
      useStage.setState({ spanId: seal.spanId });
    if (own !== undefined && filmId !== own) useStage.setState({ filmId: own });
    if (history || paired) {
      useStage.setState({ history: false, paired: false });
      say('Sealed: this would show the rest of the play.');
    }
  });
  const place = usePlace.subscribe(({ room, playId, evaluatorId, gameId }, before) => {
    const { seal } = useStage.getState();
    if (seal === null) return;
    if (room !== 'stage' || playId !== seal.playId || evaluatorId !== seal.evaluatorId || gameId !== before.gameId)
      breakSeal('The seal ended: you left the carry before your lanes and mark were in.');
  });
  return () => {
    film();
    place();
  };
}
