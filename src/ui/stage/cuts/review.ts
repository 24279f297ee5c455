import type { ChangeStep } from '../../../contract/changes.ts';
import type { Angle } from '../../../contract/words.ts';
import { newId } from '../../link/change.ts';
import { say, usePlace } from '../../link/place.ts';
import type { Span } from '../../../contract/rows.ts';
import { changeStage, useStage } from '../stage-store.ts';
import { type Cut, likely, moveEnd, spanBefore, stateOf, turnedKind } from './cut-list.ts';
import { noCuts, spansOnFilm, useCuts } from './cuts-store.ts';
import { newPlaySteps, spanStep } from './new-play.ts';

/** The next cut still open after one (with -1: before it); undefined when there is none. */
export function nextOpen(
  cuts: readonly Cut[],
  chosenId: string | null,
  by: 1 | -1,
  spans: readonly Span[],
): Cut | undefined {
  const at = cuts.findIndex(({ id }) => id === chosenId);
  const rest = by === 1 ? cuts.slice(at + 1) : cuts.slice(0, Math.max(0, at)).toReversed();
  return rest.find((cut) => stateOf(cut, spans) === 'open');
}

const chosenCut = (): Cut | null => {
  const { cuts, chosenId } = useCuts.getState();
  return cuts?.find(({ id }) => id === chosenId) ?? null;
};

const replace = (cut: Cut): void =>
  useCuts.setState(({ cuts }) => ({ cuts: cuts?.map((each) => (each.id === cut.id ? cut : each)) ?? null }));

const lastFrame = (): number => {
  const { filmId } = useCuts.getState();
  return (usePlace.getState().directory?.films.find(({ id }) => id === filmId)?.frames ?? 1) - 1;
};

/** Chooses a cut: its first (or last) frame is shown and the rail lies around it. */
export function chooseCut(id: string, end: 'in' | 'out' = 'in'): void {
  const { cuts, filmId } = useCuts.getState();
  const cut = cuts?.find((each) => each.id === id);
  if (cut === undefined) return;
  useCuts.setState({ chosenId: id, end });
  const around = Math.max(12, Math.round((cut.last - cut.first) * 0.25));
  useStage.setState({
    filmId,
    spanId: null,
    playing: false,
    frame: end === 'in' ? cut.first : cut.last,
    railView: [Math.max(0, cut.first - around), Math.min(lastFrame(), cut.last + around)],
  });
}

/** Goes to the next or last cut of the list. */
export function stepCut(by: 1 | -1): void {
  const { cuts, chosenId } = useCuts.getState();
  if (cuts === null) return;
  const next = cuts[cuts.findIndex(({ id }) => id === chosenId) + by];
  if (next !== undefined) chooseCut(next.id);
}

/** Works on the beginning or the end of the chosen cut, whose frame is shown. */
export function chooseEnd(end: 'in' | 'out'): void {
  const cut = chosenCut();
  if (cut !== null) chooseCut(cut.id, end);
}

/** Moves the end worked on by frames; the frame is shown. Nothing is written. */
export function moveCut(by: number): void {
  const cut = chosenCut();
  if (cut === null) return;
  if (stateOf(cut, spansOnFilm(useCuts.getState().filmId)) !== 'open') {
    say('Only what is still open is moved here; a span that stands is moved on the Stage.');
    return;
  }
  const { end } = useCuts.getState();
  const moved = moveEnd(cut, end, by, lastFrame());
  replace(moved);
  useStage.setState({ frame: end === 'in' ? moved.first : moved.last, playing: false });
}

/** Calls the chosen cut a play, a replay or a graphic. */
export function turnCut(): void {
  const cut = chosenCut();
  if (cut === null) return;
  const turned = turnedKind(cut);
  replace(turned);
  say(`Called a ${turned.kind}`);
}

/** The angle of a second view: the one that the film's first view is not. */
const otherAngle: Readonly<Record<Angle, Angle>> = {
  sideline: 'end zone',
  'end zone': 'sideline',
  broadcast: 'other',
  other: 'sideline',
};

/** The change that accepting a cut makes, with the name of its span; in words, why it can't be. */
function acceptance(cut: Cut): { steps: ChangeStep[]; spanId: string; label: string } | string {
  const { filmId, cuts, runnerId } = useCuts.getState();
  const { game, tables } = useStage.getState();
  const { directory } = usePlace.getState();
  const film = directory?.films.find(({ id }) => id === filmId);
  const times = film === undefined ? undefined : tables[film.id]?.times;
  if (game === null || film === undefined || times === undefined || cuts === null) return 'The film is not read yet.';
  const spans = spansOnFilm(filmId);
  const spanId = newId();
  const stretch = { inFrame: cut.first, outFrame: cut.last };
  const owner = spans.find(({ id }) => id === spanBefore(cut, cuts, spans));
  const frames = `frames ${cut.first} to ${cut.last}`;
  if (cut.kind === 'replay') {
    if (owner === undefined || owner.playId === null)
      return 'A replay goes with the play before it: accept that first.';
    const span = { ...stretch, spanId, playId: owner.playId, film, times, angle: film.angle } as const;
    return {
      steps: [spanStep({ ...span, kind: 'replay', timeScale: null })],
      spanId,
      label: `Attach a replay, ${frames}`,
    };
  }
  if (cut.view === 'second' && owner !== undefined && owner.playId !== null) {
    const span = { ...stretch, spanId, playId: owner.playId, film, times, angle: otherAngle[film.angle] } as const;
    return {
      steps: [spanStep({ ...span, kind: 'live', timeScale: 1 })],
      spanId,
      label: `Attach another angle, ${frames}`,
    };
  }
  const runner = directory?.runners.find(({ id }) => id === runnerId);
  const carry = runner === undefined ? null : { partId: newId(), runnerId: runner.id, teamId: runner.teamId };
  return {
    steps: newPlaySteps({ ...stretch, playId: newId(), spanId, game, film, times, carry }),
    spanId,
    label: `Cut a play, ${frames}`,
  };
}

/** Accepts a cut as one change; a graphic is dropped, since no play is in it. Resolves to whether it is done with. */
async function accept(cut: Cut): Promise<boolean> {
  if (cut.kind === 'graphic') {
    replace({ ...cut, dropped: true });
    return true;
  }
  const change = acceptance(cut);
  if (typeof change === 'string') {
    say(change);
    return false;
  }
  replace({ ...cut, spanId: change.spanId, dropped: false });
  const made = await changeStage(change.label, change.steps);
  if (!made) replace({ ...cut, spanId: null });
  return made;
}

/** Accepts the chosen cut and goes on to the next that is open. */
export function acceptChosen(): void {
  const cut = chosenCut();
  if (cut === null) return;
  const state = stateOf(cut, spansOnFilm(useCuts.getState().filmId));
  if (state === 'accepted' || state === 'cut before') {
    say('This stretch is cut already.');
    stepCut(1);
    return;
  }
  const going = accept(cut);
  goOn();
  void going;
}

/** Leaves the chosen cut out, or takes it back in. */
export function dropChosen(): void {
  const cut = chosenCut();
  if (cut === null) return;
  if (stateOf(cut, spansOnFilm(useCuts.getState().filmId)) === 'accepted') {
    say('Accepted already: Ctrl Z takes it back.');
    return;
  }
  replace({ ...cut, dropped: !cut.dropped });
  if (!cut.dropped) goOn();
}

function goOn(): void {
  const { cuts, chosenId, filmId } = useCuts.getState();
  const next = nextOpen(cuts ?? [], chosenId, 1, spansOnFilm(filmId));
  if (next !== undefined) chooseCut(next.id);
}

/** Accepts every open cut that is likely, in the film's order, each as a change of its own. */
export async function acceptLikely(): Promise<void> {
  const { cuts, filmId } = useCuts.getState();
  let accepted = 0;
  for (const { id, confidence } of cuts ?? []) {
    const cut = useCuts.getState().cuts?.find((each) => each.id === id);
    if (cut === undefined || confidence < likely || stateOf(cut, spansOnFilm(filmId)) !== 'open') continue;
    if (await accept(cut)) accepted += 1;
  }
  const left = useCuts.getState().cuts?.filter((cut) => stateOf(cut, spansOnFilm(filmId)) === 'open').length ?? 0;
  say(`${accepted} accepted, ${left} still open.`);
  goOn();
}

/** Leaves the review, or stops the look through the film. What was accepted stays. */
export function leaveCuts(): void {
  const { stop } = useCuts.getState();
  useCuts.setState(noCuts);
  stop?.abort();
  useStage.setState({ railView: null });
  say(stop === null ? 'Review left. What you accepted is kept.' : 'Stopped. Nothing was kept.');
}
