import { boardColumns, type BoardChoice, type BoardColumn, type BoardView } from '../../contract/comparison-views.ts';
import { choose, turnColumn } from './board-store.ts';
import { columnName } from './result-cell.tsx';

function Choice({
  label,
  everyone,
  value,
  words,
  onChoose,
}: {
  readonly label: string;
  readonly everyone: string;
  readonly value: string | null;
  readonly words: readonly string[];
  readonly onChoose: (value: string | null) => void;
}) {
  // A value that a saved board has and the class has no longer still says what is filtered.
  const offered = value === null || words.includes(value) ? words : [...words, value];
  if (offered.length === 0) return null;
  return (
    <select
      aria-label={label}
      value={value ?? ''}
      onChange={(event) => onChoose(event.target.value === '' ? null : event.target.value)}
    >
      <option value="">{everyone}</option>
      {offered.map((word) => (
        <option key={word}>{word}</option>
      ))}
    </select>
  );
}

const different = (words: readonly (string | null)[]): string[] =>
  [...new Set(words.filter((word) => word !== null))].toSorted((a, b) => a.localeCompare(b));

/** Who is on the board, and which results stand beside them. */
export function BoardFilter({
  view,
  choice,
  columns,
}: {
  readonly view: BoardView;
  readonly choice: BoardChoice;
  readonly columns: readonly BoardColumn[];
}) {
  return (
    <div className="board-filter">
      <Choice
        label="Position"
        everyone="every position"
        value={choice.position}
        words={different(view.runners.map(({ position }) => position))}
        onChoose={(position) => choose({ position })}
      />
      <Choice
        label="Class year"
        everyone="every class year"
        value={choice.classYear}
        words={different(view.runners.map(({ classYear }) => classYear))}
        onChoose={(classYear) => choose({ classYear })}
      />
      <label className="row">
        at least
        <input
          type="number"
          min={0}
          max={9999}
          value={choice.atLeast}
          onChange={(event) => {
            const wanted = Math.trunc(Number(event.target.value));
            choose({ atLeast: Number.isFinite(wanted) ? Math.min(9999, Math.max(0, wanted)) : 0 });
          }}
        />
        carries
      </label>
      <fieldset className="board-columns">
        <legend>Columns</legend>
        {boardColumns.map((column) => (
          <label key={column} className="row">
            <input
              type="checkbox"
              checked={columns.includes(column)}
              onChange={() => turnColumn(column, boardColumns)}
            />
            {columnName[column].toLowerCase()}
          </label>
        ))}
      </fieldset>
    </div>
  );
}
