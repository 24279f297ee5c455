import { useState } from 'react';
import { Button } from '../kit/button.tsx';
import { Empty } from '../kit/empty.tsx';
import { Field } from '../kit/field.tsx';
import { FileBrowser } from '../files/file-browser.tsx';
import { call } from '../link/call.ts';
import { attempt, readDirectory } from '../link/place.ts';

/** The first thing seen when no study is open: open one, or make one. */
export function Welcome() {
  return (
    <Empty title="No study is open">
      <OpenOrMake onDone={() => undefined} />
    </Empty>
  );
}

/** The two ways to a study: a file that is there, or a new one in a folder. */
export function OpenOrMake({ onDone }: { onDone: () => void }) {
  const [doing, setDoing] = useState<'open' | 'make' | null>(null);
  const [name, setName] = useState('My study');
  const [evaluator, setEvaluator] = useState('');
  const open = (path: string): void => {
    setDoing(null);
    void attempt(async () => {
      await call('study.open', { path });
      await readDirectory();
      onDone();
    });
  };
  const make = (folder: string): void => {
    setDoing(null);
    void attempt(async () => {
      await call('study.create', { path: `${folder}/${name}.creasebook`, evaluatorName: evaluator });
      await readDirectory();
      onDone();
    });
  };
  return (
    <>
      <p>A study is one file that holds everything but the film: plays, moments, marks, grades and pages.</p>
      <div className="row">
        <Button kind="chosen" onClick={() => setDoing('open')}>
          Open a study
        </Button>
      </div>
      <Field
        label="Name of a new study"
        render={({ id }) => <input id={id} value={name} onChange={(event) => setName(event.target.value)} />}
      />
      <Field
        label="Your name, as evaluator"
        render={({ id }) => <input id={id} value={evaluator} onChange={(event) => setEvaluator(event.target.value)} />}
      />
      <Button disabled={name.trim() === '' || evaluator.trim() === ''} onClick={() => setDoing('make')}>
        Make it in a folder
      </Button>
      <FileBrowser
        want="study"
        title="Open a study"
        open={doing === 'open'}
        onClose={() => setDoing(null)}
        onChoose={open}
      />
      <FileBrowser
        want="folder"
        title="Folder for the new study"
        open={doing === 'make'}
        onClose={() => setDoing(null)}
        onChoose={make}
      />
    </>
  );
}
