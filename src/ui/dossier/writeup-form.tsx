import { useState } from 'react';
import { add, set, type ChangeStep } from '../../contract/changes.ts';
import type { Writeup } from '../../contract/rows.ts';
import type { DossierView } from '../../contract/views.ts';
import { Button } from '../kit/button.tsx';
import { Field } from '../kit/field.tsx';
import { makeChange, newId } from '../link/change.ts';
import { attempt, say, usePlace } from '../link/place.ts';

type Sentence = { readonly text: string; readonly cites: string; readonly against: string };

const numbersIn = (text: string): number[] =>
  text
    .split(/[\s,;]+/)
    .filter((word) => /^\d+$/.test(word))
    .map(Number);

/** The evaluator's own words: role, fit, and a verdict whose every sentence cites carries for it and against it, by number. */
export function WriteupForm({ view }: { view: DossierView }) {
  const evaluatorId = usePlace((place) => place.evaluatorId);
  const [role, setRole] = useState(view.role ?? '');
  const [fit, setFit] = useState(view.fit ?? '');
  const [change, setChange] = useState(view.change ?? '');
  const [sentences, setSentences] = useState<readonly Sentence[]>(
    view.verdict.map(({ text, cites, against }) => ({ text, cites: cites.join(', '), against: against.join(', ') })),
  );
  const put = (index: number, values: Partial<Sentence>): void =>
    setSentences(sentences.map((sentence, at) => (at === index ? { ...sentence, ...values } : sentence)));
  const partIds = (text: string): string[] =>
    numbersIn(text).flatMap((number) => view.sheet.carries.find((carry) => carry.number === number)?.partId ?? []);
  const keep = (): void => {
    if (evaluatorId === null) return;
    const values: Omit<Writeup, 'id' | 'runnerId' | 'evaluatorId' | 'evidence'> = {
      role: role.trim() || null,
      fit: fit.trim() || null,
      change: change.trim() || null,
      verdict: sentences
        .filter(({ text }) => text.trim() !== '')
        .map(({ text, cites, against }) => ({ text: text.trim(), cites: partIds(cites), against: partIds(against) })),
    };
    void attempt(async () => {
      const steps: ChangeStep[] =
        view.writeupId === null
          ? [add('writeup', { id: newId(), runnerId: view.sheet.runner.id, evaluatorId, ...values })]
          : [set('writeup', view.writeupId, values)];
      await makeChange(`Write up ${view.sheet.runner.name}`, steps);
      say('Kept.');
    });
  };
  return (
    <form
      className="writeup"
      onSubmit={(event) => {
        event.preventDefault();
        keep();
      }}
    >
      <Field
        label="Role"
        render={({ id }) => (
          <textarea id={id} rows={2} value={role} onChange={(event) => setRole(event.target.value)} />
        )}
      />
      <Field
        label="Fit"
        render={({ id }) => <textarea id={id} rows={2} value={fit} onChange={(event) => setFit(event.target.value)} />}
      />
      <fieldset>
        <legend>Verdict, a sentence at a time</legend>
        {sentences.map((sentence, index) => (
          <div key={index} className="verdict-sentence">
            <Field
              label={`Sentence ${index + 1}`}
              render={({ id }) => (
                <textarea
                  id={id}
                  rows={2}
                  value={sentence.text}
                  onChange={(event) => put(index, { text: event.target.value })}
                />
              )}
            />
            <div className="form-grid">
              <Field
                label="Carries for it"
                render={({ id }) => (
                  <input
                    id={id}
                    value={sentence.cites}
                    onChange={(event) => put(index, { cites: event.target.value })}
                  />
                )}
              />
              <Field
                label="Carries against it"
                render={({ id }) => (
                  <input
                    id={id}
                    value={sentence.against}
                    onChange={(event) => put(index, { against: event.target.value })}
                  />
                )}
              />
            </div>
          </div>
        ))}
        <Button kind="quiet" onClick={() => setSentences([...sentences, { text: '', cites: '', against: '' }])}>
          Add a sentence
        </Button>
      </fieldset>
      <Field
        label="What would change this"
        render={({ id }) => (
          <textarea id={id} rows={2} value={change} onChange={(event) => setChange(event.target.value)} />
        )}
      />
      <Button kind="chosen" type="submit">
        Keep these words
      </Button>
    </form>
  );
}
