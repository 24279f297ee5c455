import { create } from 'zustand';
import { add, remove, set, type ChangeStep } from '../../contract/changes.ts';
import type { BlindCarry, GivenMark, SecondLookProgress } from '../../contract/second-look-views.ts';
import type { MarkState } from '../../contract/words.ts';
import type { FrameTable } from '../../film/table/frame-table.ts';
import { call } from '../link/call.ts';
import { makeChange, newId } from '../link/change.ts';
import { attempt, say, usePlace } from '../link/place.ts';
import { tableOf } from './look-films.ts';

/** The look being marked. Nothing here ever holds a mark of another look. */
type LookState = {
  look: SecondLookProgress | null;
  /** True while a look is drawn: what agrees is not asked for again then, since the look hides it. */
  opening: boolean;
  at: number;
  carry: BlindCarry | null;
  given: readonly GivenMark[];
  spanId: string | null;
  table: FrameTable | null;
  frame: number;
  playing: boolean;
  /** Trait whose figure is awaited. */
  trait: string | null;
};

const empty: LookState = {
  look: null,
  opening: false,
  at: 0,
  carry: null,
  given: [],
  spanId: null,
  table: null,
  frame: 0,
  playing: false,
  trait: null,
};

export const useLook = create<LookState>(() => empty);

/** A mark as it is read: 4, 4½, "not shown", "unseen". */
export function givenInWords({ state, value }: Pick<GivenMark, 'state' | 'value'>): string {
  if (state !== 'shown' || value === null) return state;
  return `${Math.floor(value)}${value % 1 === 0 ? '' : '½'}`;
}

/** Opens a look at the first of its carries that has no mark yet. */
export async function openLook(look: SecondLookProgress): Promise<void> {
  const { evaluatorId } = usePlace.getState();
  if (evaluatorId === null) return;
  const given = await call('secondLook.given', { lookId: look.id, evaluatorId });
  const marked = new Set(given.map(({ partId }) => partId));
  const next = look.parts.findIndex((partId) => !marked.has(partId));
  useLook.setState({ ...empty, look, given });
  await showCarry(next < 0 ? 0 : next);
}

/** Leaves the look; it is found again as it stands. */
export function leaveLook(): void {
  useLook.setState(empty);
}

/** Shows a carry of the look by its place in it; nothing beyond its ends. */
export async function showCarry(at: number): Promise<void> {
  const { look } = useLook.getState();
  const partId = look?.parts[at];
  if (look === null || partId === undefined) return;
  useLook.setState({ at, carry: null, spanId: null, table: null, playing: false, trait: null });
  await attempt(async () => {
    const carry = await call('secondLook.carry', { partId });
    const here = useLook.getState();
    if (here.look?.id !== look.id || here.at !== at) return;
    useLook.setState({ carry });
    const [span] = carry.spans;
    if (span !== undefined) await showSpan(span.id);
  });
}

/** Shows one angle or replay of the carry, at its snap or its beginning. */
export async function showSpan(spanId: string): Promise<void> {
  const { carry } = useLook.getState();
  const span = carry?.spans.find(({ id }) => id === spanId);
  if (carry === null || span === undefined) return;
  const snap = carry.moments.find((moment) => moment.spanId === spanId && moment.name === 'snap');
  useLook.setState({ spanId, frame: snap?.frame ?? span.inFrame, table: null, playing: false });
  const table = await tableOf(span.filmId).catch(() => null);
  if (useLook.getState().spanId === spanId) useLook.setState({ table });
}

/** The span shown; null while there is none. */
export const spanNow = (): BlindCarry['spans'][number] | null => {
  const { carry, spanId } = useLook.getState();
  return carry?.spans.find(({ id }) => id === spanId) ?? null;
};

/** Gives, changes or (state null) takes away this look's mark of a trait on the carry shown. */
export function giveMark(trait: string, state: MarkState | null, value: number | null): void {
  const { look, carry, given, frame, table } = useLook.getState();
  const { evaluatorId, directory } = usePlace.getState();
  const rubric = directory?.rubricVersions.at(-1);
  if (look === null || evaluatorId === null || rubric === undefined) return;
  if (carry === null) {
    say('The carry is still being read: nothing was marked.');
    return;
  }
  const name = rubric.body.families.flatMap(({ traits }) => traits).find(({ key }) => key === trait)?.name ?? trait;
  const before = given.find((mark) => mark.partId === carry.part.id && mark.trait === trait);
  const others = given.filter((mark) => mark !== before);
  if (state === null) {
    if (before !== undefined) void keep(`Second look, ${name}: not looked at`, [remove('mark', before.id)], others);
    return;
  }
  const mark = { id: before?.id ?? newId(), partId: carry.part.id, trait, state, value };
  const span = spanNow();
  const time = table?.times[frame];
  const inside = span !== null && time !== undefined && frame >= span.inFrame && frame <= span.outFrame;
  const step =
    before === undefined
      ? add('mark', {
          ...mark,
          evaluatorId,
          rubricVersionId: rubric.id,
          lookId: look.id,
          clearness: span?.clearness ?? 'clear',
          spanId: inside ? span.id : null,
          frame: inside ? frame : null,
          time: inside ? time : null,
          markedAt: Date.now(),
        })
      : set('mark', before.id, { state, value, rubricVersionId: rubric.id, markedAt: Date.now() });
  void keep(`Second look, ${name}: ${givenInWords(mark)}`, [step], [...others, mark]);
}

/** Shows the marks at once; when the study refuses, reads again what it holds. */
async function keep(label: string, steps: readonly ChangeStep[], given: readonly GivenMark[]): Promise<void> {
  useLook.setState({ given });
  const done = await attempt(async () => {
    await makeChange(label, steps);
    return true;
  });
  if (done === true) say(label);
  else await readGiven();
}

/** Reads this look's own marks again: after an undo, or a change refused. */
export async function readGiven(): Promise<void> {
  const { look } = useLook.getState();
  const { evaluatorId } = usePlace.getState();
  if (look === null || evaluatorId === null) return;
  const given = await attempt(() => call('secondLook.given', { lookId: look.id, evaluatorId }));
  if (given !== undefined && useLook.getState().look?.id === look.id) useLook.setState({ given });
}

/** Adds a half to this look's mark of a trait, where two anchors allow it. */
export function addHalf(trait: string): void {
  const { given, carry } = useLook.getState();
  const value = given.find((mark) => mark.partId === carry?.part.id && mark.trait === trait)?.value ?? null;
  if (value !== null && value % 1 === 0 && value < 5) giveMark(trait, 'shown', value + 0.5);
}
