import type { Span } from '../../../contract/rows.ts';
import type { SpanProposal } from '../../../core/cutting/propose-spans.ts';

/** A proposal under review: what it is now, after the person moved or renamed it. */
export type Cut = {
  readonly id: string;
  readonly kind: SpanProposal['kind'];
  readonly first: number;
  readonly last: number;
  readonly because: string;
  readonly view: SpanProposal['view'];
  readonly play: number | null;
  readonly confidence: number;
  /** The span it became when it was accepted; null before. It counts only while that span stands. */
  readonly spanId: string | null;
  readonly dropped: boolean;
};

/** Confidence from which a proposal is likely; the cutter's own figure, a rank and no probability. */
export const likely = 0.5;

/** The review list of a film's proposals, each named by its place. */
export function cutsOf(spans: readonly SpanProposal[]): Cut[] {
  return spans.map((span, index) => ({ ...span, id: `cut ${index}`, spanId: null, dropped: false }));
}

/** How a proposal stands: still open, accepted, dropped, or lying where the study has a span already. */
export type CutState = 'open' | 'accepted' | 'dropped' | 'cut before';

/** Where a proposal stands, from the spans the study holds on its film. More than half of it cut before counts as cut. */
export function stateOf(cut: Cut, spans: readonly Pick<Span, 'id' | 'inFrame' | 'outFrame'>[]): CutState {
  if (cut.spanId !== null && spans.some(({ id }) => id === cut.spanId)) return 'accepted';
  if (cut.dropped) return 'dropped';
  const shared = spans.reduce(
    (sum, { inFrame, outFrame }) => sum + Math.max(0, Math.min(outFrame, cut.last) - Math.max(inFrame, cut.first) + 1),
    0,
  );
  return shared > (cut.last - cut.first + 1) / 2 ? 'cut before' : 'open';
}

/** Moves an end of a cut by frames, keeping at least one frame, inside the film. */
export function moveEnd(cut: Cut, end: 'in' | 'out', by: number, lastFrame: number): Cut {
  return end === 'in'
    ? { ...cut, first: Math.min(cut.last, Math.max(0, cut.first + by)) }
    : { ...cut, last: Math.max(cut.first, Math.min(lastFrame, cut.last + by)) };
}

/** What a cut is called next when its kind is turned. */
export function turnedKind(cut: Cut): Cut {
  const next = { play: 'replay', replay: 'graphic', graphic: 'play' } as const;
  return { ...cut, kind: next[cut.kind], because: 'as you said' };
}

/**
 * The span that a second view or a replay belongs to: of the cuts accepted before it, the nearest of the same play, else
 * the nearest live one; else the nearest live span that stands before it on the film. Null: nothing stands before it.
 */
export function spanBefore(
  cut: Cut,
  cuts: readonly Cut[],
  spans: readonly Pick<Span, 'id' | 'kind' | 'inFrame' | 'playId'>[],
): string | null {
  const standing = new Set(spans.map(({ id }) => id));
  const accepted = cuts.filter(
    (each) => each.last < cut.first && each.kind === 'play' && each.spanId !== null && standing.has(each.spanId),
  );
  const same = accepted.findLast((each) => cut.play !== null && each.play === cut.play);
  if (same !== undefined) return same.spanId;
  if (cut.kind === 'play') return null;
  const live = spans
    .filter(({ kind, inFrame, playId }) => kind === 'live' && inFrame < cut.first && playId !== null)
    .toSorted((a, b) => a.inFrame - b.inFrame)
    .at(-1);
  return live?.id ?? null;
}
