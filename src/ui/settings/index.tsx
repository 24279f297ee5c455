import { add, set, type ChangeStep } from '../../contract/changes.ts';
import { studySettings, type StudySettingName } from '../../contract/study-settings.ts';
import { successRules, yardsModels } from '../../contract/words.ts';
import { cautions } from '../../pages/index.ts';
import { Field } from '../kit/field.tsx';
import { makeChange } from '../link/change.ts';
import { attempt, go, readDirectory, usePlace } from '../link/place.ts';
import { Evaluators } from './evaluators.tsx';
import { Films } from './films.tsx';
import { OfficialLines } from './official-lines.tsx';
import { RubricEditor } from './rubric-editor.tsx';
import './settings.css';

/** What the study and this window are set to; the rubric; and About. */
export function SettingsRoom() {
  const { directory, theme, density } = usePlace();
  if (directory === null) return null;
  const settings = studySettings(directory.settings);
  const choose = (id: StudySettingName, value: string | boolean): void => {
    const standing = directory.settings.some((setting) => setting.id === id);
    const steps: ChangeStep[] = [standing ? set('setting', id, { value }) : add('setting', { id, value })];
    void attempt(async () => {
      await makeChange(`Setting: ${id}`, steps);
      await readDirectory();
    });
  };
  return (
    <div className="settings">
      <h1>Settings</h1>
      <section>
        <h2>This window</h2>
        <Field
          label="Theme"
          render={({ id }) => (
            <select
              id={id}
              value={theme}
              onChange={(event) => go({ theme: event.target.value === 'light' ? 'light' : 'dark' })}
            >
              <option value="dark">Dark, for film</option>
              <option value="light">Light</option>
            </select>
          )}
        />
        <Field
          label="Density"
          render={({ id }) => (
            <select
              id={id}
              value={density}
              onChange={(event) => go({ density: event.target.value === 'close' ? 'close' : 'open' })}
            >
              <option value="open">Open</option>
              <option value="close">Close: more on the screen</option>
            </select>
          )}
        />
        <Evaluators />
      </section>
      <section>
        <h2>Figures of this study</h2>
        <Field
          label="A carry is a success by"
          hint="Classic: 40, 60, 100, 100 % of the yards to go by down. College: 50, 70, 100, 100 %. A touchdown is a success."
          render={({ id, describedBy }) => (
            <select
              id={id}
              aria-describedby={describedBy}
              value={settings.successRule}
              onChange={(event) => choose('successRule', event.target.value)}
            >
              {successRules
                .filter((rule) => rule !== 'own')
                .map((rule) => (
                  <option key={rule} value={rule}>
                    the {rule} rule
                  </option>
                ))}
            </select>
          )}
        />
        <Field
          label="Expected yards by the fit for"
          hint="What an average carry gains from a situation. It includes the line; a situation explains about 2 % of a gain."
          render={({ id, describedBy }) => (
            <select
              id={id}
              aria-describedby={describedBy}
              value={settings.yardsModel}
              onChange={(event) => choose('yardsModel', event.target.value)}
            >
              {yardsModels.map((model) => (
                <option key={model} value={model}>
                  {model} runners
                </option>
              ))}
            </select>
          )}
        />
        <label className="row">
          <input
            type="checkbox"
            checked={settings.borrowBox}
            onChange={(event) => choose('borrowBox', event.target.checked)}
          />
          Borrow the professional effect of men in the box for college carries (shown as borrowed)
        </label>
      </section>
      <Films />
      <OfficialLines />
      <RubricEditor />
      <section>
        <h2>About</h2>
        <div className="about">
          <p>Creasebook, film study for people who evaluate college running backs.</p>
          {cautions.map((words) => (
            <p key={words}>{words}</p>
          ))}
        </div>
      </section>
    </div>
  );
}
