import type { EvaluatorId, RunnerId } from './people.ts';

/** One sentence of a verdict with the carries it cites, for and against. */
export type Sentence = { readonly text: string; readonly citesFor: readonly string[]; readonly citesAgainst: readonly string[] };
export type Verdict = { readonly runnerId: RunnerId; readonly evaluatorId: EvaluatorId; readonly sentences: readonly Sentence[] };

export const VERDICTS: readonly Verdict[] = [];
