import { useState } from 'react';
import { add } from '../../contract/changes.ts';
import { Button } from '../kit/button.tsx';
import { Field } from '../kit/field.tsx';
import { makeChange, newId } from '../link/change.ts';
import { attempt, go, readDirectory, usePlace } from '../link/place.ts';

/** Who marks in this window; another evaluator can be added. */
export function Evaluators() {
  const { directory, evaluatorId } = usePlace();
  const [name, setName] = useState('');
  const join = (): void => {
    const id = newId();
    void attempt(async () => {
      await makeChange(`Add the evaluator ${name.trim()}`, [add('evaluator', { id, name: name.trim() })]);
      await readDirectory();
      go({ evaluatorId: id });
      setName('');
    });
  };
  return (
    <>
      <Field
        label="I am"
        hint="Marks and words are kept under this name. Undo takes back only this evaluator’s changes."
        render={({ id, describedBy }) => (
          <select
            id={id}
            aria-describedby={describedBy}
            value={evaluatorId ?? ''}
            onChange={(event) => go({ evaluatorId: event.target.value })}
          >
            {directory?.evaluators.map((evaluator) => (
              <option key={evaluator.id} value={evaluator.id}>
                {evaluator.name}
              </option>
            ))}
          </select>
        )}
      />
      <div className="row">
        <Field
          label="Another evaluator"
          render={({ id }) => <input id={id} value={name} onChange={(event) => setName(event.target.value)} />}
        />
        <Button disabled={name.trim() === ''} onClick={join}>
          Add
        </Button>
      </div>
    </>
  );
}
