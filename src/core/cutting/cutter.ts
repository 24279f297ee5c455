import { findTransitions } from './find-transitions.ts';
import { steps } from './hard-cuts.ts';
import { beginShot, type Shot, type ShotBuilder } from './shot.ts';
import { signatureLength, signatureOf, type Signatures } from './signature.ts';
import type { Transition } from './transition.ts';

/** Cuts a film while its signatures come in, in memory that does not grow with the film. */
export type Cutter = {
  /** The row to write the next frame's signature into; taken in by `push`. */
  readonly row: () => Float32Array;
  readonly push: () => void;
  /** Ends the film: its shots and the changes between them, in order. */
  readonly finish: () => { readonly shots: readonly Shot[]; readonly transitions: readonly Transition[] };
};

/** Seconds of film looked at together, and seconds at the end of them that wait for what follows. */
const held = 60;
const waiting = 5;

/** Opens a cutter for a film of `perSecond` frames a second (above 0). Holds about a minute of signatures. */
export function openCutter(perSecond: number): Cutter {
  const margin = Math.ceil(waiting * perSecond);
  const capacity = Math.max(Math.ceil(held * perSecond), margin * 4);
  const rows = new Float32Array(capacity * signatureLength);
  const transitions: Transition[] = [];
  const shots: Shot[] = [];
  let base = 0;
  let count = 0;
  let settled = 0;
  let shot: ShotBuilder = beginShot(0, null);
  let shotTakenTo = 0;

  /** Puts the frames up to `limit` into their shots. */
  function takeShots(signatures: Signatures, all: Float32Array, limit: number): void {
    const waitingFor = transitions.filter(({ first }) => first > shotTakenTo);
    for (let frame = shotTakenTo; frame < limit; frame += 1) {
      const change = waitingFor[0];
      if (change !== undefined && frame > change.last) {
        if (frame < change.first) continue;
        shots.push(shot.end(change.last, change));
        shot = beginShot(change.first, change);
        waitingFor.shift();
      }
      shot.add(signatureOf(signatures, frame - base), all[frame - base] ?? 0);
    }
    shotTakenTo = limit;
  }

  function settle(limit: number): void {
    const signatures: Signatures = { frames: count, rows };
    const all = steps(signatures);
    for (const found of findTransitions(signatures, perSecond)) {
      const change = { ...found, last: found.last + base, first: found.first + base };
      const follows = change.last >= (transitions.at(-1)?.first ?? 0);
      if (change.last >= settled && change.last < limit && follows) transitions.push(change);
    }
    takeShots(signatures, all, limit);
    settled = limit;
  }

  return {
    row: () => rows.subarray(count * signatureLength, (count + 1) * signatureLength),
    push() {
      count += 1;
      if (count < capacity) return;
      const limit = base + count - margin;
      settle(limit);
      const kept = Math.min(2 * margin, count);
      rows.copyWithin(0, (count - kept) * signatureLength, count * signatureLength);
      base += count - kept;
      count = kept;
    },
    finish() {
      settle(base + count);
      const last = base + count - 1;
      const before = transitions.at(-1) ?? null;
      if (last >= (before?.first ?? 0)) shots.push(shot.end(last, null));
      return { shots, transitions };
    },
  };
}
