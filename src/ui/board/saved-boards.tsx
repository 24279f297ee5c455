import { memo, useState } from 'react';
import { add, remove, set } from '../../contract/changes.ts';
import { savedBoards, savedBoardsSetting, type SavedBoard } from '../../contract/comparison-views.ts';
import { Button } from '../kit/button.tsx';
import { Dialog } from '../kit/dialog.tsx';
import { Field } from '../kit/field.tsx';
import { makeChange, newId } from '../link/change.ts';
import { attempt, readDirectory, say, usePlace } from '../link/place.ts';
import { showSaved, useBoard } from './board-store.ts';

/** Boards kept in the study under a name: shown, saved and removed. */
export const SavedBoards = memo(function SavedBoards() {
  const settings = usePlace((place) => place.directory?.settings);
  const runners = usePlace((place) => place.directory?.runners);
  const savedId = useBoard((board) => board.savedId);
  const [naming, setNaming] = useState(false);
  const [name, setName] = useState('');
  const standing = settings?.find(({ id }) => id === savedBoardsSetting);
  const saved = savedBoards.parse(standing?.value ?? []);
  const keep = async (label: string, next: readonly SavedBoard[]): Promise<boolean> => {
    const done = await attempt(async () => {
      const value = next.map((board) => ({ ...board, columns: [...board.columns], compare: [...board.compare] }));
      const step =
        standing === undefined
          ? add('setting', { id: savedBoardsSetting, value })
          : next.length === 0
            ? remove('setting', savedBoardsSetting)
            : set('setting', savedBoardsSetting, { value });
      await makeChange(label, [step]);
      await readDirectory();
      return true;
    });
    return done === true;
  };
  const show = (id: string): void => {
    const board = saved.find((each) => each.id === id);
    if (board === undefined) {
      useBoard.setState({ savedId: null });
      return;
    }
    const there = board.compare.filter((runnerId) => runners?.some((runner) => runner.id === runnerId));
    showSaved({ ...board, compare: there });
    const gone = board.compare.length - there.length;
    say(
      gone === 0
        ? `Showing ${board.name}`
        : `Showing ${board.name}. ${gone === 1 ? 'A runner' : `${gone} runners`} it compared ${gone === 1 ? 'is' : 'are'} no longer in the study.`,
    );
  };
  const save = async (): Promise<void> => {
    const { choice, columns, compare } = useBoard.getState();
    const board: SavedBoard = {
      id: newId(),
      name: name.trim().slice(0, 200),
      choice,
      columns: [...columns],
      compare: [...compare],
    };
    if (!(await keep(`Save the board ${board.name}`.slice(0, 200), [...saved, board]))) return;
    useBoard.setState({ savedId: board.id });
    setNaming(false);
    setName('');
    say(`Saved as ${board.name}`);
  };
  const shown = saved.find(({ id }) => id === savedId);
  return (
    <>
      {saved.length === 0 ? null : (
        <label className="row">
          <span className="muted">Saved</span>
          <select value={savedId ?? ''} onChange={(event) => show(event.target.value)}>
            <option value="">none of them</option>
            {saved.map((board) => (
              <option key={board.id} value={board.id}>
                {board.name}
              </option>
            ))}
          </select>
        </label>
      )}
      {shown === undefined ? (
        <Button kind="quiet" onClick={() => setNaming(true)}>
          Save this board
        </Button>
      ) : (
        <Button
          kind="quiet"
          onClick={() =>
            void keep(
              `Remove the board ${shown.name}`.slice(0, 200),
              saved.filter(({ id }) => id !== shown.id),
            ).then((done) => {
              if (done) useBoard.setState({ savedId: null });
            })
          }
        >
          Remove {shown.name}
        </Button>
      )}
      <Dialog title="Save this board" open={naming} onClose={() => setNaming(false)}>
        <form
          className="save-board"
          onSubmit={(event) => {
            event.preventDefault();
            if (name.trim() !== '') void save();
          }}
        >
          <Field
            label="Name"
            hint="Keeps the weights, the filter, the columns and the two runners picked, in the study."
            render={({ id, describedBy }) => (
              <input
                id={id}
                aria-describedby={describedBy}
                value={name}
                maxLength={120}
                onChange={(event) => setName(event.target.value)}
              />
            )}
          />
          <Button kind="chosen" type="submit" disabled={name.trim() === ''}>
            Save
          </Button>
        </form>
      </Dialog>
    </>
  );
});
