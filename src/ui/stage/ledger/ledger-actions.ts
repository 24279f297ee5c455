import { add, remove, set, type ChangeStep } from '../../../contract/changes.ts';
import type { Lane } from '../../../contract/rows.ts';
import type { LaneState } from '../../../core/lanes/lane.ts';
import { newId } from '../../link/change.ts';
import { say, usePlace } from '../../link/place.ts';
import { decisionOf, type DecisionLanes } from '../lanes-of.ts';
import { changeStage, chosenNow, showSpan, useStage } from '../stage-store.ts';
import { useLedger } from './ledger-store.ts';
import { type LaneYards, withHandle, type YardHandle } from './yard-strip.ts';

/** This evaluator's decision on the chosen carry. */
export function decisionNow(): DecisionLanes | null {
  const { game } = useStage.getState();
  const { part } = chosenNow();
  if (game === null || part === null) return null;
  return decisionOf(game, part.id, usePlace.getState().evaluatorId);
}

/** The steps that put the decision moment of a span on a frame. */
function momentSteps(spanId: string, partId: string, frame: number, time: number): ChangeStep[] {
  const standing = useStage
    .getState()
    .game?.moments.find((moment) => moment.spanId === spanId && moment.name === 'decision');
  if (standing === undefined) return [add('moment', { id: newId(), spanId, partId, name: 'decision', frame, time })];
  return standing.frame === frame ? [] : [set('moment', standing.id, { frame, time })];
}

/** The frame a decision would be set on: the decision moment of the span shown, else the frame shown. In words, why not. */
export function decisionPlace(): { spanId: string; frame: number; time: number } | string {
  const { game, frame, filmId, tables } = useStage.getState();
  const { part, span } = chosenNow();
  if (game === null || part === null || span === null || span.filmId !== filmId)
    return 'Choose a carry with film first.';
  const moment = game.moments.find(({ spanId, name }) => spanId === span.id && name === 'decision');
  if (moment !== undefined) return { spanId: span.id, frame: moment.frame, time: moment.time };
  const time = tables[filmId]?.times[frame];
  if (time === undefined) return 'The film is not read yet.';
  if (frame < span.inFrame || frame > span.outFrame)
    return `Lanes stand on a frame of the play, ${span.inFrame} to ${span.outFrame}; this is ${frame}.`;
  return { spanId: span.id, frame, time };
}

function focusLedger(): void {
  requestAnimationFrame(() => document.querySelector<HTMLElement>('.ledger')?.focus());
}

/** Opens the ledger at this evaluator's decision on the chosen carry, or sets one at the frame shown. */
export async function openLedger(): Promise<void> {
  const { evaluatorId } = usePlace.getState();
  const { part } = chosenNow();
  const found = decisionNow();
  if (found !== null) {
    showSpan(found.decision.spanId, found.decision.frame);
    useLedger.setState({ open: true, laneId: found.lanes[0]?.id ?? null, drawing: null, dragged: null });
    focusLedger();
    return;
  }
  const place = decisionPlace();
  if (typeof place === 'string' || part === null || evaluatorId === null) {
    say(typeof place === 'string' ? place : 'Choose an evaluator first.');
    return;
  }
  const { spanId, frame, time } = place;
  useStage.setState({ frame, playing: false });
  useLedger.setState({ open: true, laneId: null, drawing: null, dragged: null });
  focusLedger();
  await changeStage(`Decision at frame ${frame}`, [
    add('decision', { id: newId(), partId: part.id, evaluatorId, spanId, frame, time }),
    ...momentSteps(spanId, part.id, frame, time),
  ]);
}

/** Puts the ledger away. */
export function closeLedger(): void {
  useLedger.setState({ open: false, drawing: null, dragged: null });
}

/** Moves the decision, and its moment, to the frame shown. */
export function moveDecision(): void {
  const { frame, filmId, tables, spanId } = useStage.getState();
  const found = decisionNow();
  const { part } = chosenNow();
  const time = filmId === null ? undefined : tables[filmId]?.times[frame];
  if (found === null || part === null || spanId === null || time === undefined) return;
  void changeStage(`Decision moved to frame ${frame}`, [
    set('decision', found.decision.id, { spanId, frame, time }),
    ...momentSteps(spanId, part.id, frame, time),
  ]);
}

/** What a new lane says until it is filled in: a short gain. */
const fresh = { state: 'open', low: 0, likely: 3, high: 8 } as const;

/** Adds a lane to the decision and puts the focus in its name. */
export function addLane(): void {
  const found = decisionNow();
  if (found === null) return;
  const id = newId();
  const position = (found.lanes.at(-1)?.position ?? 0) + 1;
  const name = `Lane ${found.lanes.length + 1}`;
  useLedger.setState({ laneId: id });
  void changeStage(`${name} added`, [add('lane', { id, decisionId: found.decision.id, position, name, ...fresh })]);
  requestAnimationFrame(() =>
    document.querySelector<HTMLInputElement>(`.ledger [data-lane="${id}"] input[name="lane name"]`)?.select(),
  );
}

/** The lane worked on; null when there is none. */
export function laneNow(): Lane | null {
  const { laneId } = useLedger.getState();
  return decisionNow()?.lanes.find(({ id }) => id === laneId) ?? null;
}

/** Chooses the next or last lane. */
export function turnLane(by: 1 | -1): void {
  const lanes = decisionNow()?.lanes ?? [];
  const here = lanes.findIndex(({ id }) => id === useLedger.getState().laneId);
  const next = lanes[here < 0 ? 0 : here + by];
  if (next === undefined) return;
  useLedger.setState({ laneId: next.id, drawing: null });
  document.querySelector(`.ledger [data-lane="${next.id}"]`)?.scrollIntoView({ block: 'nearest' });
}

/** Changes what is said of a lane. */
export function editLane(lane: Lane, change: Partial<Pick<Lane, 'name' | 'state' | 'path'>>, label: string): void {
  void changeStage(label, [set('lane', lane.id, change)]);
}

export function setState(lane: Lane, state: LaneState): void {
  if (lane.state !== state) editLane(lane, { state }, `${lane.name}: ${state}`);
}

/** Keeps a lane's yards; one change, and none when they stand so already. */
export function keepYards(lane: Lane, { low, likely, high }: LaneYards): void {
  const change = {
    ...(lane.low === low ? {} : { low }),
    ...(lane.likely === likely ? {} : { likely }),
    ...(lane.high === high ? {} : { high }),
  };
  if (Object.keys(change).length === 0) return;
  void changeStage(`${lane.name}: ${low} · ${likely} · ${high}`, [set('lane', lane.id, change)]);
}

/** Moves one handle of a lane; the others give way. */
export const moveHandle = (lane: Lane, handle: YardHandle, to: number): void =>
  keepYards(lane, withHandle(lane, handle, to));

/** Says which lane was taken; the one that was is not any more. On the lane taken: none was. */
export function takeLane(lane: Lane): void {
  const others = decisionNow()?.lanes.filter(({ id, taken }) => taken && id !== lane.id) ?? [];
  void changeStage(lane.taken ? `${lane.name} not taken` : `${lane.name} taken`, [
    ...others.map(({ id }) => set('lane', id, { taken: false })),
    set('lane', lane.id, { taken: !lane.taken }),
  ]);
}

/** Removes a lane and chooses its neighbour. */
export function removeLane(lane: Lane): void {
  const lanes = decisionNow()?.lanes ?? [];
  const at = lanes.findIndex(({ id }) => id === lane.id);
  useLedger.setState({ laneId: (lanes[at + 1] ?? lanes[at - 1])?.id ?? null, drawing: null });
  void changeStage(`${lane.name} removed`, [remove('lane', lane.id)]);
}
