import { usePlace } from '../link/place.ts';
import type { Part, Play } from '../../contract/rows.ts';
import { giveMark, markInWords, ownMark } from './marking.ts';
import { carryFigures } from './figures.ts';
import { chosenOf, useStage } from './stage-store.ts';

/** The second line: each trait with its mark, what the numbers say of the carry, and the anchors of the trait being marked. */
export function MarksLine() {
  const { game, spanId, trait: waiting } = useStage();
  const { playId, evaluatorId, directory } = usePlace();
  const { play, part } = chosenOf(game, playId, spanId);
  const rubric = directory?.rubricVersions.at(-1);
  if (game === null || play === null || part === null || rubric === undefined) return null;
  const traits = rubric.body.families.flatMap((family) => family.traits);
  const asked = traits.find(({ key }) => key === waiting);
  return (
    <div className="marks">
      {asked === undefined ? null : (
        <div className="anchors" role="group" aria-label={`Mark ${asked.name}`}>
          <p className="anchors-title">{asked.name}</p>
          <ol>
            {asked.anchors.map((anchor, index) => (
              <li key={anchor}>
                <button type="button" onClick={() => giveMark(asked.key, 'shown', index + 1)}>
                  <kbd>{index + 1}</kbd> {anchor}
                </button>
              </li>
            ))}
          </ol>
          <p className="muted anchors-foot">
            <button type="button" onClick={() => giveMark(asked.key, 'not shown', null)}>
              <kbd>0</kbd> not shown
            </button>
            <button type="button" onClick={() => giveMark(asked.key, 'unseen', null)}>
              <kbd>-</kbd> can’t be seen
            </button>
            <button type="button" onClick={() => giveMark(asked.key, null, null)}>
              <kbd>⌫</kbd> not yet looked
            </button>
            <span>
              <kbd>.</kbd> after a figure adds a half
            </span>
          </p>
        </div>
      )}
      <div className="marks-line" role="group" aria-label="Marks">
        {traits.map((trait) => {
          const mark = ownMark(game.marks, part.id, trait.key, evaluatorId);
          const others = game.marks.filter(
            (each) =>
              each.partId === part.id &&
              each.trait === trait.key &&
              each.evaluatorId !== evaluatorId &&
              each.lookId === null,
          ).length;
          return (
            <button
              key={trait.key}
              type="button"
              className="trait"
              aria-pressed={waiting === trait.key}
              title={others === 0 ? undefined : `${others} other evaluator${others === 1 ? '' : 's'} marked this`}
              onClick={() => useStage.setState({ trait: waiting === trait.key ? null : trait.key })}
            >
              <kbd>{trait.letter}</kbd>
              <span>{trait.name.toLowerCase()}</span>
              {mark === null ? (
                <span className="mark-none" aria-label="not yet looked">
                  –
                </span>
              ) : (
                <span className={mark.state === 'shown' ? 'mark-value' : 'mark-none'}>{markInWords(mark)}</span>
              )}
            </button>
          );
        })}
      </div>
      <Figures play={play} part={part} />
    </div>
  );
}

function Figures({ play, part }: { play: Play; part: Part }) {
  const settings = usePlace((place) => place.directory?.settings ?? []);
  const figures = carryFigures(play, part, settings);
  if (!figures.known) return <p className="carry-figures muted">{figures.detail}</p>;
  const { expected, delta, success } = figures.value;
  return (
    <p className="carry-figures">
      expected {expected.toFixed(1)}
      {delta === null ? null : (
        <>
          , delta{' '}
          <span className="mark-value">{delta >= 0 ? `+${delta.toFixed(1)}` : delta.toFixed(1).replace('-', '−')}</span>
        </>
      )}
      {success === null ? null : ` · ${success ? 'success' : 'no success'}`}
      <span className="muted">
        {' '}
        · a carry’s situation explains about 2 % of its gain, and the delta includes the line
      </span>
    </p>
  );
}
