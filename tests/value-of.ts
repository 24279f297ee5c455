import type { Known } from '../src/core/known.ts';

/** The value of an answer that a test expects to be known; fails with the reason otherwise. */
export function valueOf<Value, Because extends string>(answer: Known<Value, Because> | undefined): Value {
  if (answer === undefined) throw new Error('no answer at all');
  if (!answer.known) throw new Error(`${answer.because}: ${answer.detail}`);
  return answer.value;
}
