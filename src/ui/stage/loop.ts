import { chosenNow, useStage } from './stage-store.ts';

/** Seconds of film before the span that a loop begins with. */
const leadIn = 0.5;

/** Hears of each frame the player shows; in a loop, at the end of the span it goes back to its beginning with a lead-in. */
export function filmHeard(frame: number): void {
  const { looping, filmId, tables, playing } = useStage.getState();
  const { span } = chosenNow();
  if (!looping || !playing || span === null || span.filmId !== filmId || frame < span.outFrame) return;
  const rate = tables[span.filmId]?.rate;
  const lead = rate === undefined ? 0 : Math.round((leadIn * rate.frames) / rate.seconds);
  // Stopping and starting in two steps lets the handover seek; one step would look like no change to it.
  useStage.setState({ playing: false, frame: Math.max(0, span.inFrame - lead) });
  requestAnimationFrame(() => useStage.setState({ playing: true }));
}
