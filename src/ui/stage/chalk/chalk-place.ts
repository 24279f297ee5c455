import type { Chalk, Film, Span } from '../../../contract/rows.ts';
import { usePlace } from '../../link/place.ts';
import { chosenNow, useStage } from '../stage-store.ts';
import { secondLater } from './chalk-geometry.ts';
import { useChalk } from './chalk-store.ts';

/** The film shown, with the span that chalk would lie on; null where chalk can't lie. */
export function chalkPlace(): { readonly film: Film; readonly span: Span } | null {
  const { filmId } = useStage.getState();
  const { span } = chosenNow();
  const film = usePlace.getState().directory?.films.find(({ id }) => id === filmId);
  return film === undefined || span === null || span.filmId !== film.id ? null : { film, span };
}

/** This evaluator's chalk that lies over the frame shown, in the order it was drawn. */
export function ownChalkHere(): Chalk[] {
  const { game, spanId, frame } = useStage.getState();
  const { evaluatorId } = usePlace.getState();
  return (game?.chalk ?? []).filter(
    (each) =>
      each.spanId === spanId && each.evaluatorId === evaluatorId && each.fromFrame <= frame && frame <= each.toFrame,
  );
}

/** The chosen shape as it stands in the study; null when none is chosen or it is gone. */
export function chosenChalk(): Chalk | null {
  const { chosenId } = useChalk.getState();
  return useStage.getState().game?.chalk.find(({ id }) => id === chosenId) ?? null;
}

/** The frames that what is drawn now will lie on: this one and a second more, unless set by hand, inside the span. */
export function framesToDraw(span: Span, frame: number): { readonly fromFrame: number; readonly toFrame: number } {
  const { from, to } = useChalk.getState();
  const times = useStage.getState().tables[span.filmId]?.times ?? [];
  const fromFrame = from ?? frame;
  return { fromFrame, toFrame: Math.max(fromFrame, to ?? secondLater(times, frame, Math.max(frame, span.outFrame))) };
}
