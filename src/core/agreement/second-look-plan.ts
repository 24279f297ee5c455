/** Which carries to mark again, blind. */
import { type Known, known, unknown } from '../known.ts';
import type { Random } from '../random.ts';

/** A carry that was marked: when last, in milliseconds since 1970. What it was marked is left out on purpose. */
export type MarkedCarry = { readonly carry: string; readonly markedAt: number };

/** How old marks have to be before a second look, in days. Own convention, no source: old enough to be forgotten. */
export const daysBeforeSecondLook = 14;

/**
 * A blind sample of carries to mark again, in the order to mark them: drawn without replacement, each carry whose marks
 * are at least 14 days old as likely as any other, whatever its marks were, since they do not come in. Fewer than `count`
 * when fewer are old enough. The same seed and carries give the same plan whatever order they come in. Reason 'nothing
 * old enough'. Throws RangeError on a count that is not whole or below 1, a time that is not finite, or a carry given
 * twice. `now` in milliseconds since 1970.
 */
export function secondLookPlan(
  carries: readonly MarkedCarry[],
  count: number,
  now: number,
  random: Random,
  days = daysBeforeSecondLook,
): Known<readonly string[], 'nothing old enough'> {
  if (!Number.isInteger(count) || count < 1) throw new RangeError(`a count wants a whole number from 1, got ${count}`);
  for (const time of [now, ...carries.map((carry) => carry.markedAt)]) {
    if (!Number.isFinite(time)) throw new RangeError(`a time wants to be finite, got ${time}`);
  }
  const old = carries
    .filter((carry) => now - carry.markedAt >= days * 86_400_000)
    .map((carry) => carry.carry)
    .sort();
  if (new Set(carries.map((carry) => carry.carry)).size !== carries.length) {
    throw new RangeError('each carry wants to be given once, got one twice');
  }
  if (old.length === 0) return unknown('nothing old enough', `No marks are ${days} days old yet.`);
  const wanted = Math.min(count, old.length);
  for (let at = 0; at < wanted; at += 1) {
    const from = at + random.below(old.length - at);
    const taken = old[from] ?? '';
    old[from] = old[at] ?? '';
    old[at] = taken;
  }
  return known(old.slice(0, wanted));
}
