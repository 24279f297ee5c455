import { remove, type ChangeStep } from '../../contract/changes.ts';
import type { Action } from '../kit/actions.ts';
import { go, say, usePlace } from '../link/place.ts';
import { attachSpan, markIn, markOut, turnClearness, turnFlag } from './cutting.ts';
import { playFilter } from './filter.ts';
import { momentKeys, nextMoment, tagMoment, tagStep } from './moments.ts';
import { changeStage, chosenNow, showPlay, showSpan, spansOf, useStage, type Speed } from './stage-store.ts';

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

const speeds: readonly Speed[] = [0.1, 0.25, 0.5, 1, 2, 4];

function turnSpeed(by: 1 | -1): void {
  const { speed } = useStage.getState();
  const next = speeds[speeds.indexOf(speed) + by];
  if (next === undefined) return;
  useStage.setState({ speed: next });
  say(`Speed ${next}`);
}

function turnSpan(): void {
  const { game, spanId } = useStage.getState();
  const { playId } = usePlace.getState();
  if (game === null || playId === null) return;
  const spans = spansOf(game, playId);
  const next = spans[(spans.findIndex(({ id }) => id === spanId) + 1) % Math.max(1, spans.length)];
  if (next === undefined || next.id === spanId) return;
  showSpan(next.id, alignedFrame(spanId, next.id));
}

/** The frame of another span that shows the same moment as the frame shown: by the nearest moment tagged in both. */
function alignedFrame(fromSpan: string | null, toSpan: string): number | undefined {
  const { game, frame, tables } = useStage.getState();
  const from = game?.spans.find(({ id }) => id === fromSpan);
  const to = game?.spans.find(({ id }) => id === toSpan);
  if (game === null || from === undefined || to === undefined) return undefined;
  const there = new Map(game.moments.filter(({ spanId }) => spanId === toSpan).map((moment) => [moment.name, moment]));
  const [nearest] = game.moments
    .filter((moment) => moment.spanId === fromSpan && there.has(moment.name))
    .toSorted((a, b) => Math.abs(a.frame - frame) - Math.abs(b.frame - frame));
  const twin = nearest === undefined ? undefined : there.get(nearest.name);
  const here = tables[from.filmId]?.times;
  const times = tables[to.filmId]?.times;
  if (nearest === undefined || twin === undefined) return undefined;
  if (nearest.frame === frame || here === undefined || times === undefined) return twin.frame;
  const passed = ((here[frame] ?? nearest.time) - nearest.time) / (from.timeScale ?? 1);
  const wanted = twin.time + passed * (to.timeScale ?? 1);
  let best = twin.frame;
  for (let index = to.inFrame; index <= to.outFrame; index += 1) {
    if (Math.abs((times[index] ?? 0) - wanted) < Math.abs((times[best] ?? 0) - wanted)) best = index;
  }
  return best;
}

function removePlay(): void {
  const { play } = chosenNow();
  if (play === null) return;
  const steps: ChangeStep[] = [remove('play', play.id)];
  stepPlay(1);
  if (usePlace.getState().playId === play.id) go({ playId: null });
  void changeStage('Remove a play', steps);
}

const ask = (want: 'film' | 'game'): void => void window.dispatchEvent(new CustomEvent('stage-add', { detail: want }));

/** Everything a hand can do on the Stage, in one table: the palette, the key list and the keys come from it. */
export const stageActions: readonly Action[] = [
  { name: 'One frame back', group: 'Film', keys: ['ArrowLeft'], quiet: true, run: () => step(-1) },
  { name: 'One frame on', group: 'Film', keys: ['ArrowRight'], quiet: true, run: () => step(1) },
  { name: 'Ten frames back', group: 'Film', keys: ['Shift+ArrowLeft'], quiet: true, run: () => step(-10) },
  { name: 'Ten frames on', group: 'Film', keys: ['Shift+ArrowRight'], quiet: true, run: () => step(10) },
  {
    name: 'Play or stop',
    group: 'Film',
    keys: ['Space', 'k'],
    run: () => useStage.setState(({ playing }) => ({ playing: !playing })),
  },
  { name: 'Play', group: 'Film', keys: ['l'], quiet: true, run: () => useStage.setState({ playing: true }) },
  { name: 'Slower', group: 'Film', keys: ['['], run: () => turnSpeed(-1) },
  { name: 'Faster', group: 'Film', keys: [']'], run: () => turnSpeed(1) },
  { name: 'Last moment or step', group: 'Film', keys: [','], run: () => nextMoment(-1) },
  { name: 'Next moment or step', group: 'Film', keys: [';', '<'], run: () => nextMoment(1) },
  { name: 'Next angle or replay', group: 'Film', keys: ['g'], run: turnSpan },
  { name: 'Add a film', group: 'Film', run: () => ask('film') },
  { name: 'Next play', group: 'Plays', keys: ['ArrowDown'], run: () => stepPlay(1) },
  { name: 'Last play', group: 'Plays', keys: ['ArrowUp'], run: () => stepPlay(-1) },
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
  { name: 'Come back to this carry', group: 'Plays', keys: ['w'], run: turnFlag },
  { name: 'How clear this view is', group: 'Plays', keys: ['v'], run: turnClearness },
  {
    name: 'Fold or unfold the field strip',
    group: 'Plays',
    keys: ['x'],
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
  { name: 'Left foot down', group: 'Moments', keys: ['h'], run: () => tagStep('left') },
  { name: 'Right foot down', group: 'Moments', keys: ['j'], run: () => tagStep('right') },
];
