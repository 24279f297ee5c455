import { Command } from 'cmdk';
import { useState } from 'react';
import { Dialog } from '../kit/dialog.tsx';
import { keyInWords, useActionTable, type Action } from '../kit/actions.ts';
import { go, usePlace } from '../link/place.ts';

const mostShown = 12;

/** Finds any runner, game or action by name. */
export function Palette({ open, onClose }: { open: boolean; onClose: () => void }) {
  const [words, setWords] = useState('');
  const owners = useActionTable((table) => table.owners);
  const directory = usePlace((place) => place.directory);
  // Filtered here and cut short, so that a study of a thousand games opens as fast as one of two.
  const wanted = words
    .toLowerCase()
    .split(/\s+/)
    .filter((word) => word !== '');
  const fits = (name: string): boolean => wanted.every((word) => name.toLowerCase().includes(word));
  const runners = (directory?.runners ?? []).filter(({ name }) => fits(name)).slice(0, mostShown);
  const games = (directory?.games ?? []).filter(({ label }) => fits(label)).slice(0, mostShown);
  const groups = new Map<string, Action[]>();
  for (const { actions } of owners) {
    for (const action of actions) {
      if (action.quiet !== true && fits(action.name))
        groups.set(action.group, [...(groups.get(action.group) ?? []), action]);
    }
  }
  const close = (): void => {
    onClose();
    setWords('');
  };
  const choose = (run: () => void): void => {
    close();
    // The dialog gives the focus back first; what the action focuses must stay.
    setTimeout(run, 0);
  };
  return (
    <Dialog title="Find" open={open} onClose={close}>
      <Command shouldFilter={false} label="Find a runner, a game or an action" className="palette">
        <Command.Input value={words} onValueChange={setWords} placeholder="A runner, a game, something to do" />
        <Command.List>
          <Command.Empty>Nothing by that name.</Command.Empty>
          <Command.Group heading="Runners">
            {runners.map((runner) => (
              <Command.Item
                key={runner.id}
                value={`${runner.name} ${runner.id}`}
                onSelect={() => choose(() => go({ room: 'sheet', runnerId: runner.id }))}
              >
                <span>{runner.name}</span>
                <span className="muted">{runner.carries} carries</span>
              </Command.Item>
            ))}
          </Command.Group>
          <Command.Group heading="Games">
            {games.map((game) => (
              <Command.Item
                key={game.id}
                value={`${game.label} ${game.id}`}
                onSelect={() => choose(() => go({ room: 'stage', gameId: game.id, playId: null }))}
              >
                <span>{game.label}</span>
                <span className="muted">{game.plays} plays</span>
              </Command.Item>
            ))}
          </Command.Group>
          {[...groups].map(([group, actions]) => (
            <Command.Group key={group} heading={group}>
              {actions.map((action) => (
                <Command.Item key={action.name} value={action.name} onSelect={() => choose(action.run)}>
                  <span>{action.name}</span>
                  {action.keys?.[0] === undefined ? null : <kbd>{keyInWords(action.keys[0])}</kbd>}
                </Command.Item>
              ))}
            </Command.Group>
          ))}
        </Command.List>
      </Command>
    </Dialog>
  );
}
