import { changedShare, chromaWeight, distance, leftByPanning } from './distance.ts';
import { blockCount, chromaCount, signatureLength, type Signatures } from './signature.ts';
import { transitionClass, type Transition } from './transition.ts';

const mixLength = blockCount + chromaCount;
/** Least distance of the two shots a gradual change joins. */
const leastChange = 0.07;
/** Most that the frames between may differ from a mixture of both ends, as a share of the ends' difference. */
const mostOff = 1.1;
/** The least change, lessened by how badly it mixes, that is proposed. */
const leastQuality = 0.02;
/** The same for changes of a few frames, which movement resembles more. */
const leastShortQuality = 0.12;
/** How much more the picture must change in the window than in as many frames before and after it. */
const overElsewhere = 1.1;
/** The least share of the change that no sideways move of the camera may explain. */
const leastLeft = 0.5;
/** The least share of the picture that must change, and how much faster it must change than around the window. */
const leastShare = 0.5;
const leastQuickening = 1.35;
/** The least share of the change that must last, on average over half a second each side. */
const leastLasting = 0.1;
/** A single step that makes up more than this share of the change is a cut. */
const mostInOneStep = 0.55;
/** A share of the way, from both ends, that counts as not yet begun or already over. */
const edge = 0.06;
/** Seconds a gradual change takes, short to long: the windows that are tried. */
const windows = [0.12, 0.25, 0.5, 1, 2] as const;

/** How far along the way from picture A to picture B a frame is, and how far off that way, both as shares of |B - A|. */
type OnTheWay = { readonly along: number; readonly off: number };

function onTheWay({ rows }: Signatures, a: number, b: number, frame: number): OnTheWay {
  const [startA, startB, start] = [a * signatureLength, b * signatureLength, frame * signatureLength];
  let length = 0;
  let product = 0;
  let square = 0;
  for (let at = 0; at < mixLength; at += 1) {
    const way = (rows[startB + at] ?? 0) - (rows[startA + at] ?? 0);
    const gone = (rows[start + at] ?? 0) - (rows[startA + at] ?? 0);
    length += way * way;
    product += way * gone;
    square += gone * gone;
  }
  if (length === 0) return { along: 0, off: 0 };
  const along = product / length;
  return { along, off: Math.sqrt(Math.max(0, square - along * product) / length) };
}

/** True when a frame is nearly one plain tone, as between fading out and in. */
export function isPlain({ rows }: Signatures, frame: number): boolean {
  let least = 255;
  let most = 0;
  for (let at = 0; at < blockCount; at += 1) {
    const value = rows[frame * signatureLength + at] ?? 0;
    least = Math.min(least, value);
    most = Math.max(most, value);
  }
  return most - least < 8;
}

/**
 * How much the picture changes in windows of the same length around, cuts left out: what three in four of them do not
 * exceed. High where a camera pans, whose lines passing through a block look like a mixture for a moment.
 */
function elsewhere(signatures: Signatures, steps: Float32Array, a: number, b: number, reach: number): number {
  const length = b - a;
  const changes: number[] = [];
  const pace = Math.max(1, Math.floor(length / 2));
  for (let away = length; away <= length + reach; away += pace) {
    for (const start of [a - away, a + away]) {
      if (start < 0 || start + length >= signatures.frames) continue;
      const change = distance(signatures, start, start + length);
      if (largestStep(steps, start, start + length) < mostInOneStep * change) changes.push(change);
    }
  }
  changes.sort((x, y) => x - y);
  return changes[Math.floor(changes.length * 0.75)] ?? 0;
}

function largestStep(steps: Float32Array, a: number, b: number): number {
  let largest = 0;
  for (let frame = a + 1; frame <= b; frame += 1) largest = Math.max(largest, steps[frame] ?? 0);
  return largest;
}

/** How much of the change a sideways move of the camera leaves unexplained, over the window or quarter by quarter. */
function leftByMoving(signatures: Signatures, a: number, b: number): number {
  const parts = Math.min(4, b - a);
  let sum = 0;
  for (let part = 0; part < parts; part += 1) {
    const [from, to] = [part, part + 1].map((at) => Math.round(a + ((b - a) * at) / parts)) as [number, number];
    sum += leftByPanning(signatures, from, to);
  }
  return Math.min(sum / parts, leftByPanning(signatures, a, b));
}

function middle(values: readonly number[]): number {
  return values.toSorted((a, b) => a - b)[values.length >> 1] ?? 0;
}

/**
 * How much faster the picture changes inside the window than in the second around it, by quarters of the window, cuts
 * left out. About 1 where a picture merely keeps changing.
 */
function quickening(signatures: Signatures, steps: Float32Array, a: number, b: number, reach: number): number {
  const lag = Math.max(1, Math.round((b - a) / 4));
  const change = (from: number): number => distance(signatures, from, from + lag);
  const inside: number[] = [];
  for (let frame = a; frame + lag <= b; frame += lag) inside.push(change(frame));
  const around: number[] = [];
  for (let away = lag; away <= reach + lag; away += lag) {
    for (const from of [a - away, b + away - lag]) {
      if (from < 0 || from + lag >= signatures.frames) continue;
      if (lag === 1 || largestStep(steps, from, from + lag) < 0.8 * change(from)) around.push(change(from));
    }
  }
  const pace = middle(around);
  return pace === 0 ? Infinity : middle(inside) / pace;
}

/** How different the picture is on average before the window and after it: little, when lines pass and pass again. */
function lasting({ rows, frames }: Signatures, a: number, b: number, reach: number): number {
  const before = Math.max(0, a - reach);
  const after = Math.min(frames - 1, b + reach);
  let sum = 0;
  for (let at = 0; at < mixLength; at += 1) {
    let [early, late] = [0, 0];
    for (let frame = before; frame <= a; frame += 1) early += rows[frame * signatureLength + at] ?? 0;
    for (let frame = b; frame <= after; frame += 1) late += rows[frame * signatureLength + at] ?? 0;
    const weight = at < blockCount ? 1 / blockCount : chromaWeight / chromaCount;
    sum += weight * Math.abs(early / (a - before + 1) - late / (after - b + 1));
  }
  return sum / 255;
}

/** Whether the frames from `a` to `b` go evenly from the one picture to the other; how badly at worst, or null. */
function mixes(signatures: Signatures, a: number, b: number): number | null {
  let before = -0.1;
  let worst = 0;
  const probes = Math.min(8, b - a);
  for (let probe = 1; probe < probes; probe += 1) {
    const { along, off } = onTheWay(signatures, a, b, Math.round(a + ((b - a) * probe) / probes));
    if (along < before - 0.06 || along > 1.1) return null;
    worst = Math.max(worst, off);
    if (worst > mostOff) return null;
    before = along;
  }
  return worst;
}

/** Moves the ends of a change outwards while the picture still moves along the way, inwards where it stands. */
function trim(signatures: Signatures, a: number, b: number): { last: number; first: number } {
  let last = a;
  let first = b;
  while (last < b - 1 && onTheWay(signatures, a, b, last + 1).along < edge) last += 1;
  while (first > last + 1 && onTheWay(signatures, a, b, first - 1).along > 1 - edge) first -= 1;
  return { last, first };
}

/**
 * Dissolves and fades by twin comparison: the frames at both ends of a window differ much while each frame differs
 * little from the next, and the frames between are mixtures of both ends, in order, which those of a pan are not.
 * Windows of an eighth of a second to two seconds are tried; where several fit, the best mixed wins. A fade out, its
 * plain frames and the fade in are one change. `steps` are the frames' distances to the one before; `perSecond` is
 * the film's rate, above 0. After Zhang, Kankanhalli & Smoliar (1993), Multimedia Systems 1:10-28.
 */
export function gradualChanges(signatures: Signatures, perSecond: number, steps: Float32Array): Transition[] {
  const found: { last: number; first: number; quality: number }[] = [];
  for (const window of windows) {
    const length = Math.max(3, Math.round(window * perSecond));
    const stride = Math.max(1, Math.floor(length / 8));
    for (let a = 0; a + length < signatures.frames; a += stride) {
      const b = a + length;
      const whole = distance(signatures, a, b);
      if (whole < leastChange) continue;
      if (largestStep(steps, a, b) > mostInOneStep * whole) continue;
      if (whole < overElsewhere * elsewhere(signatures, steps, a, b, Math.round(1.5 * perSecond))) continue;
      const worst = mixes(signatures, a, b);
      if (worst === null) continue;
      if (leftByMoving(signatures, a, b) < leastLeft) continue;
      if (changedShare(signatures, a, b) < leastShare) continue;
      if (quickening(signatures, steps, a, b, Math.round(perSecond)) < leastQuickening) continue;
      if (lasting(signatures, a, b, Math.round(perSecond / 2)) < leastLasting * whole) continue;
      const quality = whole * (1 - worst / mostOff);
      const ends = trim(signatures, a, b);
      if (quality < (transitionClass(ends) === 'cut' ? leastShortQuality : leastQuality)) continue;
      found.push({ ...ends, quality });
    }
  }
  return joinPieces(signatures, bestApart(found, signatures), perSecond);
}

type Found = { readonly last: number; readonly first: number; readonly quality: number };

/** Keeps the best of candidates that overlap. */
function bestApart(found: readonly Found[], signatures: Signatures): Transition[] {
  const taken = new Uint8Array(signatures.frames);
  const kept: Transition[] = [];
  for (const { last, first, quality } of found.toSorted((a, b) => b.quality - a.quality)) {
    if (taken.subarray(last, first + 1).includes(1)) continue;
    taken.fill(1, last, first + 1);
    const plain = isPlain(signatures, last) || isPlain(signatures, first);
    kept.push({ kind: plain ? 'fade' : 'dissolve', last, first, confidence: quality / (quality + 0.05) });
  }
  return kept.toSorted((a, b) => a.last - b.last);
}

/**
 * Joins pieces of one change: pieces a third of a second apart or less, and a fade to a plain tone with the fade from
 * it that follows within two seconds.
 */
function joinPieces(signatures: Signatures, changes: readonly Transition[], perSecond: number): Transition[] {
  const joined: Transition[] = [];
  for (const change of changes) {
    const before = joined.at(-1);
    const gap = before === undefined ? Infinity : change.last - before.first;
    const plain =
      before !== undefined && gap < 2 * perSecond && anyPlain(signatures, before.first - 1, change.last + 1);
    if (before === undefined || !(gap <= perSecond / 3 || plain)) {
      joined.push(change);
      continue;
    }
    const kind = plain || before.kind === 'fade' || change.kind === 'fade' ? 'fade' : 'dissolve';
    joined[joined.length - 1] = {
      kind,
      last: before.last,
      first: change.first,
      confidence: Math.max(before.confidence, change.confidence),
    };
  }
  return joined;
}

function anyPlain(signatures: Signatures, from: number, to: number): boolean {
  for (let frame = Math.max(0, from); frame <= Math.min(to, signatures.frames - 1); frame += 1) {
    if (isPlain(signatures, frame)) return true;
  }
  return false;
}
