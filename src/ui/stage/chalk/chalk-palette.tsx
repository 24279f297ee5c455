import { keyInWords } from '../../kit/actions.ts';
import { chosenOf, useStage } from '../stage-store.ts';
import { usePlace } from '../../link/place.ts';
import { toolKeys } from './chalk-actions.ts';
import { framesToDraw } from './chalk-place.ts';
import { useChalk } from './chalk-store.ts';
import { eraseChosen, takeTool } from './draw-chalk.ts';
import { focusChalk, leaveChalk, setEnd } from './move-chalk.ts';

/** The tools at the picture's edge, each with its key, and the frames that the chalk lies on. */
export function ChalkPalette({ frame }: { frame: number }) {
  const { game, spanId, tables } = useStage();
  const playId = usePlace((place) => place.playId);
  const { tool, chosenId, from, to } = useChalk();
  const { span } = chosenOf(game, playId, spanId);
  if (span === null) return null;
  const chosen = game?.chalk.find(({ id }) => id === chosenId);
  const lies = chosen ?? framesToDraw(span, frame);
  const times = tables[span.filmId]?.times;
  const seconds = (times?.[lies.toFrame] ?? 0) - (times?.[lies.fromFrame] ?? 0);
  const byHand = (act: () => void) => () => {
    act();
    focusChalk();
  };
  return (
    <div className="chalk-palette" role="toolbar" aria-label="Chalk" aria-orientation="vertical">
      {toolKeys.map(({ tool: each, key }) => (
        <button
          key={each}
          type="button"
          aria-pressed={chosen === undefined && each === tool}
          onClick={byHand(() => takeTool(each))}
        >
          <kbd>{keyInWords(key)}</kbd> {each}
        </button>
      ))}
      <button
        type="button"
        aria-disabled
        aria-describedby="chalk-distance-why"
        title="Distance needs a calibrated frame"
      >
        <kbd>–</kbd> distance
      </button>
      <p className="chalk-why" id="chalk-distance-why">
        needs a calibrated frame
      </p>
      <p className="chalk-frames" data-set={from !== null || to !== null}>
        {chosen === undefined ? 'will lie on' : `${chosen.kind} lies on`} {lies.fromFrame}–{lies.toFrame}
        <br />
        {seconds.toFixed(2)} s
      </p>
      <button type="button" onClick={byHand(() => setEnd('from'))}>
        <kbd>I</kbd> from here
      </button>
      <button type="button" onClick={byHand(() => setEnd('to'))}>
        <kbd>O</kbd> to here
      </button>
      {chosen === undefined ? null : (
        <button type="button" onClick={byHand(eraseChosen)}>
          <kbd>⌫</kbd> erase
        </button>
      )}
      <button type="button" onClick={leaveChalk}>
        <kbd>Esc</kbd> done
      </button>
    </div>
  );
}
