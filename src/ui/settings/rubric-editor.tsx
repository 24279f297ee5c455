import { useState } from 'react';
import { add } from '../../contract/changes.ts';
import type { RubricBody, RubricVersion } from '../../contract/rows.ts';
import { rubricFaults } from '../../core/rubric/rubric.ts';
import { Button } from '../kit/button.tsx';
import { Field } from '../kit/field.tsx';
import { makeChange, newId } from '../link/change.ts';
import { attempt, readDirectory, say, usePlace } from '../link/place.ts';
import { saveText } from '../files/save-text.ts';
import { readRubricFile, rubricFile } from './rubric-file.ts';

/** The rubric: weights, anchors and bars. Keeping a change makes a new version; marks stay as they were given. */
export function RubricEditor() {
  const newest = usePlace((place) => place.directory?.rubricVersions.at(-1));
  if (newest === undefined) return null;
  return <Editor key={newest.id} newest={newest} />;
}

function Editor({ newest }: { newest: RubricVersion }) {
  const [body, setBody] = useState<RubricBody>(newest.body);
  const [open, setOpen] = useState<string | null>(null);
  const [wrong, setWrong] = useState<string | null>(null);
  const changed = JSON.stringify(body) !== JSON.stringify(newest.body);
  const faults = rubricFaults(body);
  const setFamily = (key: string, weight: number): void =>
    setBody({
      ...body,
      families: body.families.map((family) => (family.key === key ? { ...family, weight } : family)),
    });
  const setTrait = (key: string, values: Partial<RubricBody['families'][number]['traits'][number]>): void =>
    setBody({
      ...body,
      families: body.families.map((family) => ({
        ...family,
        traits: family.traits.map((trait) => (trait.key === key ? { ...trait, ...values } : trait)),
      })),
    });
  const keep = (): void => {
    void attempt(async () => {
      await makeChange(`Rubric version ${newest.number + 1}`, [
        add('rubricVersion', { id: newId(), number: newest.number + 1, name: newest.name, body, madeAt: Date.now() }),
      ]);
      await readDirectory();
      say(`Rubric version ${newest.number + 1} is kept.`);
    });
  };
  return (
    <section className="rubric">
      <h2>Rubric, version {newest.number}</h2>
      <p className="muted">
        1 costs the play · 2 leaves yards · 3 takes what is there · 4 adds yards · 5 makes the play. Only the
        proportions of weights count. A new version changes no mark that was given.
      </p>
      {body.families.map((family) => (
        <div key={family.key} className="rubric-family">
          <div className="rubric-row head">
            <h3>{family.name}</h3>
            <Weight
              label={`Weight of ${family.name}`}
              value={family.weight}
              onChange={(weight) => setFamily(family.key, weight)}
            />
          </div>
          {family.traits.map((trait) => (
            <div key={trait.key}>
              <div className="rubric-row">
                <button
                  type="button"
                  aria-expanded={open === trait.key}
                  onClick={() => setOpen(open === trait.key ? null : trait.key)}
                >
                  <kbd>{trait.letter}</kbd> {trait.name}
                </button>
                <Weight
                  label={`Weight of ${trait.name}`}
                  value={trait.weight}
                  onChange={(weight) => setTrait(trait.key, { weight })}
                />
              </div>
              {open === trait.key ? (
                <div className="anchor-fields">
                  {trait.anchors.map((anchor, index) => (
                    <Field
                      key={index}
                      label={`${index + 1}`}
                      render={({ id }) => (
                        <textarea
                          id={id}
                          rows={2}
                          value={anchor}
                          onChange={(event) => {
                            const anchors = [...trait.anchors] as typeof trait.anchors;
                            anchors[index] = event.target.value;
                            setTrait(trait.key, { anchors });
                          }}
                        />
                      )}
                    />
                  ))}
                </div>
              ) : null}
            </div>
          ))}
        </div>
      ))}
      <h3>Bars: whose play is this good enough for?</h3>
      {body.bars.map((bar, index) => (
        <div key={bar.key} className="rubric-row">
          <span>
            {bar.name} <span className="muted">{bar.calibrated ? '' : 'provisional, not calibrated'}</span>
          </span>
          <Weight
            label={`Bar of ${bar.name}`}
            value={bar.value}
            onChange={(value) =>
              setBody({ ...body, bars: body.bars.map((each, at) => (at === index ? { ...each, value } : each)) })
            }
          />
        </div>
      ))}
      {faults.map((words) => (
        <p key={words} className="doubts" role="alert">
          {words}
        </p>
      ))}
      {wrong === null ? null : (
        <p className="doubts" role="alert">
          {wrong}
        </p>
      )}
      <div className="row">
        <Button kind="chosen" disabled={!changed || faults.length > 0} onClick={keep}>
          Keep as version {newest.number + 1}
        </Button>
        <Button onClick={() => saveText(`rubric version ${newest.number}.json`, rubricFile(newest.name, body))}>
          Export
        </Button>
        <label className="button">
          Import
          <input
            className="unseen"
            type="file"
            accept=".json,application/json"
            onChange={(event) => {
              const [file] = event.target.files ?? [];
              event.target.value = '';
              if (file === undefined) return;
              void file.text().then((text) => {
                const read = readRubricFile(text);
                if ('wrong' in read) setWrong(read.wrong);
                else {
                  setWrong(null);
                  setBody(read.body);
                  say('The rubric is read; keep it to make it the study’s.');
                }
              });
            }}
          />
        </label>
      </div>
    </section>
  );
}

function Weight({ label, value, onChange }: { label: string; value: number; onChange: (value: number) => void }) {
  return (
    <input
      className="weight"
      type="number"
      min={0}
      max={5}
      step={0.01}
      aria-label={label}
      value={value}
      onChange={(event) => {
        const next = event.target.valueAsNumber;
        if (Number.isFinite(next)) onChange(next);
      }}
    />
  );
}
