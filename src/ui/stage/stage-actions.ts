import { remove, type ChangeStep } from '../../contract/changes.ts';
import type { Action } from '../kit/actions.ts';
import { go, say, usePlace } from '../link/place.ts';
import { alignedFrame } from './align.ts';
import { turnChalk } from './chalk/move-chalk.ts';
import { proposeHere } from './cuts/propose.ts';
import { attachSpan, markIn, markOut, turnClearness, turnFlag } from './cutting.ts';
import { playFilter } from './filter.ts';
import { openLedger } from './ledger/ledger-actions.ts';
import { sealRest } from './ledger/seal.ts';
import { momentKeys, nextMoment, tagMoment, tagStep } from './moments.ts';
import { zoomedView, type RailView } from './rail-view.ts';
import { reelOfPlays } from './reel-of-plays.ts';
import { changeStage, chosenNow, showPlay, showSpan, spansOf, useStage } from './stage-store.ts';

/** Moves by frames inside the film shown, stopping the player. */
function step(by: number): void {
  const { frame, filmId } = useStage.getState();
  const film = usePlace.getState().directory?.films.find(({ id }) => id === filmId);
  if (film === undefined) return;
  useStage.setState({ frame: Math.min(film.frames - 1, Math.max(0, frame + by)), playing: false });
}

/** Moves to the next or last play that fits the filter. */
function stepPlay(by: 1 | -1): void {
  const { game, filter } = useStage.getState();
  if (game === null) return;
  const fits = playFilter(filter);
  const plays = game.plays.filter((play) => fits(play, game.parts.find((part) => part.playId === play.id) ?? null));
  const here = plays.findIndex(({ id }) => id === usePlace.getState().playId);
  const next = plays[here < 0 ? 0 : here + by];
  if (next !== undefined) showPlay(next.id);
}

const speeds = [0.1, 0.25, 0.5, 1, 2, 4] as const;

function turnSpeed(by: 1 | -1): void {
  const { speed } = useStage.getState();
  const next = speeds[speeds.findIndex((each) => each === Math.abs(speed)) + by];
  if (next === undefined) return;
  useStage.setState({ speed: speed < 0 ? -next : next });
  say(`Speed ${next}`);
}

/** Shuttle as editors know it: L on, J back, each press again doubles the speed up to four; K stops. */
function shuttle(way: 1 | -1): void {
  const { playing, speed } = useStage.getState();
  const same = playing && Math.sign(speed) === way;
  const next = way * (same ? Math.min(4, Math.abs(speed) * 2) : 1);
  useStage.setState({ playing: true, speed: next });
  say(`${way === 1 ? 'On' : 'Back'} at ${Math.abs(next)}`);
}

/** Adds the next play that fits, in the way of travel, to the plays chosen together. */
function extend(by: 1 | -1): void {
  const { game, together } = useStage.getState();
  const { playId } = usePlace.getState();
  if (game === null || playId === null) return;
  const next = game.plays[game.plays.findIndex(({ id }) => id === playId) + by];
  if (next === undefined) return;
  const all = new Set([...together, playId, next.id]);
  showPlay(next.id);
  useStage.setState({ together: [...all] });
  say(`${all.size} plays chosen together`);
}

function turnSpan(): void {
  const { game, spanId } = useStage.getState();
  const { playId } = usePlace.getState();
  if (game === null || playId === null) return;
  const spans = spansOf(game, playId);
  const next = spans[(spans.findIndex(({ id }) => id === spanId) + 1) % Math.max(1, spans.length)];
  if (next === undefined || next.id === spanId) return;
  const { frame, tables } = useStage.getState();
  showSpan(next.id, spanId === null ? undefined : alignedFrame(game, tables, spanId, next.id, frame));
}

function zoomRail(factor: number): void {
  const { railView, frame, filmId } = useStage.getState();
  const { span } = chosenNow();
  const film = usePlace.getState().directory?.films.find(({ id }) => id === filmId);
  if (film === undefined) return;
  const home: RailView = span === null || span.filmId !== filmId ? [0, film.frames - 1] : [span.inFrame, span.outFrame];
  useStage.setState({ railView: zoomedView(railView ?? home, factor, frame, film.frames - 1) });
}

function removePlay(): void {
  const { play } = chosenNow();
  if (play === null) return;
  const steps: ChangeStep[] = [remove('play', play.id)];
  stepPlay(1);
  if (usePlace.getState().playId === play.id) go({ playId: null });
  void changeStage('Remove a play', steps);
}

const ask = (want: 'film' | 'game' | 'film plays'): void =>
  void window.dispatchEvent(new CustomEvent('stage-add', { detail: want }));

/** Everything a hand can do on the Stage, in one table: the palette, the key list and the keys come from it. */
export const stageActions: readonly Action[] = [
  { name: 'One frame back', group: 'Film', keys: ['ArrowLeft'], quiet: true, run: () => step(-1) },
  { name: 'One frame on', group: 'Film', keys: ['ArrowRight'], quiet: true, run: () => step(1) },
  { name: 'Ten frames back', group: 'Film', keys: ['Shift+ArrowLeft'], quiet: true, run: () => step(-10) },
  { name: 'Ten frames on', group: 'Film', keys: ['Shift+ArrowRight'], quiet: true, run: () => step(10) },
  {
    name: 'Play or stop',
    group: 'Film',
    keys: ['Space'],
    run: () => useStage.setState(({ playing }) => ({ playing: !playing })),
  },
  { name: 'Shuttle on', group: 'Film', keys: ['l'], run: () => shuttle(1) },
  { name: 'Shuttle back', group: 'Film', keys: ['j'], run: () => shuttle(-1) },
  { name: 'Stop', group: 'Film', keys: ['k'], run: () => useStage.setState({ playing: false, speed: 1 }) },
  {
    name: 'Loop this span, or not',
    group: 'Film',
    keys: ["'"],
    run: () => useStage.setState(({ looping }) => ({ looping: !looping })),
  },
  {
    name: 'Show two angles, or one',
    group: 'Film',
    keys: ['h'],
    run: () => useStage.setState(({ paired }) => ({ paired: !paired })),
  },
  { name: 'Slower', group: 'Film', keys: ['['], run: () => turnSpeed(-1) },
  { name: 'Faster', group: 'Film', keys: [']'], run: () => turnSpeed(1) },
  { name: 'Last moment or step', group: 'Film', keys: [','], run: () => nextMoment(-1) },
  { name: 'Next moment or step', group: 'Film', keys: [';', '<'], run: () => nextMoment(1) },
  { name: 'Rail: closer', group: 'Film', keys: ['=', 'Shift+Equal'], run: () => zoomRail(0.7) },
  { name: 'Rail: wider', group: 'Film', keys: ['-'], run: () => zoomRail(1.4) },
  { name: 'Next angle or replay', group: 'Film', keys: ['g'], run: turnSpan },
  { name: 'Add a film', group: 'Film', run: () => ask('film') },
  {
    name: 'Propose cuts in this film',
    group: 'Film',
    keys: ['Shift+p', 'Shift+P'],
    run: () => void proposeHere(),
  },
  { name: 'Make a reel of the plays chosen', group: 'Plays', keys: ['Shift+r', 'Shift+R'], run: reelOfPlays },
  { name: 'Each film is one play', group: 'Film', run: () => ask('film plays') },
  { name: 'Next play', group: 'Plays', keys: ['ArrowDown'], run: () => stepPlay(1) },
  { name: 'Last play', group: 'Plays', keys: ['ArrowUp'], run: () => stepPlay(-1) },
  { name: 'Choose the next play too', group: 'Plays', keys: ['Shift+ArrowDown'], quiet: true, run: () => extend(1) },
  { name: 'Choose the last play too', group: 'Plays', keys: ['Shift+ArrowUp'], quiet: true, run: () => extend(-1) },
  {
    name: 'Choose one play again',
    group: 'Plays',
    keys: ['Escape'],
    quiet: true,
    run: () => useStage.setState({ together: [] }),
  },
  {
    name: 'History of this carry',
    group: 'Plays',
    keys: ['Shift+h', 'Shift+H'],
    run: () => useStage.setState({ history: true }),
  },
  { name: 'A play begins at this frame', group: 'Plays', keys: ['i'], run: markIn },
  { name: 'The play ends at this frame', group: 'Plays', keys: ['o'], run: markOut },
  {
    name: 'Attach to this play as another angle',
    group: 'Plays',
    keys: ['Shift+o', 'Shift+O'],
    run: () => attachSpan('live'),
  },
  { name: 'Attach to this play as a replay', group: 'Plays', keys: ['Alt+o'], run: () => attachSpan('replay') },
  {
    name: 'Fill the sentence',
    group: 'Plays',
    keys: ['Enter', 'e'],
    run: () => useStage.setState({ focusBlank: 'first empty' }),
  },
  {
    name: 'Show every blank, or fewer',
    group: 'Plays',
    keys: ['q'],
    run: () => useStage.setState(({ unfolded }) => ({ unfolded: !unfolded })),
  },
  { name: 'Lanes at this frame', group: 'Plays', keys: ['Shift+l', 'Shift+L'], run: () => void openLedger() },
  {
    name: 'Seal the rest until lanes are in',
    group: 'Plays',
    keys: ['Shift+k', 'Shift+K'],
    run: () => void sealRest(),
  },
  { name: 'Chalk on the film', group: 'Film', keys: ['Shift+c', 'Shift+C'], run: turnChalk },
  { name: 'Come back to this carry', group: 'Plays', keys: ['w'], run: turnFlag },
  { name: 'How clear this view is', group: 'Plays', keys: ['v'], run: turnClearness },
  {
    name: 'Fold or unfold the field strip',
    group: 'Plays',
    keys: ['m'],
    run: () => useStage.setState(({ stripFolded }) => ({ stripFolded: !stripFolded })),
  },
  {
    name: 'Filter the plays',
    group: 'Plays',
    keys: ['/'],
    run: () => document.querySelector<HTMLInputElement>('.head-filter')?.focus(),
  },
  { name: 'Remove this play', group: 'Plays', keys: ['Shift+Delete'], run: removePlay },
  { name: 'Add a game', group: 'Plays', run: () => ask('game') },
  ...momentKeys.map(({ name, digit }): Action => ({
    name: `Tag ${name}`,
    group: 'Moments',
    keys: [digit],
    run: () => tagMoment(name),
  })),
  { name: 'Left foot down', group: 'Moments', keys: ['z'], run: () => tagStep('left') },
  { name: 'Right foot down', group: 'Moments', keys: ['x'], run: () => tagStep('right') },
];
