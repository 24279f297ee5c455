/**
 * The one way this program says "no answer": a value with its reason, never NaN, null or -1.
 * `because` is a short stable phrase a caller can switch on; `detail` is the sentence a person reads.
 */
export type Unknown<Because extends string = string> = {
  readonly known: false;
  readonly because: Because;
  readonly detail: string;
};

/** Either a value or a typed reason why there is none. */
export type Known<Value, Because extends string = string> =
  | { readonly known: true; readonly value: Value }
  | Unknown<Because>;

/** Wraps a value that could be computed. */
export function known<Value>(value: Value): { readonly known: true; readonly value: Value } {
  return { known: true, value };
}

/** Says why a value could not be computed. */
export function unknown<Because extends string>(because: Because, detail: string): Unknown<Because> {
  return { known: false, because, detail };
}

/** Applies a function to a known value and passes a reason on unchanged. */
export function mapKnown<A, B, Because extends string>(
  answer: Known<A, Because>,
  change: (value: A) => B,
): Known<B, Because> {
  return answer.known ? known(change(answer.value)) : answer;
}
