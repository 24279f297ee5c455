import { useEffect, useMemo, useState } from 'react';
import { useActions, type Action } from '../kit/actions.ts';
import { Dialog } from '../kit/dialog.tsx';
import { call } from '../link/call.ts';
import { listen } from '../link/events.ts';
import { attempt, go, readDirectory, say, usePlace, type Room } from '../link/place.ts';
import { Board } from '../board/index.tsx';
import { Dossier } from '../dossier/index.tsx';
import { Reel } from '../reel/index.tsx';
import { SecondLook } from '../second-look/index.tsx';
import { SettingsRoom } from '../settings/index.tsx';
import { Sheet } from '../sheet/index.tsx';
import { SideBySide } from '../side-by-side/index.tsx';
import { Stage } from '../stage/index.tsx';
import { FaultLine } from './fault-line.tsx';
import { useActionKeys } from './keys.ts';
import { KeyList } from './key-list.tsx';
import { Palette } from './palette.tsx';
import { Rooms } from './rooms.tsx';
import { OpenOrMake, Welcome } from './welcome.tsx';
import './frame.css';

const built: ReadonlySet<Room> = new Set([
  'stage',
  'sheet',
  'side by side',
  'board',
  'dossier',
  'second look',
  'settings',
]);

const directoryTables: ReadonlySet<string> = new Set([
  'setting',
  'evaluator',
  'team',
  'runner',
  'game',
  'officialLine',
  'film',
  'rubricVersion',
  'play',
  'part',
]);

function RoomNow({ room }: { room: Room }) {
  switch (room) {
    case 'stage':
      return <Stage />;
    case 'sheet':
      return <Sheet />;
    case 'dossier':
      return <Dossier />;
    case 'settings':
      return <SettingsRoom />;
    case 'side by side':
      return <SideBySide />;
    case 'board':
      return <Board />;
    case 'second look':
      return <SecondLook />;
  }
}

/** The whole window: the rail of rooms, the room, what it says, and the dialogs over it. */
export function Window() {
  const { room, ready, directory, theme, density, notice } = usePlace();
  const [over, setOver] = useState<'palette' | 'keys' | 'study' | null>(null);
  useEffect(() => {
    void attempt(readDirectory);
    return listen((event) => {
      if (
        event.event === 'study' ||
        (event.event === 'changed' && event.touched.some((table) => directoryTables.has(table)))
      ) {
        void attempt(readDirectory);
      }
      if (event.event === 'progress') say(event.done < 1 ? `${event.words} ${Math.round(event.done * 100)} %` : '');
    });
  }, []);
  useEffect(() => {
    document.documentElement.dataset['theme'] = theme;
    document.documentElement.dataset['density'] = density;
  }, [theme, density]);
  const actions = useMemo<readonly Action[]>(
    () => [
      {
        name: 'Find anything',
        group: 'Window',
        keys: ['$mod+k'],
        everywhere: true,
        quiet: true,
        run: () => setOver('palette'),
      },
      { name: 'Show the keys', group: 'Window', keys: ['?', 'Shift+?'], run: () => setOver('keys') },
      { name: 'Open or make another study', group: 'Window', run: () => setOver('study') },
      { name: 'Undo', group: 'Window', keys: ['$mod+z'], run: () => void takeBack('change.undo') },
      { name: 'Redo', group: 'Window', keys: ['$mod+Shift+z', '$mod+y'], run: () => void takeBack('change.redo') },
      { name: 'Go to the Stage', group: 'Window', keys: ['Alt+1'], everywhere: true, run: () => go({ room: 'stage' }) },
      { name: 'Go to the Sheet', group: 'Window', keys: ['Alt+2'], everywhere: true, run: () => go({ room: 'sheet' }) },
      {
        name: 'Go to Side by side',
        group: 'Window',
        keys: ['Alt+3'],
        everywhere: true,
        run: () => go({ room: 'side by side' }),
      },
      { name: 'Go to the Board', group: 'Window', keys: ['Alt+4'], everywhere: true, run: () => go({ room: 'board' }) },
      {
        name: 'Go to the Dossier',
        group: 'Window',
        keys: ['Alt+5'],
        everywhere: true,
        run: () => go({ room: 'dossier' }),
      },
      {
        name: 'Go to Second look',
        group: 'Window',
        keys: ['Alt+6'],
        everywhere: true,
        run: () => go({ room: 'second look' }),
      },
      {
        name: 'Go to Settings',
        group: 'Window',
        keys: ['Alt+7'],
        everywhere: true,
        run: () => go({ room: 'settings' }),
      },
      {
        name: 'Change between dark and light',
        group: 'Window',
        run: () => go({ theme: usePlace.getState().theme === 'dark' ? 'light' : 'dark' }),
      },
    ],
    [],
  );
  useActions(actions);
  useActionKeys();
  return (
    <div className="window">
      <Rooms built={built} />
      <main className="room-now" aria-label={room}>
        {!ready ? null : directory === null ? <Welcome /> : <RoomNow room={built.has(room) ? room : 'stage'} />}
      </main>
      <FaultLine />
      <p className="unseen" role="status">
        {notice}
      </p>
      <Palette open={over === 'palette'} onClose={() => setOver(null)} />
      <Reel />
      <KeyList open={over === 'keys'} onClose={() => setOver(null)} />
      <Dialog title="Another study" open={over === 'study'} onClose={() => setOver(null)}>
        <OpenOrMake onDone={() => setOver(null)} />
      </Dialog>
    </div>
  );
}

async function takeBack(name: 'change.undo' | 'change.redo'): Promise<void> {
  const made = await attempt(() => call(name, { by: usePlace.getState().evaluatorId }));
  if (made !== undefined) say(`${name === 'change.undo' ? 'Taken back' : 'Done again'}: ${made.label}`);
}
