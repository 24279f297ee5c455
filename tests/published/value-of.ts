import type { Known } from '../../src/core/known.ts';

/** The value of an answer that a test expects to be known; fails with the reason otherwise. */
export function valueOf<Value, Because extends string>(answer: Known<Value, Because>): Value {
  if (!answer.known) throw new Error(`${answer.because}: ${answer.detail}`);
  return answer.value;
}
