import { usePlace } from '../link/place.ts';
import { showSpan, spansOf, useStage } from './stage-store.ts';

/** The spans of the chosen play, when there is more than one: angles and replays to change between. */
export function Spans() {
  const { game, spanId } = useStage();
  const playId = usePlace((place) => place.playId);
  if (game === null || playId === null) return null;
  const spans = spansOf(game, playId);
  if (spans.length < 2) return null;
  return (
    <div className="spans" role="group" aria-label="Angles and replays of this play">
      {spans.map((span, index) => (
        <button key={span.id} type="button" aria-pressed={span.id === spanId} onClick={() => showSpan(span.id)}>
          <kbd>{index + 1}</kbd> {span.angle}
          {span.kind === 'live' ? '' : `, ${span.kind}`}
        </button>
      ))}
    </div>
  );
}
